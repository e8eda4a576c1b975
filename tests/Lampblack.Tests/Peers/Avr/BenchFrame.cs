using System;
using System.Collections.Generic;
using System.Collections.Immutable;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>Types of frames, as the link's contract numbers them.</summary>
internal enum FrameType
{
    Hello = 1,
    Contact,
    Encoder,
    Wiper,
    Ladder,
    Alive,
    Snapshot,
    Acknowledge,
    Bounce,
}

/// <summary>One frame from a simulated panel. Reading and writing are the tests' own, apart from the product's.</summary>
/// <param name="Us">When its last stop bit had passed.</param>
/// <param name="Type">Its type.</param>
/// <param name="Sequence">Its number.</param>
/// <param name="Data">What follows.</param>
internal sealed record BenchFrame(long Us, FrameType Type, byte Sequence, ImmutableArray<byte> Data)
{
    /// <summary>A number of two bytes in the data.</summary>
    public int Word(int at) => Data[at] | Data[at + 1] << 8;

    /// <summary>The same with a sign.</summary>
    public int SignedWord(int at) => (short)Word(at);

    /// <summary>A frame from a packet with its end; null where anything is wrong with it.</summary>
    public static BenchFrame? Read(long us, ReadOnlySpan<byte> packet)
    {
        var bytes = Unstuffed(packet[..^1]);
        return bytes is null || bytes.Count < 4 || packet[^1] != 0 || Crc([.. bytes]) != 0
            ? null
            : new(us, (FrameType)bytes[0], bytes[1], [.. bytes[2..^2]]);
    }

    /// <summary>A packet with its end.</summary>
    public static ImmutableArray<byte> Write(byte type, byte sequence, params byte[] data)
    {
        byte[] payload = [type, sequence, .. data];
        var crc = Crc(payload);
        List<byte> packet = [], block = [];
        foreach (var value in (byte[])[.. payload, (byte)(crc >> 8), (byte)crc, 0])
        {
            if (value != 0)
            {
                block.Add(value);
                continue;
            }

            packet.Add((byte)(block.Count + 1));
            packet.AddRange(block);
            block.Clear();
        }

        return [.. packet, 0];
    }

    /// <summary>CRC-16/XMODEM; over its own checksum it gives 0.</summary>
    public static ushort Crc(ReadOnlySpan<byte> bytes)
    {
        ushort crc = 0;
        foreach (var value in bytes)
        {
            crc ^= (ushort)(value << 8);
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (ushort)((crc & 0x8000) != 0 ? crc << 1 ^ 0x1021 : crc << 1);
            }
        }

        return crc;
    }

    private static List<byte>? Unstuffed(ReadOnlySpan<byte> packet)
    {
        List<byte> bytes = [];
        for (var at = 0; at < packet.Length;)
        {
            int code = packet[at++];
            if (code == 0 || code - 1 > packet.Length - at)
            {
                return null;
            }

            bytes.AddRange(packet.Slice(at, code - 1));
            at += code - 1;
            if (at < packet.Length)
            {
                bytes.Add(0);
            }
        }

        return bytes;
    }
}
