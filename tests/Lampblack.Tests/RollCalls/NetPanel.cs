using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Link;
using Lampblack.Parts;
using Lampblack.Tests.Link;
using Lampblack.Wiring;

namespace Lampblack.Tests.RollCalls;

/// <summary>
/// A panel made of parts: wires, switches, diodes and potentiometers between named nodes, and a controller that scans them column by column and speaks the link.
/// Faults are made as at the bench: by putting a part between other nodes. Knows nothing of the product's own model.
/// </summary>
internal sealed class NetPanel
{
    private readonly ControllerPlan plan;
    private readonly XorShift chance;
    private readonly List<Part> parts = [];
    private readonly Dictionary<string, List<Part>> nodes = [];
    private readonly bool[] reported;
    private readonly int[] phases;
    private readonly short[] positions;
    private readonly short[] toldPositions;
    private readonly byte[] illegal;
    private readonly byte[] toldIllegal;
    private readonly int[] wipers;
    private readonly int[] floating;
    private readonly int[] logged;
    private readonly LadderReading[] ladders;
    private readonly List<byte> line = [];
    private readonly PacketReader reader = new();
    private byte sequence;
    private bool tellsBounce;

    public NetPanel(ControllerPlan plan, XorShift chance)
    {
        (this.plan, this.chance) = (plan, chance);
        reported = new bool[plan.Contacts.Length];
        phases = new int[plan.Encoders.Length];
        positions = new short[plan.Encoders.Length];
        toldPositions = new short[plan.Encoders.Length];
        illegal = new byte[plan.Encoders.Length];
        toldIllegal = new byte[plan.Encoders.Length];
        wipers = new int[plan.Wipers.Length];
        floating = [.. Enumerable.Range(0, plan.Wipers.Length + plan.Ladders.Length).Select(_ => 1200 + chance.Below(1200))];
        ladders = new LadderReading[plan.Ladders.Length];
        logged = new int[plan.Wipers.Length];
        Closed = new bool[plan.Contacts.Length];
        Phases = new bool[2 * plan.Encoders.Length];
        Travel = new double[plan.Wipers.Length];
        Positions = [.. plan.Ladders.Select(_ => -1)];
        LampsGood = [.. plan.Indicators.Select(_ => true)];
        foreach (var pin in Pins(plan))
        {
            parts.Add(new(Kind.Wire, Pin(pin), Wire(pin)));
        }

        for (var contact = 0; contact < plan.Contacts.Length; contact++)
        {
            AddContact(contact, plan.Contacts[contact].Place);
        }

        for (var encoder = 0; encoder < plan.Encoders.Length; encoder++)
        {
            parts.Add(new(Kind.Phase, Wire(plan.Encoders[encoder].PhaseA), "0V", 2 * encoder));
            parts.Add(new(Kind.Phase, Wire(plan.Encoders[encoder].PhaseB), "0V", (2 * encoder) + 1));
        }

        for (var wiper = 0; wiper < plan.Wipers.Length; wiper++)
        {
            parts.Add(new(Kind.Track, Wire(plan.Wipers[wiper].Pin), "0V", wiper));
        }

        for (var ladder = 0; ladder < plan.Ladders.Length; ladder++)
        {
            parts.Add(new(Kind.Ladder, Wire(plan.Ladders[ladder].Pin), "0V", ladder));
        }

        Scan();
    }

    private enum Kind
    {
        Wire,
        Diode,
        Contact,
        Phase,
        Track,
        BackwardTrack,
        Ladder,
    }

    /// <summary>How the contacts really are.</summary>
    public bool[] Closed { get; }

    /// <summary>How the encoders' contacts really are: A and B one after the other.</summary>
    public bool[] Phases { get; }

    public double[] Travel { get; }

    public int[] Positions { get; }

    public bool[] LampsGood { get; }

    /// <summary>What was told of contacts, encoders, wipers and ladders.</summary>
    public List<string> Log { get; } = [];

