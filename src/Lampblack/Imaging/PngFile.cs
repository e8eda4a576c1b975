using System;
using System.Buffers.Binary;
using System.IO;
using System.IO.Compression;
using System.Runtime.CompilerServices;
using Lampblack.Formats;

namespace Lampblack.Imaging;

/// <summary>Writes pictures as PNG (ISO/IEC 15948) that open at their true size.</summary>
/// <remarks>
/// Eight bits each of red, green and blue, marked as sRGB (chunk sRGB), with the dots per metre (chunk pHYs). No date and no program name:
/// the same picture gives the same bytes on one platform; the deflate code may differ between platforms.
/// </remarks>
public static class PngFile
{
    private static readonly uint[] CrcTable = MakeCrcTable();

    /// <summary>The bytes of the file.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="withAlpha">Whether the fourth number of its dots is written too: how opaque each is.</param>
    /// <param name="isSmall">Whether a quarter less bytes are worth twice the time: for a picture that is embedded.</param>
    public static byte[] Write(Picture picture, bool withAlpha = false, bool isSmall = false)
    {
        ArgumentNullException.ThrowIfNull(picture);
        using var file = new MemoryStream();
        file.Write([0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A]);

        Span<byte> header = stackalloc byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, picture.WidthPx);
        BinaryPrimitives.WriteInt32BigEndian(header[4..], picture.HeightPx);
        header[8] = 8; // bits per sample
        header[9] = (byte)(withAlpha ? 6 : 2); // red, green, blue, and how opaque where that is asked for; the last three bytes (deflate, the five row filters, not interlaced) are 0
        Chunk(file, "IHDR"u8, header);

        Chunk(file, "sRGB"u8, [1]); // relative colorimetric

        Span<byte> size = stackalloc byte[9];
        var dotsPerMetre = (int)Math.Clamp(Math.Round(1000 / picture.MmPerDot, MidpointRounding.AwayFromZero), 1, int.MaxValue);
        BinaryPrimitives.WriteInt32BigEndian(size, dotsPerMetre);
        BinaryPrimitives.WriteInt32BigEndian(size[4..], dotsPerMetre);
        size[8] = 1; // per metre
        Chunk(file, "pHYs"u8, size);

        Chunk(file, "IDAT"u8, Rows(picture, withAlpha ? 4 : 3, isSmall ? CompressionLevel.Optimal : CompressionLevel.Fastest));
        Chunk(file, "IEND"u8, []);
        return file.ToArray();
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static ReadOnlySpan<byte> Rows(Picture picture, int channels, CompressionLevel level)
    {
        // Every row as its difference to the one above (filter "up"): panels are mostly upright, so most of it is 0.
        var rowLength = picture.WidthPx * channels;
        var above = new byte[rowLength];
        var row = new byte[rowLength];
        var filtered = new byte[1 + rowLength];
        filtered[0] = 2;
        var packed = new MemoryStream();
        using (var deflate = new ZLibStream(packed, level, leaveOpen: true))
        {
            for (var y = 0; y < picture.HeightPx; y++)
            {
                var rgba = picture.Rgba.Span.Slice(y * picture.WidthPx * 4, picture.WidthPx * 4);
                for (int from = 0, to = 0; from < rgba.Length; from += 4, to += channels)
                {
                    row[to] = rgba[from];
                    row[to + 1] = rgba[from + 1];
                    row[to + 2] = rgba[from + 2];
                    if (channels == 4)
                    {
                        row[to + 3] = rgba[from + 3];
                    }
                }

                ByteRows.Differences(row, above, filtered.AsSpan(1));
                deflate.Write(filtered);
                (above, row) = (row, above);
            }
        }

        return packed.GetBuffer().AsSpan(0, (int)packed.Length);
    }

    private static void Chunk(MemoryStream file, ReadOnlySpan<byte> type, ReadOnlySpan<byte> data)
    {
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, data.Length);
        file.Write(number);
        file.Write(type);
        file.Write(data);
        BinaryPrimitives.WriteUInt32BigEndian(number, ~Crc(Crc(0xFFFFFFFF, type), data));
        file.Write(number);
    }

    private static uint Crc(uint crc, ReadOnlySpan<byte> bytes)
    {
        foreach (var value in bytes)
        {
            crc = CrcTable[(crc ^ value) & 0xFF] ^ (crc >> 8);
        }

        return crc;
    }

    // CRC-32 with the reversed polynomial 0xEDB88320, as PNG's annex on the CRC asks for.
    private static uint[] MakeCrcTable()
    {
        var table = new uint[256];
        for (uint index = 0; index < table.Length; index++)
        {
            var crc = index;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) == 0 ? crc >> 1 : (crc >> 1) ^ 0xEDB88320;
            }

            table[index] = crc;
        }

        return table;
    }
}
