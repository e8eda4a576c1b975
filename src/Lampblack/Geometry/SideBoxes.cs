using System;

namespace Lampblack.Geometry;

/// <summary>The boxes of sides, in the order in which a line that moves to the right meets them, and the strips of height they reach into.</summary>
internal sealed class SideBoxes
{
    private readonly long[] _stripBounds;

    public SideBoxes(ReadOnlySpan<GridSide> sides)
    {
        var count = sides.Length;
        (LowX, HighX, LowY, HighY, FromTheLeft) = (new long[count], new long[count], new long[count], new long[count], new int[count]);
        for (var index = 0; index < count; index++)
        {
            ref readonly var side = ref sides[index];
            (LowX[index], HighX[index]) = side.Start.X < side.End.X ? (side.Start.X, side.End.X) : (side.End.X, side.Start.X);
            (LowY[index], HighY[index]) = side.Start.Y < side.End.Y ? (side.Start.Y, side.End.Y) : (side.End.Y, side.Start.Y);
            FromTheLeft[index] = index;
        }

        Array.Sort((long[])LowX.Clone(), FromTheLeft);
        _stripBounds = Bounds(LowY);
        Strips = new (int, int)[count];
        for (var index = 0; index < count; index++)
        {
            var first = Strip(LowY[index]);
            Strips[index] = (first, HighY[index] == LowY[index] ? first : Strip(HighY[index]));
        }
    }

    public long[] LowX { get; }

    public long[] HighX { get; }

    public long[] LowY { get; }

    public long[] HighY { get; }

    public int[] FromTheLeft { get; }

    /// <summary>The lowest and the highest strip of each side.</summary>
    public (int First, int Last)[] Strips { get; }

    public int StripCount => _stripBounds.Length + 1;

    private static long[] Bounds(long[] lows)
    {
        var count = (int)Math.Sqrt(lows.Length / 4.0);
        if (count < 2)
        {
            return [];
        }

        var sorted = (long[])lows.Clone();
        Array.Sort(sorted);
        var bounds = new long[count - 1];
        for (var strip = 1; strip < count; strip++)
        {
            bounds[strip - 1] = sorted[(int)((long)sorted.Length * strip / count)];
        }

        return bounds;
    }

    /// <summary>How many bounds lie at or below a height.</summary>
    private int Strip(long y)
    {
        var (low, high) = (0, _stripBounds.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (_stripBounds[middle] <= y)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        return low;
    }
}
