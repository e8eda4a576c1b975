using System;

namespace Lampblack.Geometry;

/// <summary>
/// Sides shared out to strips of height, about equally many in each, and in every strip in the order in which a line that moves to the right meets
/// them. A long slanting side stands in each strip only as wide as it is there.
/// </summary>
internal sealed class SideStrips
{
    private const int StripShift = 40;

    private readonly long[] _bounds;
    private int _count;

    public SideStrips(ReadOnlySpan<GridSide> sides)
    {
        _bounds = Bounds(sides);
        var leftX = long.MaxValue;
        foreach (ref readonly var side in sides)
        {
            leftX = Math.Min(leftX, side.Start.X);
        }

        (Sides, HighX, Keys) = (new int[sides.Length], new long[sides.Length], new long[sides.Length]);
        LeftX = leftX;
        for (var index = 0; index < sides.Length; index++)
        {
            ref readonly var side = ref sides[index];
            var (lower, upper) = side.Start.Y < side.End.Y ? (side.Start, side.End) : (side.End, side.Start);
            var (first, last) = (Strip(lower.Y), lower.Y == upper.Y ? -1 : Strip(upper.Y));
            if (last <= first)
            {
                Add(index, first, lower.X, upper.X);
                continue;
            }

            for (var strip = first; strip <= last; strip++)
            {
                Add(index, strip, strip == first ? lower.X : At(lower, upper, _bounds[strip - 1]), strip == last ? upper.X : At(lower, upper, _bounds[strip]));
            }
        }

        Order = new int[_count];
        for (var index = 0; index < _count; index++)
        {
            Order[index] = index;
        }

        Array.Sort(Keys[.._count], Order);
    }

    /// <summary>The entries, strip by strip, in each from the left.</summary>
    public int[] Order { get; }

    /// <summary>Of each entry its side.</summary>
    public int[] Sides { get; private set; }

    /// <summary>Of each entry where it ends at the right.</summary>
    public long[] HighX { get; private set; }

    /// <summary>Of each entry the strip and the left end, in one number.</summary>
    private long[] Keys { get; set; }

    private long LeftX { get; }

    /// <summary>Which strip an entry stands in.</summary>
    public int StripOf(int entry) => (int)(Keys[entry] >> StripShift);

    /// <summary>Where an entry begins at the left.</summary>
    public long LowX(int entry) => (Keys[entry] & ((1L << StripShift) - 1)) + LeftX;

    private static long[] Bounds(ReadOnlySpan<GridSide> sides)
    {
        var count = (int)Math.Sqrt(sides.Length / 4.0);
        if (count < 2)
        {
            return [];
        }

        var lows = new long[sides.Length];
        for (var index = 0; index < lows.Length; index++)
        {
            lows[index] = Math.Min(sides[index].Start.Y, sides[index].End.Y);
        }

        Array.Sort(lows);
        var bounds = new long[count - 1];
        for (var strip = 1; strip < count; strip++)
        {
            bounds[strip - 1] = lows[(int)((long)lows.Length * strip / count)];
        }

        return bounds;
    }

    private static long At(GridPoint lower, GridPoint upper, long y) =>
        lower.X + (long)Math.Round((upper.X - lower.X) * ((double)(y - lower.Y) / (upper.Y - lower.Y)), MidpointRounding.AwayFromZero);

    /// <summary>An entry a step wider on both sides than it is there, as where a side enters a strip is rounded.</summary>
    private void Add(int side, int strip, long oneX, long otherX)
    {
        if (_count == Sides.Length)
        {
            var (sides, highX, keys) = (Sides, HighX, Keys);
            Array.Resize(ref sides, 2 * _count);
            Array.Resize(ref highX, 2 * _count);
            Array.Resize(ref keys, 2 * _count);
            (Sides, HighX, Keys) = (sides, highX, keys);
        }

        Sides[_count] = side;
        HighX[_count] = Math.Max(oneX, otherX) + 1;
        Keys[_count] = ((long)strip << StripShift) | Math.Max(0, Math.Min(oneX, otherX) - 1 - LeftX);
        _count++;
    }

    /// <summary>How many bounds lie at or below a height.</summary>
    private int Strip(long y)
    {
        var (low, high) = (0, _bounds.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (_bounds[middle] <= y)
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
