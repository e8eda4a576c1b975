using System;
using System.Collections.Generic;
using System.Collections.Immutable;

namespace Lampblack.Link;

/// <summary>
/// Cuts a stream of bytes into payloads whose check is right. What does not fit is counted and left out;
/// after it the next zero starts afresh, so that rubbish costs at most the packet it lies in.
/// </summary>
public sealed class PacketReader
{
    /// <summary>Type, sequence and data: the longest payload.</summary>
    public const int LongestPayload = 32;

    // Two bytes of check, one of stuffing.
    private const int LongestPacket = LongestPayload + 2 + 1;

    private readonly List<byte> packet = new(LongestPacket);
    private bool isTooLong;

    /// <summary>Packets that were refused so far.</summary>
    public int Refused { get; private set; }

    /// <summary>Takes bytes as they come, whole packets or not.</summary>
    /// <param name="bytes">Any bytes.</param>
    /// <returns>Payloads of 2 to 32 bytes without their checks, in order.</returns>
    public ImmutableArray<ImmutableArray<byte>> Read(ReadOnlySpan<byte> bytes)
    {
        var payloads = ImmutableArray.CreateBuilder<ImmutableArray<byte>>();
        foreach (var one in bytes)
        {
            if (one != 0)
            {
                isTooLong |= packet.Count == LongestPacket;
                if (!isTooLong)
                {
                    packet.Add(one);
                }

                continue;
            }

            // Zeros one after the other are a quiet line's start, not a fault.
            if (packet.Count > 0)
            {
                if (!isTooLong && Open([.. packet]) is { } payload)
                {
                    payloads.Add(payload);
                }
                else
                {
                    Refused++;
                }
            }

            Forget();
        }

        return payloads.DrainToImmutable();
    }

    /// <summary>Forgets a half-read packet, as when the line was closed.</summary>
    public void Forget()
    {
        packet.Clear();
        isTooLong = false;
    }

    /// <summary>A payload as a packet: stuffed, with its check and the zero that ends it.</summary>
    /// <param name="payload">2 to 32 bytes.</param>
    /// <exception cref="ArgumentException">It is longer or shorter.</exception>
    public static ImmutableArray<byte> Pack(ReadOnlySpan<byte> payload)
    {
        if (payload.Length is < 2 or > LongestPayload)
        {
            throw new ArgumentException($"a payload has 2 to {LongestPayload} bytes", nameof(payload));
        }

        var crc = Crc16.Of(payload);
        return [.. Cobs.Encode([.. payload, (byte)(crc >> 8), (byte)crc]), 0];
    }

    private static ImmutableArray<byte>? Open(byte[] stuffed) =>
        Cobs.Decode(stuffed) is { Length: >= 4 and <= LongestPayload + 2 } bytes && Crc16.Of(bytes) == 0 ? [.. bytes[..^2]] : null;
}
