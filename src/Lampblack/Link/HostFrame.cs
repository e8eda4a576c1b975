using System;
using System.Buffers.Binary;
using System.Collections.Immutable;

namespace Lampblack.Link;

/// <summary>Something the host tells the panel to do. The panel acknowledges each.</summary>
public abstract record HostFrame;

/// <summary>Say hello.</summary>
public sealed record AskHello : HostFrame;

/// <summary>Say where everything stands.</summary>
public sealed record AskSnapshot : HostFrame;

/// <summary>Switch a lamp.</summary>
/// <param name="Number">The indicator.</param>
/// <param name="IsOn">Whether it shall shine.</param>
public sealed record SetIndicator(byte Number, bool IsOn) : HostFrame;

/// <summary>Dim a channel.</summary>
/// <param name="Number">The dimmer.</param>
/// <param name="Level">0 for dark to 65535 for full; the duty follows it linearly.</param>
public sealed record SetDimmer(byte Number, ushort Level) : HostFrame;

/// <summary>All lamps on, whatever they were set to, or back.</summary>
/// <param name="IsOn">Whether the test is on.</param>
public sealed record LampTest(bool IsOn) : HostFrame;

/// <summary>Keep the dimmers' levels over power-off.</summary>
public sealed record KeepLevels : HostFrame;

/// <summary>Tell how contacts bounce.</summary>
/// <param name="IsOn">Whether to tell.</param>
public sealed record ReportBounce(bool IsOn) : HostFrame;

/// <summary>The host's frames as payloads.</summary>
public static class HostFrames
{
    /// <summary>Writes a command.</summary>
    /// <param name="frame">The command.</param>
    /// <param name="sequence">Counts the host's frames from 0; wraps.</param>
    public static ImmutableArray<byte> Write(HostFrame frame, byte sequence) => frame switch
    {
        AskHello => [0x41, sequence],
        AskSnapshot => [0x42, sequence],
        SetIndicator lamp => [0x43, sequence, lamp.Number, Flag(lamp.IsOn)],
        SetDimmer dimmer => [0x44, sequence, dimmer.Number, (byte)dimmer.Level, (byte)(dimmer.Level >> 8)],
        LampTest test => [0x45, sequence, Flag(test.IsOn)],
        KeepLevels => [0x46, sequence],
        ReportBounce report => [0x47, sequence, Flag(report.IsOn)],
        _ => throw new ArgumentOutOfRangeException(nameof(frame)),
    };

    /// <summary>Reads a command, as a panel does.</summary>
    /// <param name="payload">A payload without its check.</param>
    /// <returns>The command and its number; null for what is not one.</returns>
    public static (HostFrame Frame, byte Sequence)? Read(ReadOnlySpan<byte> payload)
    {
        if (payload.Length < 2)
        {
            return null;
        }

        var data = payload[2..];
        HostFrame? frame = (payload[0], data.Length) switch
        {
            (0x41, 0) => new AskHello(),
            (0x42, 0) => new AskSnapshot(),
            (0x43, 2) => new SetIndicator(data[0], data[1] != 0),
            (0x44, 3) => new SetDimmer(data[0], BinaryPrimitives.ReadUInt16LittleEndian(data[1..])),
            (0x45, 1) => new LampTest(data[0] != 0),
            (0x46, 0) => new KeepLevels(),
            (0x47, 1) => new ReportBounce(data[0] != 0),
            _ => null,
        };
        return frame is null ? null : (frame, payload[1]);
    }

    private static byte Flag(bool isOn) => isOn ? (byte)1 : (byte)0;
}
