using System.Collections.Immutable;
using Lampblack.Findings;
using Lampblack.Quantities;

namespace Lampblack.Desks;

/// <summary>What stands where a picture is transparent.</summary>
public enum ArtBackground
{
    /// <summary>The picture decides: what is drawn dark needs paper behind it, what is drawn light needs the field.</summary>
    Auto,

    /// <summary>The field.</summary>
    Field,

    /// <summary>Bare paper.</summary>
    Paper,
}

/// <summary>Artwork drawn elsewhere.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Span">Where its table starts.</param>
/// <param name="Style">How what is not field is printed; an ink of its own, where one is given, takes the place of the picture's colours.</param>
/// <param name="Copies">Its copies.</param>
/// <param name="File">Its path, relative to the desk file, with '/'.</param>
/// <param name="FileSpan">Where the path is written.</param>
/// <param name="XMm">Its lower left corner, before it is turned.</param>
/// <param name="YMm">Its lower left corner, before it is turned.</param>
/// <param name="WidthMm">How wide it is; null where its height or the picture itself says so.</param>
/// <param name="HeightMm">How high it is; null where its width or the picture itself says so.</param>
/// <param name="TurnDegrees">How far it is turned about that corner, clockwise.</param>
/// <param name="Reading">How the picture is read.</param>
public sealed record ArtItem(
    string Id,
    SourceSpan Span,
    MarkStyle Style,
    Repetition Copies,
    string File,
    SourceSpan FileSpan,
    double XMm,
    double YMm,
    double? WidthMm,
    double? HeightMm,
    double TurnDegrees,
    ArtReading Reading) : PanelItem(Id, Span, Style, Copies);

/// <summary>How a picture is read.</summary>
/// <param name="FieldBelowLightness">Lightness (CIE L*, 0 to 100) below which a dot is field; null where the picture decides.</param>
/// <param name="PaperAboveLightness">Lightness above which a dot is bare paper; null for the usual.</param>
/// <param name="ToleranceLightness">How much lighter than the field (L*) a dark gray may be and still be field; null for the usual.</param>
/// <param name="Colours">Whether colours that are not field stay.</param>
/// <param name="Kept">The only colours that stay; empty for all.</param>
/// <param name="OneInk">Whether all that is not field is printed in the item's own ink.</param>
/// <param name="Background">What stands where it is transparent.</param>
/// <param name="Invert">Whether light and dark change places before anything else.</param>
/// <param name="HolesNamed">Shapes whose id or class starts so are holes; null for none.</param>
/// <param name="HoleColour">What has this colour is a hole; null for none.</param>
public sealed record ArtReading(
    double? FieldBelowLightness,
    double? PaperAboveLightness,
    double? ToleranceLightness,
    bool Colours,
    ImmutableArray<ScreenColour> Kept,
    bool OneInk,
    ArtBackground Background,
    bool Invert,
    string? HolesNamed,
    ScreenColour? HoleColour);
