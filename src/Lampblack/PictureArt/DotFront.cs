using System;
using System.Numerics;
using System.Threading.Tasks;
using Lampblack.Bitmaps;

namespace Lampblack.PictureArt;

/// <summary>A set of dots that grows by one dot around itself, in place.</summary>
internal sealed class DotFront
{
    // Straight neighbours before slanting ones; always in this order, so that the same picture gives the same colours.
    private static ReadOnlySpan<sbyte> Around => [-1, 0, 1, 0, 0, -1, 0, 1, -1, -1, 1, -1, -1, 1, 1, 1];

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

    /// <summary>
    /// Adds all wanted dots that touch the set, corners too. The work is called for each with a neighbour of the set, dots counted from the first row's first, while the set is
    /// still what it was.
    /// </summary>
    public void Advance(BitRaster wanted, Action<int, int> work)
    {
        Parallel.For(0, Height, row =>
        {
            var next = _next.AsSpan(row * _wordsPerRow, _wordsPerRow);
            Touching(wanted.Row(row), row, next);
            for (var index = 0; index < next.Length; index++)
            {
                if (next[index] != 0)
                {
                    Reach(next[index], row, index, work);
                }
            }
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

    /// <summary>Finds each new dot of a word the first of its neighbours that is in the set, for all dots of the word at once.</summary>
    private void Reach(ulong left, int row, int index, Action<int, int> work)
    {
        for (var side = 0; side < Around.Length && left != 0; side += 2)
        {
            var (dx, y) = (Around[side], row + Around[side + 1]);
            if (y < 0 || y >= Height)
            {
                continue;
            }

            var line = _set.AsSpan(y * _wordsPerRow, _wordsPerRow);
            var word = line[index];
            var beside = dx < 0 ? (word << 1) | (index > 0 ? line[index - 1] >> 63 : 0)
                : dx > 0 ? (word >> 1) | (index + 1 < line.Length ? line[index + 1] << 63 : 0)
                : word;
            for (var found = left & beside; found != 0; found &= found - 1)
            {
                var column = (index * 64) + BitOperations.TrailingZeroCount(found);
                work((y * Width) + column + dx, (row * Width) + column);
            }

            left &= ~beside;
        }
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
