using System;

namespace Lampblack.Formats;

/// <summary>CRC-32 as zip and PNG files have it (polynomial 0x04C11DB7, reflected); "123456789" gives 0xCBF43926.</summary>
public static class Crc32
{
    /// <summary>Of all the bytes.</summary>
    public static uint Of(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var value in bytes)
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) != 0 ? crc >> 1 ^ 0xEDB88320 : crc >> 1;
            }
        }

        return ~crc;
    }
}
