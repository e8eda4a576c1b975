using System;
using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Numerics;
using System.Runtime.CompilerServices;

namespace Lampblack.Formats;

/// <summary>Shortens bytes without loss (deflate, RFC 1951, in the zlib format, RFC 1950).</summary>
/// <remarks>
/// Written here because the platform's own compressor may give other bytes on another machine or in another version,
/// and the same desk must give the same file everywhere.
/// </remarks>
public static class Deflate
{
    private const int Window = 1 << 15;
    private const int HashBits = 16;
    private const int LongestMatch = 258;

    /// <summary>How many earlier places are tried for a match: more is smaller and slower.</summary>
    private const int Tries = 8;

    /// <summary>A match this long is taken at once, without a look whether the next place has a longer one.</summary>
    private const int GoodEnough = 32;

    /// <summary>Of a longer match only the last places are remembered: what follows it is found from there, and long runs of one byte are all alike.</summary>
    private const int LongRun = 48;

    /// <summary>A match of three bytes from farther back costs more bits than the three bytes themselves.</summary>
    private const int FarForThree = 4096;

    /// <summary>The bytes in the zlib format: two bytes of head, the deflated blocks, and the Adler-32 sum.</summary>
    /// <param name="data">Any bytes; none are fine.</param>
    /// <returns>The same bytes for the same data on every machine; at most about 2 % longer than the data.</returns>
    public static ImmutableArray<byte> Zlib(ReadOnlySpan<byte> data) => [.. Pack(data, int.MaxValue)!];

    /// <summary>The same, as long as it stays shorter than something else; null otherwise, and without the work that is left.</summary>
    /// <param name="data">Any bytes.</param>
    /// <param name="limitBytes">How many bytes must not be reached.</param>
    internal static byte[]? ZlibShorterThan(ReadOnlySpan<byte> data, int limitBytes) =>
        Pack(data, limitBytes) is { } packed && packed.Length < limitBytes ? packed : null;

    private static byte[]? Pack(ReadOnlySpan<byte> data, int limitBytes)
    {
        var output = new BitBuffer(Math.Min(data.Length / 2, limitBytes));

        // Deflate with the full window, usual effort: 0x789C, a multiple of 31 (RFC 1950 clause 2.2).
        output.Add(0x78, 8);
        output.Add(0x9C, 8);
        if (!AddBlocks(data, output, limitBytes))
        {
            return null;
        }

        output.Align();
        output.AddBigEndian(Adler32(data));
        return output.ToArray();
    }

    /// <summary>Gives up, with false, once there are too many bytes.</summary>
    // Compiled ahead, each small method of the framework that this loop uses is a call; so the whole loop is compiled when it is first met.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static bool AddBlocks(ReadOnlySpan<byte> data, BitBuffer output, int limitBytes)
    {
        var block = new DeflateBlock(output);
        var places = new Places();
        var heldLength = 0;
        var heldDistance = 0;
        var pending = false;
        var at = 0;
        while (at < data.Length)
        {
            if (output.Length >= limitBytes)
            {
                return false;
            }

            var (length, distance) = places.Longest(data, at, heldLength);
            if (heldLength >= 3 && length <= heldLength)
            {
                // The match found one byte earlier is not beaten.
                block.AddMatch(heldLength, heldDistance);
                var end = at - 1 + heldLength;
                at = heldLength > LongRun ? end - LongRun : at;
                while (++at < end)
                {
                    places.Insert(data, at);
                }

                heldLength = 0;
                pending = false;
                continue;
            }

            if (pending)
            {
                block.AddLiteral(data[at - 1]);
            }

            (heldLength, heldDistance, pending) = (length, distance, true);
            at++;
        }

        if (pending)
        {
            block.AddLiteral(data[^1]);
        }

        block.Send(last: true);
        return true;
    }

    /// <summary>Two sums modulo 65521 (RFC 1950 clause 9), reduced only as often as 32 bits need it.</summary>
    private static uint Adler32(ReadOnlySpan<byte> data)
    {
        uint low = 1;
        uint high = 0;
        while (!data.IsEmpty)
        {
            var part = data[..Math.Min(5552, data.Length)];
            foreach (var value in part)
            {
                low += value;
                high += low;
            }

            low %= 65521;
            high %= 65521;
            data = data[part.Length..];
        }

        return (high << 16) | low;
    }

    /// <summary>Where the same four bytes stood before: for each hash the latest place, for each place the one before it. Places count from 1; 0 is none.</summary>
    private sealed class Places
    {
        private readonly int[] _latest = new int[1 << HashBits];
        private readonly int[] _before = new int[Window];

        /// <summary>Remembers a place and gives the latest earlier one of its hash.</summary>
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public int Insert(ReadOnlySpan<byte> data, int at)
        {
            if (at + 4 > data.Length)
            {
                return 0;
            }

            var four = BinaryPrimitives.ReadUInt32LittleEndian(data[at..]);
            var hash = (four * 0x9E3779B1u) >> (32 - HashBits);
            var earlier = _latest[hash];
            _before[at & (Window - 1)] = earlier;
            _latest[hash] = at + 1;
            return earlier;
        }

        /// <summary>The longest match that beats <paramref name="beat"/> bytes, or a length of 0. Remembers the place.</summary>
        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public (int Length, int Distance) Longest(ReadOnlySpan<byte> data, int at, int beat)
        {
            var place = Insert(data, at);
            if (beat >= GoodEnough)
            {
                return default;
            }

            var here = data.Slice(at, Math.Min(LongestMatch, data.Length - at));
            var longest = Math.Max(2, beat);
            var distance = 0;
            for (var tries = Tries; place > 0 && at - (place - 1) < Window && tries > 0 && longest < here.Length; tries--)
            {
                var there = data.Slice(place - 1, here.Length);
                if (there[longest] == here[longest])
                {
                    var length = Same(here, there);
                    if (length > longest && (length > 3 || at - (place - 1) <= FarForThree))
                    {
                        longest = length;
                        distance = at - (place - 1);
                    }
                }

                place = _before[(place - 1) & (Window - 1)];
            }

            return distance > 0 ? (longest, distance) : default;
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private static int Same(ReadOnlySpan<byte> here, ReadOnlySpan<byte> there)
        {
            var index = 0;
            for (; index + 8 <= here.Length; index += 8)
            {
                var difference = BinaryPrimitives.ReadUInt64LittleEndian(here[index..]) ^ BinaryPrimitives.ReadUInt64LittleEndian(there[index..]);
                if (difference != 0)
                {
                    return index + (BitOperations.TrailingZeroCount(difference) / 8);
                }
            }

            while (index < here.Length && here[index] == there[index])
            {
                index++;
            }

            return index;
        }
    }
}
