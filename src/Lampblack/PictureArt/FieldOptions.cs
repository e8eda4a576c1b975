namespace Lampblack.PictureArt;

/// <summary>What the transparent part of a picture is.</summary>
public enum TransparentIs
{
    /// <summary>Field if what is drawn on it is light, paper if it is dark; said and doubted.</summary>
    Auto,

    /// <summary>Field: it becomes black.</summary>
    Field,

    /// <summary>Paper: it becomes an opening.</summary>
    Paper,
}

/// <summary>How the field is told from what shines.</summary>
/// <param name="LevelLightness">
/// Below which lightness (CIE L*, 0 to 100) a dot is field; null to find it from the picture.
/// A coloured dot counts as light as a grey of its strongest colour, since that is what comes through from behind.
/// </param>
/// <param name="ToleranceLightness">
/// How much lighter than the field (L*) a dark grey area may be and still be field; null for the usual 30, and then such areas are doubted.
/// </param>
/// <param name="KeepColours">Whether legends keep their colours; else all of them are bare paper.</param>
/// <param name="Transparent">What the transparent part is.</param>
/// <param name="Inverted">Whether the picture is drawn dark on light, as on paper: the light part is the field then.</param>
public sealed record FieldOptions(
    double? LevelLightness = null,
    double? ToleranceLightness = null,
    bool KeepColours = true,
    TransparentIs Transparent = TransparentIs.Auto,
    bool Inverted = false)
{
    /// <summary>Everything from the picture itself.</summary>
    public static FieldOptions Usual { get; } = new();
}
