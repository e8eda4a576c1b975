using System;

namespace Lampblack.Link;

/// <summary>CRC-16/XMODEM: polynomial 0x1021, start 0, nothing reflected. Of "123456789" it is 0x31C3.</summary>
public static class Crc16
{
    /// <summary>The check of some bytes.</summary>
    /// <param name="bytes">Any number of bytes. With their own check behind them, high byte first, the result is 0.</param>
    public static ushort Of(ReadOnlySpan<byte> bytes)
    {
        var crc = 0;
        foreach (var one in bytes)
        {
            crc ^= one << 8;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 0x8000) != 0 ? (crc << 1) ^ 0x1021 : crc << 1;
            }
        }

        return (ushort)crc;
    }
}