    public static IEnumerable<ControllerPin> Pins(ControllerPlan plan) =>
    [
        .. plan.Columns, .. plan.Rows, .. plan.Contacts.Select(contact => contact.Place).OfType<DirectInput>().Select(place => place.Pin),
        .. plan.Encoders.SelectMany(encoder => new[] { encoder.PhaseA, encoder.PhaseB }), .. plan.Wipers.Select(wiper => wiper.Pin), .. plan.Ladders.Select(ladder => ladder.Pin),
    ];

    public void ExchangePins(ControllerPin one, ControllerPin other)
    {
        parts.RemoveAll(part => part.Kind == Kind.Wire && (part.From == Pin(one) || part.From == Pin(other)));
        parts.Add(new(Kind.Wire, Pin(one), Wire(other)));
        parts.Add(new(Kind.Wire, Pin(other), Wire(one)));
        nodes.Clear();
        Scan();
    }

    public void CutPin(ControllerPin pin)
    {
        parts.RemoveAll(part => part.Kind == Kind.Wire && part.From == Pin(pin));
        nodes.Clear();
        Scan();
    }

    public void JoinPins(ControllerPin one, ControllerPin other)
    {
        parts.Add(new(Kind.Wire, Pin(one), Pin(other)));
        nodes.Clear();
        Scan();
    }

    public void ReverseDiode(int contact)
    {
        var diode = parts.FindIndex(part => part.Kind == Kind.Diode && part.Number == contact);
        parts[diode] = parts[diode] with { From = parts[diode].To, To = parts[diode].From };
        nodes.Clear();
        Scan();
    }

    public void CutContact(int contact)
    {
        parts.RemoveAll(part => part.Kind == Kind.Contact && part.Number == contact);
        nodes.Clear();
        Scan();
    }

    public void BridgeContact(int contact)
    {
        var closer = parts.Find(part => part.Kind == Kind.Contact && part.Number == contact)!;
        parts.Add(new(Kind.Wire, closer.From, closer.To));
        nodes.Clear();
        Scan();
    }

    /// <summary>Each stands where the other should, with diode and leads.</summary>
    public void ExchangeContacts(int one, int other)
    {
        parts.RemoveAll(part => part.Kind is Kind.Contact or Kind.Diode && (part.Number == one || part.Number == other));
        AddContact(one, plan.Contacts[other].Place);
        AddContact(other, plan.Contacts[one].Place);
        nodes.Clear();
        Scan();
    }

    public void ExchangeEnds(int wiper)
    {
        var track = parts.FindIndex(part => part.Kind == Kind.Track && part.Number == wiper);
        parts[track] = parts[track] with { Kind = Kind.BackwardTrack };
        nodes.Clear();
        Scan();
    }

    /// <summary>The controller looks at everything, as after each movement of a hand.</summary>
    public void Scan()
    {
        for (var round = 0; round < 2; round++)
        {
            for (var column = 0; column < Math.Max(1, plan.Columns.Length); column++)
            {
                var driven = column < plan.Columns.Length ? Pin(plan.Columns[column]) : "none";
                for (var contact = 0; contact < plan.Contacts.Length; contact++)
                {
                    bool? closed = plan.Contacts[contact].Place switch
                    {
                        MatrixInput at when at.Column == column => Falls(Pin(plan.Rows[at.Row]), driven),
                        DirectInput at when column == 0 => Falls(Pin(at.Pin), driven),
                        _ => null,
                    };
                    if (closed is { } now && now != reported[contact])
                    {
                        reported[contact] = now;
                        Say(next => new ContactFrame(next, contact, now));
                        if (tellsBounce)
                        {
                            Say(next => new BounceFrame(next, contact, (byte)(1 + (2 * chance.Below(4))), (byte)chance.Below(40)));
                        }
                    }
                }

                for (var encoder = 0; encoder < plan.Encoders.Length; encoder++)
                {
                    Decode(encoder, Falls(Pin(plan.Encoders[encoder].PhaseA), driven), Falls(Pin(plan.Encoders[encoder].PhaseB), driven));
                }
            }
        }

        for (var encoder = 0; encoder < plan.Encoders.Length; encoder++)
        {
            // The engine tells illegal steps, too, when nothing else moved.
            if (positions[encoder] != toldPositions[encoder] || illegal[encoder] != toldIllegal[encoder])
            {
                toldIllegal[encoder] = illegal[encoder];
                var delta = positions[encoder] - toldPositions[encoder];
                toldPositions[encoder] = positions[encoder];
                Say(next => new EncoderFrame(next, encoder, (sbyte)delta, positions[encoder], illegal[encoder]));
            }
        }

        Measure();
    }

