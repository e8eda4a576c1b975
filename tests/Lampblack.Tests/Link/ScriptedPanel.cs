using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Link;
using Lampblack.Wiring;

namespace Lampblack.Tests.Link;

/// <summary>The panel's side of the line, as firmware speaks it: answers commands, counts its frames, tells what the test does to its controls.</summary>
internal sealed class ScriptedPanel(ControllerPlan plan, uint planHash = 0xC0FFEE42)
{
    private readonly PacketReader reader = new();
    private readonly List<byte> outgoing = [];
    private readonly short[] positions = new short[plan.Encoders.Length];
    private readonly int[] wipers = new int[plan.Wipers.Length];
    private readonly LadderReading[] ladders = new LadderReading[plan.Ladders.Length];

    public bool[] Contacts { get; } = new bool[plan.Contacts.Length];

    public int[] Indicators { get; } = new int[plan.Indicators.Length];

    public int[] Dimmers { get; } = new int[plan.Dimmers.Length];

    public List<HostFrame> Commands { get; } = [];

    public byte Sequence { get; set; }

    public byte LinkVersion { get; set; } = 1;

    public byte ResetCause { get; set; } = 1;

    /// <summary>Seconds since its start.</summary>
    public int Seconds { get; set; }

    /// <summary>Whether it tells them before it tells where everything stands, as engines do since they count the time; earlier ones told them each second only.</summary>
    public bool TellsTime { get; set; } = true;

    /// <summary>Commands that are to be left unanswered.</summary>
    public int Deaf { get; set; }

    /// <summary>Frames that get lost on their way.</summary>
    public int Lost { get; set; }

    /// <summary>Power goes: what knobs were turned is forgotten.</summary>
    public void Forget() => Array.Clear(positions);

    /// <summary>Power came: counts anew, says hello.</summary>
    public void Start()
    {
        (Sequence, Seconds) = (0, 0);
        Hello();
    }

    /// <summary>Answers a greeting that came late, without starting anew.</summary>
    public void AnswerHello() => Hello();

    public void Set(int contact, bool isClosed)
    {
        Contacts[contact] = isClosed;
        Say(sequence => new ContactFrame(sequence, contact, isClosed));
    }

    public void Turn(int encoder, int edges, byte illegal = 0)
    {
        positions[encoder] = (short)(positions[encoder] + edges);
        Say(sequence => new EncoderFrame(sequence, encoder, (sbyte)Math.Clamp(edges, -128, 127), positions[encoder], illegal));
    }

    public void Move(int wiper, int value)
    {
        wipers[wiper] = value;
        Say(sequence => new WiperFrame(sequence, wiper, value));
    }

    public void Stand(int ladder, byte position, int value)
    {
        ladders[ladder] = new(position, value);
        Say(sequence => new LadderFrame(sequence, ladder, position, value));
    }

    public void Alive(int seconds)
    {
        Seconds = seconds;
        Say(sequence => new AliveFrame(sequence, seconds, 0, 0));
    }

    /// <summary>Bytes came from the host.</summary>
    public void Receive(ReadOnlySpan<byte> bytes)
    {
        foreach (var payload in reader.Read(bytes))
        {
            if (HostFrames.Read(payload.AsSpan()) is not { } command)
            {
                Say(sequence => new AcknowledgeFrame(sequence, payload[1], CommandResult.Unknown));
                continue;
            }

            Commands.Add(command.Frame);
            if (Deaf > 0)
            {
                Deaf--;
                continue;
            }

            Say(sequence => new AcknowledgeFrame(sequence, command.Sequence, Obey(command.Frame)));
            if (command.Frame is AskHello)
            {
                Hello();
            }
            else if (command.Frame is AskSnapshot)
            {
                Snapshot();
            }
        }
    }

    /// <summary>What is on the line to the host since the last call.</summary>
    public byte[] Take()
    {
        byte[] bytes = [.. outgoing];
        outgoing.Clear();
        return bytes;
    }

    private void Hello() => Say(sequence => new HelloFrame(sequence)
    {
        LinkVersion = LinkVersion,
        Controller = (byte)plan.Index,
        PlanHash = planHash,
        Counts = new(plan.Contacts.Length, plan.Encoders.Length, plan.Wipers.Length, plan.Ladders.Length, plan.Indicators.Length, plan.Dimmers.Length),
        ResetCause = ResetCause,
    });

    private CommandResult Obey(HostFrame command)
    {
        switch (command)
        {
            case SetIndicator lamp when lamp.Number < Indicators.Length:
                Indicators[lamp.Number] = lamp.IsOn ? 1 : 0;
                return CommandResult.Done;
            case SetDimmer dimmer when dimmer.Number < Dimmers.Length:
                Dimmers[dimmer.Number] = dimmer.Level;
                return CommandResult.Done;
            case SetIndicator or SetDimmer:
                return CommandResult.OutOfRange;
            default:
                return CommandResult.Done;
        }
    }

    private void Snapshot()
    {
        if (TellsTime)
        {
            Alive(Seconds);
        }

        Part(SnapshotKind.Contacts, [.. Contacts.Select(closed => closed ? 1 : 0)], 8 * 24);
        Part(SnapshotKind.Encoders, [.. positions.Select(position => (int)position)], 13);
        Part(SnapshotKind.Wipers, [.. wipers], 13);
        Part(SnapshotKind.Ladders, [.. ladders.Select(ladder => ladder.Position | (ladder.Value << 8))], 8);
        Part(SnapshotKind.Indicators, [.. Indicators], 24);
        Part(SnapshotKind.Dimmers, [.. Dimmers], 13);
        Say(sequence => new SnapshotFrame(sequence, SnapshotKind.End, 0, []));
    }

    private void Part(SnapshotKind kind, ImmutableArray<int> entries, int most)
    {
        for (var first = 0; first < entries.Length; first += most)
        {
            Say(sequence => new SnapshotFrame(sequence, kind, first, entries[first..Math.Min(first + most, entries.Length)]));
        }
    }

    private void Say(Func<byte, PanelFrame> frame)
    {
        var packet = PacketReader.Pack(PanelFrames.Write(frame(Sequence++)).AsSpan());
        if (Lost > 0)
        {
            Lost--;
            return;
        }

        outgoing.AddRange(packet);
    }
}
