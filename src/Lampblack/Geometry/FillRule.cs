namespace Lampblack.Geometry;

/// <summary>Which places outlines enclose where they cross themselves or each other.</summary>
public enum FillRule
{
    /// <summary>Those that the outlines go around, counter-clockwise and clockwise turns weighed against each other, not nought times.</summary>
    NonZero,

    /// <summary>Those that the outlines go around an odd number of times.</summary>
    EvenOdd,
}
