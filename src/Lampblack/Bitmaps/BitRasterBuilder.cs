using System;

namespace Lampblack.Bitmaps;

/// <summary>
/// Dots that are still being set; all are clear at first. Rows may be filled in any order and on several threads at once, each row by one of them.
/// </summary>
public sealed class BitRasterBuilder
{
    private readonly int _stride;
    private ulong[]? _words;

    /// <summary>Makes room for a picture.</summary>
    /// <param name="widthDots">Dots in a row; at least 1.</param>
    /// <param name="heightDots">Rows; at least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A side is shorter than 1 dot, or the picture is larger than memory holds.</exception>
    public BitRasterBuilder(int widthDots, int heightDots)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(widthDots, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(widthDots, int.MaxValue - (BitRaster.WordsPerBlock * BitRaster.DotsPerWord));
        ArgumentOutOfRangeException.ThrowIfLessThan(heightDots, 1);
        _stride = BitRaster.StrideOf(widthDots);
        ArgumentOutOfRangeException.ThrowIfGreaterThan((long)_stride * heightDots, Array.MaxLength / 8, nameof(heightDots));
        WidthDots = widthDots;
        HeightDots = heightDots;
        _words = new ulong[_stride * heightDots];
    }

    /// <summary>Dots in a row.</summary>
    public int WidthDots { get; }

    /// <summary>Rows.</summary>
    public int HeightDots { get; }

    /// <summary>A dot; column from the left, row from the top.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The dot is not in the picture.</exception>
    public bool this[int column, int row]
    {
        get => (Word(column, row) & Bit(column)) != 0;
        set => Word(column, row) = value ? Word(column, row) | Bit(column) : Word(column, row) & ~Bit(column);
    }

    /// <summary>The words of one row, to be written: 64 dots each, the leftmost in bit 0. What is written beyond the width does not count.</summary>
    /// <param name="row">From the top.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such row.</exception>
    public Span<ulong> Row(int row)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(row);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(row, HeightDots);
        return Filling.AsSpan(row * _stride, (WidthDots + BitRaster.DotsPerWord - 1) / BitRaster.DotsPerWord);
    }

    /// <summary>Sets all dots of a row from a column up to another, the latter left out.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A dot is not in the picture.</exception>
    public void SetRun(int row, int start, int end)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(start);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(end, WidthDots);
        BitRuns.Write(Row(row), start, end, set: true);
    }

    /// <summary>The picture. It takes the room over, so nothing can be set any more.</summary>
    /// <exception cref="InvalidOperationException">The picture was taken before.</exception>
    public BitRaster ToRaster()
    {
        var words = Filling;
        _words = null;
        var full = WidthDots / BitRaster.DotsPerWord;
        var mask = (1UL << (WidthDots % BitRaster.DotsPerWord)) - 1;
        for (var row = 0; full < _stride && row < HeightDots; row++)
        {
            var beyond = words.AsSpan((row * _stride) + full, _stride - full);
            beyond[0] &= mask;
            beyond[1..].Clear();
        }

        return new(WidthDots, HeightDots, words);
    }

    /// <summary>All words, rows a multiple of a block apart.</summary>
    internal ulong[] Filling => _words ?? throw new InvalidOperationException("the picture is finished; a new one needs a new builder");

    private static ulong Bit(int column) => 1UL << (column % BitRaster.DotsPerWord);

    private ref ulong Word(int column, int row)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(column);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(column, WidthDots);
        return ref Row(row)[column / BitRaster.DotsPerWord];
    }
}
