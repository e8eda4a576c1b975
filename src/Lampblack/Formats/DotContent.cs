using System;
using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Threading;
using Lampblack.Bitmaps;
using Lampblack.Geometry;

namespace Lampblack.Formats;

/// <summary>A picture made of dots that is printed as such, wherever it is placed. Never changes; packed once for all pages that hold it.</summary>
public abstract class DotContent
{
    private readonly Lazy<ImmutableArray<byte>> _fingerprint;
    private readonly Lazy<PackedImage> _packed;

    private protected DotContent()
    {
        _fingerprint = new(() => [.. SHA256.HashData(Bytes())], LazyThreadSafetyMode.ExecutionAndPublication);
        _packed = new(Pack, LazyThreadSafetyMode.ExecutionAndPublication);
    }

    /// <summary>Dots in a row.</summary>
    public abstract int WidthDots { get; }

    /// <summary>Rows.</summary>
    public abstract int HeightDots { get; }

    /// <summary>How many of the dots are printed; a part of a dot counts where its mask is finer.</summary>
    public abstract double PrintedDots { get; }

    /// <summary>SHA-256 of the dots, whatever they are printed in and wherever they are placed.</summary>
    public ImmutableArray<byte> Fingerprint => _fingerprint.Value;

    /// <summary>As a PDF holds it.</summary>
    internal PackedImage Packed => _packed.Value;

    /// <summary>The place of dots that fill a box, the first row along its upper edge.</summary>
    /// <param name="box">The box.</param>
    /// <typeparam name="TSpace">The space of the box.</typeparam>
    public Affine<DotSpace, TSpace> Filling<TSpace>(Box<TSpace> box)
        where TSpace : struct, ISpace => new(box.WidthMm / WidthDots, 0, box.LeftMm, 0, -box.HeightMm / HeightDots, box.TopMm);

    private protected abstract byte[] Bytes();

    private protected abstract PackedImage Pack();

    /// <summary>Sizes and dots of a raster in one run of bytes.</summary>
    private protected static byte[] BytesOf(BitRaster raster)
    {
        var bytes = new byte[8 + (8 * raster.WordsPerRow * raster.HeightDots)];
        BinaryPrimitives.WriteInt32LittleEndian(bytes, raster.WidthDots);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(4), raster.HeightDots);
        for (var row = 0; row < raster.HeightDots; row++)
        {
            var to = bytes.AsSpan(8 + (8 * raster.WordsPerRow * row), 8 * raster.WordsPerRow);
            foreach (var word in raster.Row(row))
            {
                BinaryPrimitives.WriteUInt64LittleEndian(to, word);
                to = to[8..];
            }
        }

        return bytes;
    }
}
