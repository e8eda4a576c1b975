using System;
using System.Collections.Generic;

namespace Lampblack.Link;

/// <summary>
/// Consistent overhead byte stuffing: any bytes without a zero among them, so that a zero can end a packet.
/// Costs at most one byte and one more for each 254.
/// </summary>
public static class Cobs
{
    private const int LongestBlock = 254;

    /// <summary>Stuffs bytes; the zero that ends a packet is not among the result.</summary>
    /// <param name="bytes">Any bytes.</param>
    public static byte[] Encode(ReadOnlySpan<byte> bytes)
    {
        var packed = new List<byte>(bytes.Length + 2) { 0 };
        var code = 0;
        for (var index = 0; index < bytes.Length; index++)
        {
            if (bytes[index] == 0)
            {
                packed[code] = (byte)(packed.Count - code);
                code = packed.Count;
                packed.Add(0);
                continue;
            }

            packed.Add(bytes[index]);
            if (packed.Count - code == LongestBlock + 1 && index + 1 < bytes.Length)
            {
                packed[code] = LongestBlock + 1;
                code = packed.Count;
                packed.Add(0);
            }
        }

        packed[code] = (byte)(packed.Count - code);
        return [.. packed];
    }

    /// <summary>Undoes <see cref="Encode"/>.</summary>
    /// <param name="packet">A packet without the zero that ends it.</param>
    /// <returns>The bytes; null for a packet that is empty, has a zero in it or has a block that runs over its end.</returns>
    public static byte[]? Decode(ReadOnlySpan<byte> packet)
    {
        if (packet.IsEmpty || packet.Contains((byte)0))
        {
            return null;
        }

        var bytes = new List<byte>(packet.Length);
        for (var code = 0; code < packet.Length;)
        {
            // The CRC covers the unstuffed bytes only: a longer last block would pass unnoticed.
            var next = code + packet[code];
            if (next > packet.Length)
            {
                return null;
            }

            bytes.AddRange(packet[(code + 1)..next]);
            if (packet[code] <= LongestBlock && next < packet.Length)
            {
                bytes.Add(0);
            }

            code = next;
        }

        return [.. bytes];
    }
}
