namespace Lampblack.Lettering;

/// <summary>What a glyph's outlines are like.</summary>
internal enum GlyphState
{
    /// <summary>There are contours.</summary>
    Drawn,

    /// <summary>There are none.</summary>
    Blank,

    /// <summary>They can't be used.</summary>
    Damaged,
}

/// <summary>One glyph of a shaped line; lengths in font units.</summary>
/// <param name="Glyph">Its number in the font; 0 where the font lacks the character.</param>
/// <param name="Cluster">Index of the first character it stands for.</param>
/// <param name="Advance">From its origin to the next one's.</param>
/// <param name="OffsetX">How far to the right of the pen it is drawn.</param>
/// <param name="OffsetY">How far above the baseline it is drawn.</param>
internal readonly record struct PlacedGlyph(uint Glyph, int Cluster, int Advance, int OffsetX, int OffsetY);
