using System;
using System.Numerics;

namespace Lampblack.Bitmaps;

/// <summary>Runs of dots within one row of packed words.</summary>
internal static class BitRuns
{
    /// <summary>Sets or clears the dots from <paramref name="start"/> up to <paramref name="end"/>, the latter left out.</summary>
    public static void Write(Span<ulong> row, int start, int end, bool set)
    {
        if (start >= end)
        {
            return;
        }

        var (first, last) = (start / BitRaster.DotsPerWord, (end - 1) / BitRaster.DotsPerWord);
        for (var index = first; index <= last; index++)
        {
            var mask = ulong.MaxValue;
            mask &= index == first ? ulong.MaxValue << (start % BitRaster.DotsPerWord) : ulong.MaxValue;
            mask &= index == last ? ulong.MaxValue >> (BitRaster.DotsPerWord - 1 - ((end - 1) % BitRaster.DotsPerWord)) : ulong.MaxValue;
            row[index] = set ? row[index] | mask : row[index] & ~mask;
        }
    }

    /// <summary>The first dot from a column on that is set, or clear where <paramref name="set"/> is false; <paramref name="width"/> where there is none before it.</summary>
    public static int Find(ReadOnlySpan<ulong> row, int column, int width, bool set)
    {
        if (column >= width)
        {
            return width;
        }

        var flip = set ? 0 : ulong.MaxValue;
        var index = column / BitRaster.DotsPerWord;
        var word = (row[index] ^ flip) & (ulong.MaxValue << (column % BitRaster.DotsPerWord));
        while (word == 0)
        {
            if (++index >= row.Length)
            {
                return width;
            }

            word = row[index] ^ flip;
        }

        return Math.Min(width, (index * BitRaster.DotsPerWord) + BitOperations.TrailingZeroCount(word));
    }
}
