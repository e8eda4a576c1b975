using System;
using System.Buffers.Binary;
using System.Globalization;
using Lampblack.Bitmaps;

namespace Lampblack.Formats;

/// <summary>Dots as a PNG of two colours, one of them transparent (W3C PNG, second edition), deflated by our own code: same dots, same bytes on every machine.</summary>
internal static class StencilPng
{
    private static readonly uint[] Remainders = MakeRemainders();

    /// <summary>Set dots in a colour, the others transparent.</summary>
    /// <param name="dots">The dots.</param>
    /// <param name="fill">The colour, <c>#rrggbb</c>.</param>
    public static ReadOnlySpan<byte> Write(BitRaster dots, string fill)
    {
        // One bit for each dot, an index into two colours (clause 11.2.2): the first of them is transparent.
        Span<byte> head = stackalloc byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, dots.WidthDots);
        BinaryPrimitives.WriteInt32BigEndian(head[4..], dots.HeightDots);
        head[8] = 1;
        head[9] = 3;
        var file = new ByteText(1 << 12).Add([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]);
        AddChunk(file, "IHDR"u8, head);
        AddChunk(file, "PLTE"u8, [255, 255, 255, Part(fill, 1), Part(fill, 3), Part(fill, 5)]);
        AddChunk(file, "tRNS"u8, [0]);
        AddChunk(file, "IDAT"u8, Deflate.Zlib(DotBytes.Rows(dots, lead: 1, inverted: false)).AsSpan());
        AddChunk(file, "IEND"u8, []);
        return file.Written;
    }

    private static byte Part(string fill, int at) => byte.Parse(fill.AsSpan(at, 2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture);

    private static void AddChunk(ByteText file, ReadOnlySpan<byte> kind, ReadOnlySpan<byte> content)
    {
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, content.Length);
        file.Add(number);
        var start = file.Length;
        file.Add(kind).Add(content);
        BinaryPrimitives.WriteUInt32BigEndian(number, Checksum(file.Written[start..]));
        file.Add(number);
    }

    /// <summary>CRC-32 of kind and content (clause 5.5 and annex D).</summary>
    private static uint Checksum(ReadOnlySpan<byte> bytes)
    {
        var remainder = uint.MaxValue;
        foreach (var value in bytes)
        {
            remainder = Remainders[(byte)(remainder ^ value)] ^ (remainder >> 8);
        }

        return ~remainder;
    }

    private static uint[] MakeRemainders()
    {
        var remainders = new uint[256];
        for (var index = 0u; index < 256; index++)
        {
            var value = index;
            for (var bit = 0; bit < 8; bit++)
            {
                value = (value & 1) != 0 ? 0xEDB88320 ^ (value >> 1) : value >> 1;
            }

            remainders[index] = value;
        }

        return remainders;
    }
}
