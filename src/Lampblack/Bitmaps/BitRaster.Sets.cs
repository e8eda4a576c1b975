using System;
using System.Numerics;
using System.Runtime.InteropServices;

namespace Lampblack.Bitmaps;

/// <content>Pictures put together dot by dot, and parts of pictures.</content>
public sealed partial class BitRaster
{
    private enum Join
    {
        And,
        Or,
        Except,
    }

    /// <summary>The dots that are set in both.</summary>
    /// <exception cref="ArgumentException">The pictures differ in size.</exception>
    public BitRaster And(BitRaster other) => With(other, Join.And);

    /// <summary>The dots that are set in either.</summary>
    /// <exception cref="ArgumentException">The pictures differ in size.</exception>
    public BitRaster Or(BitRaster other) => With(other, Join.Or);

    /// <summary>The dots that are set here and not in the other.</summary>
    /// <exception cref="ArgumentException">The pictures differ in size.</exception>
    public BitRaster Except(BitRaster other) => With(other, Join.Except);

    /// <summary>The dots that are clear.</summary>
    public BitRaster Complement()
    {
        var result = new BitRasterBuilder(WidthDots, HeightDots);
        for (var row = 0; row < HeightDots; row++)
        {
            // The words behind the row's own stay clear; the builder clears what is too much in the last one.
            var from = Row(row);
            var to = result.Row(row);
            for (var index = 0; index < to.Length; index++)
            {
                to[index] = ~from[index];
            }
        }

        return result.ToRaster();
    }

    /// <summary>A part of the picture, or a larger one that holds it: what lies beyond its edges is clear.</summary>
    /// <param name="left">The first column; may be negative.</param>
    /// <param name="top">The first row; may be negative.</param>
    /// <param name="widthDots">Columns; at least 1.</param>
    /// <param name="heightDots">Rows; at least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A side is shorter than 1 dot.</exception>
    public BitRaster Crop(int left, int top, int widthDots, int heightDots)
    {
        var result = new BitRasterBuilder(widthDots, heightDots);
        for (var row = Math.Max(0, -top); row < heightDots && row + (long)top < HeightDots; row++)
        {
            var from = Row(row + top);
            var to = result.Row(row);
            for (var index = 0; index < to.Length; index++)
            {
                to[index] = WordAt(from, left + ((long)index * DotsPerWord));
            }
        }

        return result.ToRaster();
    }

    /// <summary>64 dots from any column on.</summary>
    private static ulong WordAt(ReadOnlySpan<ulong> row, long column)
    {
        var index = column >> 6;
        var shift = (int)(column & 63);
        return shift == 0 ? At(row, index) : (At(row, index) >> shift) | (At(row, index + 1) << (DotsPerWord - shift));

        static ulong At(ReadOnlySpan<ulong> row, long index) => index >= 0 && index < row.Length ? row[(int)index] : 0;
    }

    private BitRaster With(BitRaster other, Join join)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (other.WidthDots != WidthDots || other.HeightDots != HeightDots)
        {
            throw new ArgumentException($"pictures of {WidthDots} x {HeightDots} and {other.WidthDots} x {other.HeightDots} dots can't be put together", nameof(other));
        }

        var words = new ulong[_words.Length];
        var first = MemoryMarshal.Cast<ulong, Vector<ulong>>(_words);
        var second = MemoryMarshal.Cast<ulong, Vector<ulong>>(other._words);
        var to = MemoryMarshal.Cast<ulong, Vector<ulong>>(words.AsSpan());
        for (var index = 0; index < to.Length; index++)
        {
            to[index] = join switch
            {
                Join.And => first[index] & second[index],
                Join.Or => first[index] | second[index],
                _ => Vector.AndNot(first[index], second[index]),
            };
        }

        return new(WidthDots, HeightDots, words);
    }
}
