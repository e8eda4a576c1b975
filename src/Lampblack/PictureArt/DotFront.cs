using System;
using System.Threading.Tasks;
using Lampblack.Bitmaps;

namespace Lampblack.PictureArt;

/// <summary>A set of dots that grows by one dot around itself, in place.</summary>
internal sealed class DotFront
{
    private readonly ulong[] _set;
    private readonly ulong[] _next;
    private readonly int _wordsPerRow;

    public DotFront(BitRaster start)
    {
        (Width, Height, _wordsPerRow) = (start.WidthDots, start.HeightDots, start.WordsPerRow);
        (_set, _next) = (new ulong[_wordsPerRow * Height], new ulong[_wordsPerRow * Height]);
        Add(start);
    }

    public int Width { get; }

    public int Height { get; }

    /// <summary>Whether a dot is in the set; none outside the picture is.</summary>
    public bool this[int column, int row] =>
        column >= 0 && row >= 0 && column < Width && row < Height && ((_set[(row * _wordsPerRow) + (column / 64)] >> (column % 64)) & 1) != 0;

    public void Add(BitRaster more)
    {
        for (var row = 0; row < Height; row++)
        {
            var words = more.Row(row);
            for (var index = 0; index < words.Length; index++)
            {
                _set[(row * _wordsPerRow) + index] |= words[index];
            }
        }
    }

    /// <summary>Adds all wanted dots that touch the set, corners too. The work is called for each while the set is still what it was.</summary>
    public void Advance(BitRaster wanted, Action<int, int> work)
    {
        Parallel.For(0, Height, row =>
        {
            var next = _next.AsSpan(row * _wordsPerRow, _wordsPerRow);
            Touching(wanted.Row(row), row, next);
            GainPlane.ForEach(next, column => work(column, row));
        });
        for (var index = 0; index < _set.Length; index++)
        {
            _set[index] |= _next[index];
        }
    }

    public BitRaster ToRaster()
    {
        var bits = new BitRasterBuilder(Width, Height);
        for (var row = 0; row < Height; row++)
        {
            _set.AsSpan(row * _wordsPerRow, _wordsPerRow).CopyTo(bits.Row(row));
        }

        return bits.ToRaster();
    }

    private void Touching(ReadOnlySpan<ulong> wanted, int row, Span<ulong> next)
    {
        var before = 0UL;
        var here = Column(row, 0);
        for (var index = 0; index < next.Length; index++)
        {
            var after = index + 1 < next.Length ? Column(row, index + 1) : 0;
            var near = here | (here << 1) | (here >> 1) | (before >> 63) | (after << 63);
            next[index] = near & wanted[index] & ~_set[(row * _wordsPerRow) + index];
            (before, here) = (here, after);
        }
    }

    /// <summary>A word with those above and below it.</summary>
    private ulong Column(int row, int index)
    {
        var at = (row * _wordsPerRow) + index;
        return _set[at] | (row > 0 ? _set[at - _wordsPerRow] : 0) | (row + 1 < Height ? _set[at + _wordsPerRow] : 0);
    }
}
