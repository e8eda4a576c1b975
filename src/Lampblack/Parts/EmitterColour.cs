namespace Lampblack.Parts;

/// <summary>The light behind the panels.</summary>
public enum EmitterColour
{
    /// <summary>White of about 3000 K.</summary>
    WarmWhite,

    /// <summary>White of about 6500 K.</summary>
    CoolWhite,

    /// <summary>Red.</summary>
    Red,

    /// <summary>Amber.</summary>
    Amber,

    /// <summary>Green.</summary>
    Green,

    /// <summary>Blue.</summary>
    Blue,
}
