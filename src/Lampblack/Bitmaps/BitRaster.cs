using System;
using System.Numerics;
using System.Runtime.InteropServices;

namespace Lampblack.Bitmaps;

/// <summary>
/// A picture of set and clear dots that never changes. Row 0 is at the top, column 0 at the left. A row's dots are packed 64 to a word,
/// the leftmost in bit 0; bits beyond the width are clear.
/// </summary>
public sealed partial class BitRaster : IEquatable<BitRaster>
{
    /// <summary>Dots in a word.</summary>
    public const int DotsPerWord = 64;

    /// <summary>Words that rows are a multiple of, so that the widest vectors need no rest: 512 bits.</summary>
    internal const int WordsPerBlock = 8;

    private readonly ulong[] _words;

    internal BitRaster(int widthDots, int heightDots, ulong[] words)
    {
        WidthDots = widthDots;
        HeightDots = heightDots;
        _words = words;
    }

    /// <summary>Dots in a row; at least 1.</summary>
    public int WidthDots { get; }

    /// <summary>Rows; at least 1.</summary>
    public int HeightDots { get; }

    /// <summary>Words that hold a row's dots.</summary>
    public int WordsPerRow => (WidthDots + DotsPerWord - 1) / DotsPerWord;

    /// <summary>Words from a row to the next: the row's own and clear ones up to a full block.</summary>
    internal int Stride => StrideOf(WidthDots);

    /// <summary>All words, rows at <see cref="Stride"/>.</summary>
    internal ReadOnlySpan<ulong> Words => _words;

    /// <summary>Whether a dot is set.</summary>
    /// <param name="column">From the left, 0 to the width less 1.</param>
    /// <param name="row">From the top, 0 to the height less 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The dot is not in the picture.</exception>
    public bool this[int column, int row]
    {
        get
        {
            if ((uint)column >= (uint)WidthDots)
            {
                throw new ArgumentOutOfRangeException(nameof(column), column, $"a row has {WidthDots} dots");
            }

            return ((Row(row)[column / DotsPerWord] >> (column % DotsPerWord)) & 1) != 0;
        }
    }

    /// <summary>A picture without a set dot.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A side is shorter than 1 dot, or the picture is larger than memory holds.</exception>
    public static BitRaster Clear(int widthDots, int heightDots) => new BitRasterBuilder(widthDots, heightDots).ToRaster();

    /// <summary>The words of one row.</summary>
    /// <param name="row">From the top.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such row.</exception>
    public ReadOnlySpan<ulong> Row(int row)
    {
        // Asked for millions of times, so without the framework's own checks, which are calls before they are compiled anew.
        return (uint)row < (uint)HeightDots
            ? new(_words, row * Stride, WordsPerRow)
            : throw new ArgumentOutOfRangeException(nameof(row), row, $"there are {HeightDots} rows");
    }

    /// <summary>How many dots are set.</summary>
    public long Count()
    {
        var count = 0L;
        foreach (var word in _words)
        {
            count += BitOperations.PopCount(word);
        }

        return count;
    }

    /// <summary>Whether both have the same size and the same dots.</summary>
    public bool Equals(BitRaster? other) =>
        other is not null && WidthDots == other.WidthDots && HeightDots == other.HeightDots && _words.AsSpan().SequenceEqual(other._words);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as BitRaster);

    /// <inheritdoc/>
    public override int GetHashCode()
    {
        var hash = default(HashCode);
        hash.Add(WidthDots);
        hash.Add(HeightDots);
        hash.AddBytes(MemoryMarshal.AsBytes(Words));
        return hash.ToHashCode();
    }

    internal static int StrideOf(int widthDots) =>
        (widthDots + (WordsPerBlock * DotsPerWord) - 1) / (WordsPerBlock * DotsPerWord) * WordsPerBlock;
}
