namespace Lampblack.Artwork;

/// <summary>
/// The patterns that stand for colours where there is black toner only, in the order in which a desk's inks take them. Neighbours in the list differ in
/// form and in how much paper they leave, so that the first few, which most desks get by with, are the easiest to tell apart.
/// </summary>
public enum HatchPattern
{
    /// <summary>Lines that rise to the right; half of the paper shows.</summary>
    Rising,

    /// <summary>Dots; a quarter shows.</summary>
    Dots,

    /// <summary>Broad bars across; two thirds show.</summary>
    BroadBars,

    /// <summary>Lines along; half shows.</summary>
    Along,

    /// <summary>Thin lines that fall to the right; a third shows.</summary>
    Falling,

    /// <summary>Crossing lines; more than half shows.</summary>
    Crossed,

    /// <summary>Thin bars across; less than a third shows.</summary>
    ThinBars,

    /// <summary>Bars with a bend; half shows.</summary>
    Chevrons,
}

/// <summary>The words for patterns.</summary>
public static class HatchPatterns
{
    /// <summary>How many there are.</summary>
    public const int Count = 8;

    /// <summary>A pattern in words, for people.</summary>
    /// <param name="pattern">The pattern.</param>
    public static string Words(HatchPattern pattern) => pattern switch
    {
        HatchPattern.Rising => "lines rising to the right",
        HatchPattern.Dots => "dots",
        HatchPattern.BroadBars => "broad bars",
        HatchPattern.Along => "lines along",
        HatchPattern.Falling => "thin lines falling to the right",
        HatchPattern.Crossed => "crossing lines",
        HatchPattern.ThinBars => "thin bars",
        _ => "chevrons",
    };
}
