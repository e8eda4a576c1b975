using System;

namespace Lampblack.Cutting;

/// <summary>
/// What can at most be cut around a block in the plate's lower left corner: the block grows to the plate by rectangles put beside it or above it, each worth what it is worth where
/// nobody counts (Viswanathan and Bagchi, Operations Research 41, 1993; Hifi, Computers and Operations Research 24, 1997).
/// </summary>
internal sealed class AroundValue
{
    private readonly Positions _across;
    private readonly Positions _up;
    private readonly long[] _values;

    private AroundValue(Positions across, Positions up) =>
        (_across, _up, _values) = (across, up, new long[across.Lengths.Length * up.Lengths.Length]);

    /// <summary>The bound for a block of a width and a height.</summary>
    public long Of(int width, int height) => _values[(_across.AtOrBelow(width) * _up.Lengths.Length) + _up.AtOrBelow(height)];

    /// <summary>All bounds; null where the work was ended before.</summary>
    public static AroundValue? Of(Positions across, Positions up, FreeValue free, Work work)
    {
        var around = new AroundValue(across, up);
        var (wide, high) = (across.Lengths, up.Lengths);
        for (var i = wide.Length - 1; i >= 0; i--)
        {
            if (!work.Spend((long)high.Length * (wide.Length - i + (high.Length / 2)) / 16))
            {
                return null;
            }

            var gaps = new int[wide.Length];
            for (var right = i + 1; right < wide.Length; right++)
            {
                gaps[right] = across.AtOrBelow(wide[right] - wide[i]);
            }

            for (var j = high.Length - 1; j >= 0; j--)
            {
                long best = 0;
                for (var right = i + 1; right < wide.Length; right++)
                {
                    best = Math.Max(best, free[gaps[right], j] + around._values[(right * high.Length) + j]);
                }

                for (var top = j + 1; top < high.Length; top++)
                {
                    best = Math.Max(best, free[i, up.AtOrBelow(high[top] - high[j])] + around._values[(i * high.Length) + top]);
                }

                around._values[(i * high.Length) + j] = best;
            }
        }

        return around;
    }
}
