using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;

namespace Lampblack.Lettering;

/// <summary>
/// A font file whose table directory has been checked: every table lies inside the file, and those that outlines need are there.
/// Nothing goes to native code before that.
/// </summary>
internal sealed class FontFile
{
    /// <summary>The largest font that is read: 20 MB.</summary>
    public const int LimitBytes = 20_000_000;

    private const uint CollectionTag = 0x74746366; // 'ttcf'
    private const uint HeadMagic = 0x5F0F3CF5;

    private readonly Dictionary<string, (int Offset, int Length)> _tables;

    private FontFile(ImmutableArray<byte> bytes, Dictionary<string, (int Offset, int Length)> tables)
    {
        Bytes = bytes;
        _tables = tables;
    }

    /// <summary>The whole file, unpacked where it was packed for the web.</summary>
    public ImmutableArray<byte> Bytes { get; }

    /// <summary>Font units per em, 16 to 16384 (OpenType, table 'head').</summary>
    public int UnitsPerEm => BigEndian.U16(Table("head"), 18);

    /// <summary>How many glyphs there are, at least one.</summary>
    public int GlyphCount => BigEndian.U16(Table("maxp"), 4);

    /// <summary>Opens a font; of a collection, its first face.</summary>
    /// <returns>The font, or a sentence's end that says what is wrong ("is too short to be a font").</returns>
    public static (FontFile? File, string Problem) Open(ImmutableArray<byte> bytes)
    {
        if (bytes.Length > LimitBytes)
        {
            return (null, string.Create(CultureInfo.InvariantCulture, $"has {bytes.Length} bytes; at most {LimitBytes} are read"));
        }

        if (bytes.Length < 12)
        {
            return (null, "is too short to be a font");
        }

        if (WebFont.IsWoff(bytes.AsSpan()))
        {
            var (unpacked, problem) = WebFont.Unpack(bytes.AsSpan());
            if (unpacked is null)
            {
                return (null, problem);
            }

            bytes = unpacked.Value;
        }

        var data = bytes.AsSpan();
        long start = 0;
        if (BigEndian.U32(data, 0) == CollectionTag)
        {
            start = data.Length < 16 || BigEndian.U32(data, 8) == 0 ? long.MaxValue : BigEndian.U32(data, 12);
            if (start > data.Length - 12)
            {
                return (null, "is a font collection without a readable first face");
            }
        }

        return BigEndian.U32(data, (int)start) switch
        {
            0x00010000 or 0x4F54544F or 0x74727565 => Read(bytes, (int)start), // TrueType, 'OTTO', 'true'
            0x774F4632 => (null, "is a WOFF2 file, which is not read"),
            _ => (null, "does not begin like a TrueType, OpenType or WOFF font"),
        };
    }

    /// <summary>The bytes of a table; none where it is absent.</summary>
    public ReadOnlySpan<byte> Table(string tag) =>
        _tables.TryGetValue(tag, out var place) ? Bytes.AsSpan().Slice(place.Offset, place.Length) : default;

    private static (FontFile? File, string Problem) Read(ImmutableArray<byte> bytes, int start)
    {
        var data = bytes.AsSpan();
        int count = BigEndian.U16(data, start + 4);
        if (count == 0 || start + 12 + (16L * count) > data.Length)
        {
            return (null, "has a table directory that does not fit into the file");
        }

        var tables = new Dictionary<string, (int Offset, int Length)>(StringComparer.Ordinal);
        for (var index = 0; index < count; index++)
        {
            var entry = start + 12 + (16 * index);
            var tag = BigEndian.Tag(data, entry);
            long offset = BigEndian.U32(data, entry + 8);
            long length = BigEndian.U32(data, entry + 12);
            if (offset + length > data.Length)
            {
                return (null, $"has a table '{tag}' that reaches beyond the end of the file");
            }

            tables.TryAdd(tag, ((int)offset, (int)length));
        }

        var file = new FontFile(bytes, tables);
        return file.Flaw() is { } flaw ? (null, flaw) : (file, string.Empty);
    }

    private string? Flaw()
    {
        foreach (var (tag, leastBytes) in new[] { ("head", 54), ("maxp", 6), ("hhea", 36), ("hmtx", 4), ("cmap", 4) })
        {
            if (Table(tag).Length < leastBytes)
            {
                return $"has no usable table '{tag}'";
            }
        }

        if ((Table("glyf").IsEmpty || Table("loca").IsEmpty) && Table("CFF ").IsEmpty && Table("CFF2").IsEmpty)
        {
            return "holds no outlines (neither 'glyf' nor 'CFF')";
        }

        if (BigEndian.U32(Table("head"), 12) != HeadMagic || UnitsPerEm is < 16 or > 16384)
        {
            return "has a damaged table 'head'";
        }

        return GlyphCount == 0 ? "has no glyphs" : null;
    }
}
