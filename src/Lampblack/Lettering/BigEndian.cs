using System;

namespace Lampblack.Lettering;

/// <summary>Reads numbers of font tables, which stand with the most significant byte first. Callers check that they are there.</summary>
internal static class BigEndian
{
    public static ushort U16(ReadOnlySpan<byte> data, int offset) => (ushort)((data[offset] << 8) | data[offset + 1]);

    public static short I16(ReadOnlySpan<byte> data, int offset) => (short)U16(data, offset);

    public static uint U32(ReadOnlySpan<byte> data, int offset) => ((uint)U16(data, offset) << 16) | U16(data, offset + 2);

    /// <summary>A table's four-letter name; a byte that is no printable ASCII letter shows as '?'.</summary>
    public static string Tag(ReadOnlySpan<byte> data, int offset) =>
        string.Create(4, U32(data, offset), static (letters, tag) =>
        {
            for (var index = 0; index < 4; index++)
            {
                var letter = (char)((tag >> (24 - (8 * index))) & 0xFF);
                letters[index] = letter is >= ' ' and <= '~' ? letter : '?';
            }
        });

    public static void PutU16(Span<byte> data, int offset, int value)
    {
        data[offset] = (byte)(value >> 8);
        data[offset + 1] = (byte)value;
    }

    public static void PutU32(Span<byte> data, int offset, uint value)
    {
        PutU16(data, offset, (int)(value >> 16));
        PutU16(data, offset + 2, (int)(value & 0xFFFF));
    }
}
