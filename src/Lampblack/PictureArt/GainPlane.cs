using System;
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Threading.Tasks;
using Lampblack.Bitmaps;

namespace Lampblack.PictureArt;

/// <summary>The gain of every dot of an upright picture, one byte each.</summary>
internal sealed class GainPlane(byte[] gains, int width, int height)
{
    public int Width => width;

    public int Height => height;

    public ReadOnlySpan<byte> Row(int row) => gains.AsSpan(row * width, width);

    /// <summary>The dots whose gain lies between two, both included.</summary>
    public BitRaster Between(int from, int to)
    {
        if (to < from)
        {
            return BitRaster.Clear(width, height);
        }

        var bits = new BitRasterBuilder(width, height);
        Parallel.For(0, height, row => Pack(Row(row), (byte)Math.Clamp(from, 0, 255), (byte)Math.Clamp(to, 0, 255), bits.Row(row)));
        return bits.ToRaster();
    }

    /// <summary>Sets a bit for each gain between two.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Pack(ReadOnlySpan<byte> gains, byte from, byte to, Span<ulong> words)
    {
        var (low, span) = (Vector256.Create(from), Vector256.Create((byte)(to - from)));
        var index = 0;
        for (; index + 64 <= gains.Length; index += 64)
        {
            var first = Vector256.LessThanOrEqual(Vector256.Create(gains.Slice(index, 32)) - low, span).ExtractMostSignificantBits();
            var second = Vector256.LessThanOrEqual(Vector256.Create(gains.Slice(index + 32, 32)) - low, span).ExtractMostSignificantBits();
            words[index / 64] = first | ((ulong)second << 32);
        }

        if (index < gains.Length)
        {
            var word = 0UL;
            for (var bit = 0; index + bit < gains.Length; bit++)
            {
                word |= (byte)(gains[index + bit] - from) <= to - from ? 1UL << bit : 0;
            }

            words[index / 64] = word;
        }
    }

    /// <summary>Calls for each set dot of a row.</summary>
    public static void ForEach(ReadOnlySpan<ulong> words, Action<int> work)
    {
        for (var index = 0; index < words.Length; index++)
        {
            for (var word = words[index]; word != 0; word &= word - 1)
            {
                work((index * 64) + BitOperations.TrailingZeroCount(word));
            }
        }
    }
}
