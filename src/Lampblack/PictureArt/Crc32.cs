using System;
using System.Buffers.Binary;

namespace Lampblack.PictureArt;

/// <summary>The check sum of PNG's chunks: CRC-32 with the reversed polynomial 0xEDB88320 (ISO/IEC 15948, annex D), eight bytes at a time.</summary>
internal static class Crc32
{
    private static readonly uint[] Table = MakeTable();

    public static uint Of(ReadOnlySpan<byte> bytes)
    {
        var table = Table;
        var crc = 0xFFFFFFFF;
        while (bytes.Length >= 8)
        {
            var low = BinaryPrimitives.ReadUInt32LittleEndian(bytes) ^ crc;
            var high = BinaryPrimitives.ReadUInt32LittleEndian(bytes[4..]);
            crc = table[(7 * 256) + (low & 0xFF)] ^ table[(6 * 256) + ((low >> 8) & 0xFF)]
                ^ table[(5 * 256) + ((low >> 16) & 0xFF)] ^ table[(4 * 256) + (low >> 24)]
                ^ table[(3 * 256) + (high & 0xFF)] ^ table[(2 * 256) + ((high >> 8) & 0xFF)]
                ^ table[256 + ((high >> 16) & 0xFF)] ^ table[high >> 24];
            bytes = bytes[8..];
        }

        foreach (var value in bytes)
        {
            crc = table[(crc ^ value) & 0xFF] ^ (crc >> 8);
        }

        return ~crc;
    }

    // Row n holds the sum of a byte followed by n bytes of 0.
    private static uint[] MakeTable()
    {
        var table = new uint[8 * 256];
        for (uint index = 0; index < 256; index++)
        {
            var crc = index;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) == 0 ? crc >> 1 : (crc >> 1) ^ 0xEDB88320;
            }

            table[index] = crc;
        }

        for (var index = 256; index < table.Length; index++)
        {
            var before = table[index - 256];
            table[index] = table[before & 0xFF] ^ (before >> 8);
        }

        return table;
    }
}