    /// <summary>Bytes came from the host.</summary>
    public void Receive(ReadOnlySpan<byte> bytes)
    {
        foreach (var payload in reader.Read(bytes))
        {
            var (command, number) = HostFrames.Read(payload.AsSpan())!.Value;
            Say(next => new AcknowledgeFrame(next, number, CommandResult.Done));
            switch (command)
            {
                case AskHello:
                    Say(next => new HelloFrame(next)
                    {
                        Counts = new(plan.Contacts.Length, plan.Encoders.Length, plan.Wipers.Length, plan.Ladders.Length, plan.Indicators.Length, plan.Dimmers.Length),
                    });
                    break;
                case AskSnapshot:
                    Snapshot();
                    break;
                case ReportBounce report:
                    tellsBounce = report.IsOn;
                    break;
            }
        }
    }

    public byte[] Take()
    {
        byte[] bytes = [.. line];
        line.Clear();
        return bytes;
    }

    private static string Pin(ControllerPin pin) => "pin " + pin.Name;

    private static string Wire(ControllerPin pin) => "wire " + pin.Name;

    private void AddContact(int contact, InputPlace place)
    {
        switch (place)
        {
            case DirectInput direct:
                parts.Add(new(Kind.Contact, Wire(direct.Pin), "0V", contact));
                break;
            case MatrixInput at:
                parts.Add(new(plan.Diodes ? Kind.Diode : Kind.Wire, Wire(plan.Rows[at.Row]), $"middle {contact}", contact));
                parts.Add(new(Kind.Contact, $"middle {contact}", Wire(plan.Columns[at.Column]), contact));
                break;
        }
    }

    /// <summary>Whether a pin that is pulled up falls: a depth-first walk of the current from it to 0 V or to the driven column.</summary>
    private bool Falls(string pin, string driven)
    {
        HashSet<string> seen = [];
        bool Walk(string node) => node == "0V" || node == driven || (seen.Add(node) && At(node).Exists(part => Leads(part) && (
            (part.From == node && Walk(part.To)) || (part.To == node && part.Kind is not (Kind.Diode or Kind.Track or Kind.BackwardTrack) && Walk(part.From)))));
        return Walk(pin);
    }

    /// <summary>Parts at a node.</summary>
    private List<Part> At(string node)
    {
        if (nodes.Count == 0)
        {
            foreach (var part in parts)
            {
                foreach (var end in (string[])[part.From, part.To])
                {
                    (nodes.TryGetValue(end, out var there) ? there : nodes[end] = []).Add(part);
                }
            }
        }

        return nodes.GetValueOrDefault(node, []);
    }

    private bool Leads(Part part) => part.Kind switch
    {
        Kind.Wire or Kind.Diode => true,
        Kind.Contact => Closed[part.Number],
        Kind.Phase => Phases[part.Number],
        Kind.Track => Travel[part.Number] < 0.3,
        Kind.BackwardTrack => Travel[part.Number] > 0.7,
        _ => false,
    };

    private void Decode(int encoder, bool a, bool b)
    {
        // The place in the cycle; a step of two can't be told from a step back of two.
        var now = (a, b) switch { (false, false) => 0, (true, false) => 1, (true, true) => 2, _ => 3 };
        var step = (now - phases[encoder] + 4) % 4;
        phases[encoder] = now;
        positions[encoder] += (short)(step == 1 ? 1 : step == 3 ? -1 : 0);
        illegal[encoder] += (byte)(step == 2 ? 1 : 0);
    }

