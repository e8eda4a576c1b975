using System;
using System.Buffers.Binary;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Link;

/// <summary>The panel's frames as payloads: type, sequence, data; numbers little-endian.</summary>
public static class PanelFrames
{
    /// <summary>Reads a payload, strictly: a length that does not belong to its type is refused.</summary>
    /// <param name="payload">A payload without its check.</param>
    /// <returns>The frame; null for one that is not known.</returns>
    public static PanelFrame? Read(ReadOnlySpan<byte> payload)
    {
        if (payload.Length < 2)
        {
            return null;
        }

        var sequence = payload[1];
        var data = payload[2..];
        return (payload[0], data.Length) switch
        {
            (1, 17) => new HelloFrame(sequence)
            {
                LinkVersion = data[0],
                EngineVersion = data[1],
                TableVersion = data[2],
                Chip = data[3],
                Controller = data[4],
                PlanHash = BinaryPrimitives.ReadUInt32LittleEndian(data[5..]),
                Counts = new(Word(data[9..]), data[11], data[12], data[13], data[14], data[15]),
                ResetCause = data[16],
            },
            _ => ReadRest(payload[0], sequence, data),
        };
    }

    /// <summary>Writes a frame as a payload, as a panel does.</summary>
    /// <param name="frame">The frame.</param>
    public static ImmutableArray<byte> Write(PanelFrame frame)
    {
        ArgumentNullException.ThrowIfNull(frame);
        return frame switch
        {
            HelloFrame hello =>
            [
                1, hello.Sequence, hello.LinkVersion, hello.EngineVersion, hello.TableVersion, hello.Chip, hello.Controller,
                (byte)hello.PlanHash, (byte)(hello.PlanHash >> 8), (byte)(hello.PlanHash >> 16), (byte)(hello.PlanHash >> 24),
                .. Word(hello.Counts.Contacts), (byte)hello.Counts.Encoders, (byte)hello.Counts.Wipers, (byte)hello.Counts.Ladders,
                (byte)hello.Counts.Indicators, (byte)hello.Counts.Dimmers, hello.ResetCause,
            ],
            ContactFrame contact => [2, contact.Sequence, .. Word(contact.Number | (contact.IsClosed ? 0x8000 : 0))],
            EncoderFrame encoder => [3, encoder.Sequence, (byte)encoder.Number, (byte)encoder.Delta, .. Word(encoder.Position), encoder.Illegal],
            WiperFrame wiper => [4, wiper.Sequence, (byte)wiper.Number, .. Word(wiper.Value)],
            LadderFrame ladder => [5, ladder.Sequence, (byte)ladder.Number, ladder.Position, .. Word(ladder.Value)],
            AliveFrame alive => [6, alive.Sequence, .. Word(alive.UpSeconds), .. Word(alive.BadFrames), .. Word(alive.DroppedFrames)],
            SnapshotFrame snapshot => [7, snapshot.Sequence, (byte)snapshot.Kind, .. Word(snapshot.First), .. Pack(snapshot)],
            AcknowledgeFrame answer => [8, answer.Sequence, answer.Command, (byte)answer.Result],
            BounceFrame bounce => [9, bounce.Sequence, .. Word(bounce.Number), bounce.Changes, bounce.Ticks],
            _ => throw new ArgumentOutOfRangeException(nameof(frame)),
        };
    }

    private static PanelFrame? ReadRest(byte type, byte sequence, ReadOnlySpan<byte> data) => (type, data.Length) switch
    {
        (2, 2) => new ContactFrame(sequence, Word(data) & 0x7FFF, (Word(data) & 0x8000) != 0),
        (3, 5) => new EncoderFrame(sequence, data[0], (sbyte)data[1], (short)Word(data[2..]), data[4]),
        (4, 3) when Word(data[1..]) <= WiperFrame.Full => new WiperFrame(sequence, data[0], Word(data[1..])),
        (5, 4) when Word(data[2..]) <= WiperFrame.Full => new LadderFrame(sequence, data[0], data[1], Word(data[2..])),
        (6, 6) => new AliveFrame(sequence, Word(data), Word(data[2..]), Word(data[4..])),
        (7, >= 3) => ReadSnapshot(sequence, data),
        (8, 2) when data[1] <= 4 => new AcknowledgeFrame(sequence, data[0], (CommandResult)data[1]),
        (9, 4) => new BounceFrame(sequence, Word(data), data[2], data[3]),
        _ => null,
    };

    private static SnapshotFrame? ReadSnapshot(byte sequence, ReadOnlySpan<byte> data)
    {
        var kind = (SnapshotKind)data[0];
        var entries = data[3..].ToArray();
        IEnumerable<int>? read = kind switch
        {
            SnapshotKind.Contacts => entries.SelectMany(one => Enumerable.Range(0, 8).Select(bit => (one >> bit) & 1)),
            SnapshotKind.Encoders when entries.Length % 2 == 0 => entries.Chunk(2).Select(one => (int)(short)Word(one)),
            SnapshotKind.Wipers or SnapshotKind.Dimmers when entries.Length % 2 == 0 => entries.Chunk(2).Select(one => Word(one)),
            SnapshotKind.Ladders when entries.Length % 3 == 0 => entries.Chunk(3).Select(one => one[0] | (Word(one.AsSpan(1)) << 8)),
            SnapshotKind.Indicators => entries.Select(one => (int)one),
            SnapshotKind.End when entries.Length == 0 => [],
            _ => null,
        };
        return read is null ? null : new(sequence, kind, Word(data[1..]), [.. read]);
    }

    private static byte[] Pack(SnapshotFrame snapshot) => snapshot.Kind switch
    {
        SnapshotKind.Contacts => [.. snapshot.Entries.Chunk(8).Select(eight => (byte)eight.Select((closed, bit) => closed << bit).Sum())],
        SnapshotKind.Encoders or SnapshotKind.Wipers or SnapshotKind.Dimmers => [.. snapshot.Entries.SelectMany(one => Word(one))],
        SnapshotKind.Ladders => [.. snapshot.Entries.SelectMany(one => (byte[])[(byte)one, .. Word(one >> 8)])],
        SnapshotKind.Indicators => [.. snapshot.Entries.Select(one => (byte)one)],
        _ => [],
    };

    private static int Word(ReadOnlySpan<byte> data) => BinaryPrimitives.ReadUInt16LittleEndian(data);

    private static byte[] Word(int value) => [(byte)value, (byte)(value >> 8)];
}
