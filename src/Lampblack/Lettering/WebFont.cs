using System;
using System.Collections.Immutable;
using System.IO;
using System.IO.Compression;
using System.Runtime.InteropServices;

namespace Lampblack.Lettering;

/// <summary>
/// Unpacks WOFF 1.0 (W3C Recommendation "WOFF File Format 1.0"): the same tables as in a TrueType or OpenType file, each deflated on its own.
/// HarfBuzz reads only the unpacked form.
/// </summary>
internal static class WebFont
{
    private const uint Woff = 0x774F4646; // 'wOFF'
    private const int HeaderBytes = 44;
    private const int EntryBytes = 20;

    public static bool IsWoff(ReadOnlySpan<byte> data) => BigEndian.U32(data, 0) == Woff;

    /// <summary>Unpacks a file; sizes are checked against <see cref="FontFile.LimitBytes"/> before anything is inflated.</summary>
    /// <returns>The font, or a sentence's end that says what is wrong.</returns>
    public static (ImmutableArray<byte>? Font, string Problem) Unpack(ReadOnlySpan<byte> data)
    {
        int count = data.Length < HeaderBytes ? 0 : BigEndian.U16(data, 12);
        if (count == 0 || HeaderBytes + (EntryBytes * count) > data.Length)
        {
            return (null, "is a WOFF file whose table directory does not fit into it");
        }

        var places = new long[count];
        long size = 12 + (16L * count);
        for (var index = 0; index < count; index++)
        {
            places[index] = size;
            size += (BigEndian.U32(data, Entry(index) + 12) + 3L) & ~3L;
        }

        if (size > FontFile.LimitBytes)
        {
            return (null, "is a WOFF file that unpacks to more than 20 MB");
        }

        var font = new byte[size];
        BigEndian.PutU32(font, 0, BigEndian.U32(data, 4));
        BigEndian.PutU16(font, 4, count);
        var search = 1;
        var shift = 0;
        for (; search * 2 <= count; search *= 2)
        {
            shift++;
        }

        BigEndian.PutU16(font, 6, search * 16);
        BigEndian.PutU16(font, 8, shift);
        BigEndian.PutU16(font, 10, (count - search) * 16);
        for (var index = 0; index < count; index++)
        {
            var entry = Entry(index);
            long from = BigEndian.U32(data, entry + 4);
            long packed = BigEndian.U32(data, entry + 8);
            var length = (int)BigEndian.U32(data, entry + 12);
            var target = font.AsSpan((int)places[index], length);
            if (from + packed > data.Length || packed > length || !Inflate(data.Slice((int)from, (int)packed), target))
            {
                return (null, $"is a WOFF file with a damaged table '{BigEndian.Tag(data, entry)}'");
            }

            var line = 12 + (16 * index);
            BigEndian.PutU32(font, line, BigEndian.U32(data, entry));
            BigEndian.PutU32(font, line + 4, BigEndian.U32(data, entry + 16));
            BigEndian.PutU32(font, line + 8, (uint)places[index]);
            BigEndian.PutU32(font, line + 12, (uint)length);
        }

        return (ImmutableCollectionsMarshal.AsImmutableArray(font), string.Empty);
    }

    private static int Entry(int index) => HeaderBytes + (EntryBytes * index);

    /// <summary>Fills the table exactly; one that does not shrink is stored as it is.</summary>
    private static bool Inflate(ReadOnlySpan<byte> packed, Span<byte> table)
    {
        if (packed.Length == table.Length)
        {
            packed.CopyTo(table);
            return true;
        }

        try
        {
            using var inflater = new ZLibStream(new MemoryStream(packed.ToArray()), CompressionMode.Decompress);
            return inflater.ReadAtLeast(table, table.Length, throwOnEndOfStream: false) == table.Length && inflater.ReadByte() < 0;
        }
        catch (InvalidDataException)
        {
            return false;
        }
    }
}