    private void Measure()
    {
        for (var wiper = 0; wiper < plan.Wipers.Length; wiper++)
        {
            var value = Volts(Pin(plan.Wipers[wiper].Pin), wiper);
            if (Math.Abs(value - wipers[wiper]) > 8)
            {
                wipers[wiper] = value;
                Say(next => new WiperFrame(next, wiper, value));
            }
        }

        for (var ladder = 0; ladder < plan.Ladders.Length; ladder++)
        {
            var value = Volts(Pin(plan.Ladders[ladder].Pin), plan.Wipers.Length + ladder);
            var position = plan.Ladders[ladder].Windows.Index().Where(one => value / 4 >= one.Item.LowCount && value / 4 <= one.Item.HighCount).Select(one => (byte)one.Index).FirstOrDefault(LadderFrame.None);
            if (position != ladders[ladder].Position)
            {
                ladders[ladder] = new(position, value);
                Say(next => new LadderFrame(next, ladder, position, value));
            }
        }
    }

    private int Volts(string pin, int number)
    {
        HashSet<string> net = [];
        void Spread(string node)
        {
            if (net.Add(node) && node != "0V")
            {
                foreach (var part in At(node).Where(part => part.Kind is Kind.Wire or Kind.Contact or Kind.Phase && Leads(part)))
                {
                    Spread(part.From);
                    Spread(part.To);
                }
            }
        }

        Spread(pin);
        if (net.Contains("0V"))
        {
            return 0;
        }

        List<double> pulls = [];
        foreach (var part in net.SelectMany(At).Where(part => net.Contains(part.From)).Distinct())
        {
            switch (part.Kind)
            {
                case Kind.Track:
                    pulls.Add(Travel[part.Number]);
                    break;
                case Kind.BackwardTrack:
                    pulls.Add(1 - Travel[part.Number]);
                    break;
                case Kind.Ladder when Positions[part.Number] >= 0:
                    var window = plan.Ladders[part.Number].Windows[Positions[part.Number]];
                    pulls.Add((window.LowCount + window.HighCount) / 2.0 / 1023);
                    break;
            }
        }

        // A pin that hangs in the air wanders.
        floating[number] = Math.Clamp(floating[number] + chance.Below(9) - 4, 800, 3000);
        return pulls.Count == 0 ? floating[number] : (int)(pulls.Average() * 4060) + chance.Below(16);
    }

    private void Snapshot()
    {
        Say(next => new SnapshotFrame(next, SnapshotKind.Contacts, 0, [.. reported.Select(closed => closed ? 1 : 0)]));
        Say(next => new SnapshotFrame(next, SnapshotKind.Encoders, 0, [.. positions.Select(position => (int)position)]));
        Say(next => new SnapshotFrame(next, SnapshotKind.Wipers, 0, [.. wipers]));
        Say(next => new SnapshotFrame(next, SnapshotKind.Ladders, 0, [.. ladders.Select(ladder => ladder.Position | (ladder.Value << 8))]));
        Say(next => new SnapshotFrame(next, SnapshotKind.End, 0, []));
    }

    private void Say(Func<byte, PanelFrame> frame)
    {
        var said = frame(sequence++);
        line.AddRange(PacketReader.Pack(PanelFrames.Write(said).AsSpan()));
        switch (said)
        {
            case ContactFrame contact:
                Log.Add(FormattableString.Invariant($"contact {contact.Number} {contact.IsClosed}"));
                break;
            case EncoderFrame encoder:
                Log.Add(FormattableString.Invariant($"encoder {encoder.Number} {encoder.Delta} {encoder.Illegal}"));
                break;
            case WiperFrame wiper:
                // Coarse: the last bits are noise.
                if (wiper.Value / 500 != logged[wiper.Number])
                {
                    logged[wiper.Number] = wiper.Value / 500;
                    Log.Add(FormattableString.Invariant($"wiper {wiper.Number} {wiper.Value / 500}"));
                }

                break;
            case LadderFrame ladder:
                Log.Add(FormattableString.Invariant($"ladder {ladder.Number} {ladder.Position}"));
                break;
        }
    }

    private sealed record Part(Kind Kind, string From, string To, int Number = -1);
}
