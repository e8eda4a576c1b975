using System;
using System.Buffers.Binary;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.IO.Compression;
using System.Linq;
using System.Text;
using Lampblack.Lettering;

namespace Lampblack.Tests.Lettering;

/// <summary>The bundled font files as bytes, and the wrappings that fonts come in.</summary>
internal static class FontBytes
{
    public static readonly ImmutableArray<(string Name, string File)> All =
    [
        .. from family in new[] { ("barlow-condensed", "BarlowCondensed"), ("overpass", "Overpass"), ("saira-condensed", "SairaCondensed") }
           from weight in new[] { ("regular", "400Regular"), ("medium", "500Medium"), ("semibold", "600SemiBold"), ("bold", "700Bold") }
           select ($"{family.Item1}-{weight.Item1}", $"{family.Item2}_{weight.Item2}.ttf"),
    ];

    public static byte[] Of(string name)
    {
        var file = All.Single(pair => pair.Name == name).File;
        using var stream = typeof(BundledFonts).Assembly.GetManifestResourceStream("fonts/" + file) ?? throw new FileNotFoundException(file);
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    public static ImmutableArray<byte> Frozen(byte[] bytes) => [.. bytes];

    /// <summary>A collection of one: a header before the font, and every offset moved by its length (OpenType, "Font Collections").</summary>
    public static byte[] AsCollection(byte[] font)
    {
        var bytes = new byte[font.Length + 16];
        Encoding.ASCII.GetBytes("ttcf").CopyTo(bytes, 0);
        BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(4), 0x00010000);
        BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(8), 1);
        BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(12), 16);
        font.CopyTo(bytes, 16);
        for (var index = 0; index < BinaryPrimitives.ReadUInt16BigEndian(font.AsSpan(4)); index++)
        {
            var place = bytes.AsSpan(16 + 12 + (16 * index) + 8);
            BinaryPrimitives.WriteUInt32BigEndian(place, BinaryPrimitives.ReadUInt32BigEndian(place) + 16);
        }

        return bytes;
    }

    /// <summary>The font packed for the web (W3C "WOFF File Format 1.0"): each table deflated where that makes it smaller.</summary>
    public static byte[] AsWoff(byte[] font)
    {
        int count = BinaryPrimitives.ReadUInt16BigEndian(font.AsSpan(4));
        var entries = new List<(byte[] Tag, uint Sum, int Length, byte[] Packed)>();
        for (var index = 0; index < count; index++)
        {
            var entry = font.AsSpan(12 + (16 * index), 16);
            var table = font.AsSpan((int)BinaryPrimitives.ReadUInt32BigEndian(entry[8..]), (int)BinaryPrimitives.ReadUInt32BigEndian(entry[12..])).ToArray();
            using var packed = new MemoryStream();
            using (var deflater = new ZLibStream(packed, CompressionLevel.Optimal, leaveOpen: true))
            {
                deflater.Write(table);
            }

            entries.Add((entry[..4].ToArray(), BinaryPrimitives.ReadUInt32BigEndian(entry[4..]), table.Length,
                packed.Length < table.Length ? packed.ToArray() : table));
        }

        using var file = new MemoryStream();
        void U32(long value)
        {
            Span<byte> four = stackalloc byte[4];
            BinaryPrimitives.WriteUInt32BigEndian(four, (uint)value);
            file.Write(four);
        }

        file.Write("wOFF"u8);
        file.Write(font, 0, 4);
        long place = 44 + (20 * count);
        U32(place + entries.Sum(entry => (entry.Packed.Length + 3) & ~3));
        U32((long)count << 16);
        U32(font.Length);
        for (var index = 0; index < 6; index++)
        {
            U32(0);
        }

        foreach (var (tag, sum, length, packed) in entries)
        {
            file.Write(tag);
            U32(place);
            U32(packed.Length);
            U32(length);
            U32(sum);
            place += (packed.Length + 3) & ~3;
        }

        foreach (var (_, _, _, packed) in entries)
        {
            file.Write(packed);
            file.Write(new byte[((packed.Length + 3) & ~3) - packed.Length]);
        }

        return file.ToArray();
    }
}
