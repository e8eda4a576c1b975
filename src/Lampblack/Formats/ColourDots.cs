using System;
using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.CompilerServices;
using Lampblack.Bitmaps;
using Lampblack.Quantities;

namespace Lampblack.Formats;

/// <summary>A picture in red, green and blue light or in grays, 8 bits each, of which a mask may print a part.</summary>
public sealed class ColourDots : DotContent
{
    /// <param name="space">RGB: three bytes for each dot; or gray: one byte, 0 black.</param>
    /// <param name="widthDots">Dots in a row; at least 1.</param>
    /// <param name="heightDots">Rows; at least 1.</param>
    /// <param name="codes">The bytes, row by row from the top.</param>
    /// <param name="mask">What is printed: its set dots. It lies over the whole picture, whatever its own resolution. Null for everything.</param>
    /// <exception cref="ArgumentException">The space is CMYK; a size is less than 1; the codes are not as many as the size asks for.</exception>
    public ColourDots(InkSpace space, int widthDots, int heightDots, ImmutableArray<byte> codes, BitRaster? mask)
    {
        if (space == InkSpace.Cmyk)
        {
            throw new ArgumentException("a picture is in RGB or gray", nameof(space));
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(widthDots, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(heightDots, 1);
        if (codes.IsDefault || codes.Length != (long)widthDots * heightDots * Channels(space))
        {
            throw new ArgumentException($"a picture of {widthDots} x {heightDots} dots has {Channels(space)} codes for each dot", nameof(codes));
        }

        (Space, WidthDots, HeightDots, Codes, Mask) = (space, widthDots, heightDots, codes, mask);
        PrintedDots = mask is null ? (double)widthDots * heightDots : (double)mask.Count() / ((double)mask.WidthDots * mask.HeightDots) * widthDots * heightDots;
        MeanInk = Mean();
    }

    /// <summary>RGB or gray.</summary>
    public InkSpace Space { get; }

    /// <inheritdoc/>
    public override int WidthDots { get; }

    /// <inheritdoc/>
    public override int HeightDots { get; }

    /// <summary>Three bytes for each dot in RGB, one in gray, row by row from the top.</summary>
    public ImmutableArray<byte> Codes { get; }

    /// <summary>What is printed; null for everything.</summary>
    public BitRaster? Mask { get; }

    /// <inheritdoc/>
    public override double PrintedDots { get; }

    /// <summary>The mean of all codes that are printed, as an ink; bare paper where nothing is.</summary>
    public Ink MeanInk { get; }

    internal static int Channels(InkSpace space) => space == InkSpace.Gray ? 1 : 3;

    private protected override byte[] Bytes()
    {
        var mask = Mask is null ? [] : BytesOf(Mask);
        var bytes = new byte[9 + Codes.Length + mask.Length];
        BinaryPrimitives.WriteInt32LittleEndian(bytes, WidthDots);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(4), HeightDots);
        bytes[8] = (byte)Space;
        Codes.CopyTo(bytes, 9);
        mask.CopyTo(bytes, 9 + Codes.Length);
        return bytes;
    }

    private protected override PackedImage Pack() => PackedImage.Of(this);

    private Ink Mean()
    {
        // The mask's dot over the middle of each of ours.
        int[] columns = Mask is null ? [] : [.. Enumerable.Range(0, WidthDots).Select(column => (int)(((2L * column) + 1) * Mask.WidthDots / (2L * WidthDots)))];
        var channels = Channels(Space);
        var sums = new long[3];
        var count = 0L;
        for (var row = 0; row < HeightDots; row++)
        {
            var codes = Codes.AsSpan().Slice(row * WidthDots * channels, WidthDots * channels);
            count += Mask is null ? Add(codes, channels, sums) : Add(codes, channels, Mask.Row((int)(((2L * row) + 1) * Mask.HeightDots / (2L * HeightDots))), columns, sums);
        }

        var full = 255.0 * count;
        return count == 0 ? Ink.Bare(Space) : Space == InkSpace.Gray ? Ink.Gray(sums[0] / full) : Ink.Rgb(sums[0] / full, sums[1] / full, sums[2] / full);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static int Add(ReadOnlySpan<byte> codes, int channels, ReadOnlySpan<ulong> mask, ReadOnlySpan<int> columns, Span<long> sums)
    {
        var count = 0;
        for (var column = 0; column < columns.Length; column++)
        {
            if (((mask[columns[column] / BitRaster.DotsPerWord] >> (columns[column] % BitRaster.DotsPerWord)) & 1) != 0)
            {
                count++;
                _ = Add(codes.Slice(column * channels, channels), channels, sums);
            }
        }

        return count;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int Add(ReadOnlySpan<byte> codes, int channels, Span<long> sums)
    {
        for (var at = 0; at < codes.Length; at += channels)
        {
            for (var channel = 0; channel < channels; channel++)
            {
                sums[channel] += codes[at + channel];
            }
        }

        return codes.Length / channels;
    }
}
