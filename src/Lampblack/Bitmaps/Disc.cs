using System;
using System.Collections.Immutable;

namespace Lampblack.Bitmaps;

/// <summary>
/// The dots of a disc, row by row: in the rows at distance j from the middle, all within the half-chord to either side of it.
/// The middle is a dot, or a corner that four dots share, so that a disc may also be an even number of dots wide.
/// </summary>
/// <param name="Corner">0 where the middle is a dot; 1 where it is that dot's lower right corner, -1 its upper left one.</param>
/// <param name="HalfChords">
/// How many dots the disc reaches to either side, by row distance. Around a corner the rows at distance j are those j rows beyond the two nearest ones,
/// and the half-chord counts from the two nearest dots in the same way.
/// </param>
internal sealed record Disc(int Corner, ImmutableArray<int> HalfChords)
{
    /// <summary>
    /// All dots with dx² + dy² &lt;= r², the exact square of the number given: the fused product is rounded only after the subtraction, so its sign is right.
    /// </summary>
    /// <param name="radiusDots">The radius; not negative.</param>
    /// <param name="mostDots">Reaches beyond this are cut off, as no picture is larger.</param>
    public static Disc OfRadius(double radiusDots, int mostDots)
    {
        if (!(radiusDots >= 0 && double.IsFinite(radiusDots)))
        {
            throw new ArgumentOutOfRangeException(nameof(radiusDots), radiusDots, "a radius is a number of dots from 0 up");
        }

        // Any radius beyond the picture's diagonal does the same.
        var radius = Math.Min(radiusDots, (2.0 * mostDots) + 1);
        return Of(0, mostDots, (int)radius + 1, (dx, dy) => Math.FusedMultiplyAdd(radius, radius, -(((double)dx * dx) + ((double)dy * dy))) >= 0);
    }

    /// <summary>All dots whose middles lie within half a diameter of the middle; just so many dots wide and high.</summary>
    /// <param name="diameterDots">Its width; 1 or more.</param>
    /// <param name="mostDots">Reaches beyond this are cut off.</param>
    /// <param name="corner">Which corner of the dot an even disc lies around: 1 or -1.</param>
    public static Disc OfDiameter(int diameterDots, int mostDots, int corner)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(diameterDots, 1);
        var odd = diameterDots % 2;
        var square = (long)diameterDots * diameterDots;
        return Of(odd == 1 ? 0 : corner, mostDots, diameterDots / 2, (dx, dy) => Square(dx) + Square(dy) <= square);

        // In halves of a dot; from a corner the nearest middles are one half away.
        long Square(int distance) => ((2L * distance) + 1 - odd) * ((2L * distance) + 1 - odd);
    }

    private static Disc Of(int corner, int mostDots, int reach, Func<int, int, bool> holds)
    {
        var chords = ImmutableArray.CreateBuilder<int>();
        for (var dy = 0; dy <= mostDots && holds(0, dy); dy++)
        {
            while (!holds(reach, dy))
            {
                reach--;
            }

            chords.Add(Math.Min(reach, mostDots));
        }

        return new(corner, chords.ToImmutable());
    }
}
