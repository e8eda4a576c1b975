using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Circuits;
using Lampblack.Geometry;
using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>The nets of a desk: which terminals, pins and registers are joined, and what is soldered between.</summary>
/// <param name="Nets">The nets, controller by controller: 0 V, supply, rows, columns, then the others in the desk's order.</param>
/// <param name="Resistors">Resistors between terminals of selectors.</param>
public sealed record WireNets(ImmutableArray<WireNet> Nets, ImmutableArray<LadderResistor> Resistors)
{
    /// <summary>Wires from USB-to-serial adapters to the controllers that have no serial line on their own USB.</summary>
    public ImmutableArray<AdapterWire> Adapters { get; init; } = [];

    // Red, amber, yellow-green; white and blue ones get less. From memory.
    private const double LampVolts = 2;

    /// <summary>The resistor of an indicator on a pin or register.</summary>
    /// <param name="amperes">What it gets.</param>
    public static double LampOhms(double amperes) => PreferredValues.NextAbove(ResistorSeries.E24, (Controller.SupplyVolts - LampVolts) / amperes);

    /// <summary>The nets of a plan.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="needs">What it was made for.</param>
    /// <param name="lampAmperes">What an indicator gets.</param>
    public static WireNets Of(PinPlan plan, ImmutableArray<WiredNeed> needs, double lampAmperes)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var nets = ImmutableArray.CreateBuilder<WireNet>();
        var resistors = ImmutableArray.CreateBuilder<LadderResistor>();
        foreach (var controller in plan.Controllers)
        {
            var ids = plan.Controls.Where(control => control.Controller == controller.Index).Select(control => control.Id).Concat(controller.DataLines.Select(line => line.ItemId)).ToHashSet();
            foreach (var need in needs.Where(need => need.DataFrom is { } from && ids.Contains(from)))
            {
                ids.Add(need.Id);
            }

            var maker = new Maker(controller, [.. needs.Where(need => need.Part is not null && ids.Contains(need.Id))], lampAmperes);
            nets.AddRange(maker.Make(resistors));
        }

        return new(nets.ToImmutable(), resistors.ToImmutable()) { Adapters = AdapterWires.Of(plan) };
    }

    private sealed class Maker(ControllerPlan plan, ImmutableArray<WiredNeed> needs, double lampAmperes)
    {
        private readonly Dictionary<string, (NetRole Role, string End, RegisterPin? Register, List<NetTerminal> Terminals)> _nets = [];
        private readonly string _prefix = plan.Index == 0 ? string.Empty : Digits(plan.Index + 1) + ".";

        public IEnumerable<WireNet> Make(ImmutableArray<LadderResistor>.Builder resistors)
        {
            foreach (var need in needs)
            {
                switch (need.Kind)
                {
                    case WiredKind.Analog:
                        Track(need, plan.Wipers.First(wiper => wiper.ItemId == need.Id).Pin);
                        break;
                    case WiredKind.Encoder:
                        var encoder = plan.Encoders.First(one => one.ItemId == need.Id);
                        Pin(encoder.PhaseA, need, PartTerminals.EncoderNames[0]);
                        Pin(encoder.PhaseB, need, PartTerminals.EncoderNames[2]);
                        Zero(need, PartTerminals.EncoderNames[1]);
                        break;
                    case WiredKind.Indicator:
                        Lamp(need, plan.Indicators.First(lamp => lamp.ItemId == need.Id).Place);
                        break;
                    case WiredKind.Meter:
                        var pin = plan.Dimmers.First(dimmer => dimmer.IsMeter && dimmer.Channel == need.Id).Pin;
                        Add(pin.Header, NetRole.Signal, pin.Header, need, PartTerminals.LampNames[0], InlinePart.Resistor, MeterResistor.Ohms(need.FullScaleAmperes));
                        Zero(need, PartTerminals.LampNames[1]);
                        break;
                    case WiredKind.Data:
                        Data(need);
                        break;
                    case var _ when plan.Ladders.FirstOrDefault(ladder => ladder.ItemId == need.Id) is { } ladder:
                        Ladder(need, ladder, resistors);
                        break;
                    default:
                        Contacts(need, [.. plan.Contacts.Where(contact => contact.ItemId == need.Id).Select(contact => contact.Place)]);
                        break;
                }
            }

            return _nets.OrderBy(net => net.Value.Role).ThenBy(net => net.Value.Role is NetRole.Row or NetRole.Column ? Number(net.Key) : 0)
                .Select(net => new WireNet(net.Key, net.Value.Role, plan.Index, net.Value.End, [.. net.Value.Terminals.DistinctBy(one => (one.PartItem, one.Terminal, one.Inline))]) { Register = net.Value.Register });
        }

        private int Number(string name) => int.Parse(name.AsSpan(_prefix.Length + 1), CultureInfo.InvariantCulture);

        /// <summary>Each data line to its pin, the first pixel's through a resistor; each further pixel from the one before.</summary>
        private void Data(WiredNeed need)
        {
            foreach (var line in plan.DataLines.Where(line => line.ItemId == need.Id))
            {
                var isPixel = need.Part!.Part.IsPixel;
                Add(line.Pin.Header, NetRole.Signal, line.Pin.Header, need, line.Terminal, isPixel ? InlinePart.Resistor : InlinePart.None, isPixel ? CircuitLabels.DataOhms : 0);
            }

            if (need.DataFrom is { } from)
            {
                var link = "P" + Digits(_nets.Values.Count(net => net.End.Length == 0) + 1);
                Add(link, NetRole.Signal, string.Empty, needs.First(one => one.Id == from), PartTerminals.PixelNames[1]);
                Add(link, NetRole.Signal, string.Empty, need, PartTerminals.PixelNames[0]);
            }
        }

        private void Track(WiredNeed need, ControllerPin pin)
        {
            Zero(need, PartTerminals.TrackNames[0]);
            Pin(pin, need, PartTerminals.TrackNames[1]);
            Supply(need, PartTerminals.TrackNames[2]);
        }

        private void Lamp(WiredNeed need, OutputPlace place)
        {
            if (place is ChainOutput chain)
            {
                Register('Q', new(false, chain.Chip, chain.Output), need, PartTerminals.LampNames[0], InlinePart.Resistor, LampOhms(lampAmperes));
            }
            else
            {
                var pin = ((DirectOutput)place).Pin.Header;
                Add(pin, NetRole.Signal, pin, need, PartTerminals.LampNames[0], InlinePart.Resistor, LampOhms(lampAmperes));
            }

            Zero(need, PartTerminals.LampNames[1]);
        }

        /// <summary>The row of resistors goes from the first position's terminal, at 0 V, to the last one's, and on to the supply.</summary>
        private void Ladder(WiredNeed need, PlannedLadder ladder, ImmutableArray<LadderResistor>.Builder resistors)
        {
            var ohms = LadderDesign.Of(need.Positions.Length)!.Ohms;
            var throws = need.Contacts.Select(contact => contact.Throw).ToList();
            Pin(ladder.Pin, need, need.Contacts[0].Common);
            Zero(need, throws[0]);
            Add("5V", NetRole.Supply, "5V", need, throws[^1], InlinePart.Resistor, ohms);
            resistors.AddRange(throws.Zip(throws.Skip(1), (one, next) => new LadderResistor(need.Panel, need.Id, one, next, ohms)));
        }

        private void Contacts(WiredNeed need, ImmutableArray<InputPlace> places)
        {
            foreach (var pole in need.Contacts.Zip(places).GroupBy(pair => pair.First.Pole))
            {
                var all = pole.ToList();
                if (all[0].Second is MatrixInput)
                {
                    Crossings(need, [.. all.Select(pair => (pair.First, (MatrixInput)pair.Second))]);
                    continue;
                }

                Zero(need, all[0].First.Common);
                foreach (var (contact, place) in all)
                {
                    if (place is ChainInput chain)
                    {
                        Register('S', new(true, chain.Chip, chain.Input), need, contact.Throw);
                    }
                    else
                    {
                        Pin(((DirectInput)place).Pin, need, contact.Throw);
                    }
                }
            }
        }

        /// <summary>The pole's common terminal is on the line that all its contacts share; each contact's own terminal goes to the other line through its diode.</summary>
        private void Crossings(WiredNeed need, ImmutableArray<(ContactNeed Contact, MatrixInput Place)> pole)
        {
            var isRow = pole.Select(one => one.Place.Row).Distinct().Count() == 1;
            var (row, column) = (pole[0].Place.Row, pole[0].Place.Column);
            if (isRow)
            {
                Row(row, need, pole[0].Contact.Common, InlinePart.None);
            }
            else
            {
                Column(column, need, pole[0].Contact.Common, InlinePart.None);
            }

            foreach (var (contact, place) in pole)
            {
                if (isRow)
                {
                    Column(place.Column, need, contact.Throw, plan.Diodes ? InlinePart.DiodeToWire : InlinePart.None);
                }
                else
                {
                    Row(place.Row, need, contact.Throw, plan.Diodes ? InlinePart.DiodeToTerminal : InlinePart.None);
                }
            }
        }

        private void Row(int row, WiredNeed need, string terminal, InlinePart inline) => Add("R" + Digits(row + 1), NetRole.Row, plan.Rows[row].Header, need, terminal, inline);

        private void Column(int column, WiredNeed need, string terminal, InlinePart inline) => Add("C" + Digits(column + 1), NetRole.Column, plan.Columns[column].Header, need, terminal, inline);

        private void Pin(ControllerPin pin, WiredNeed need, string terminal) => Add(pin.Header, NetRole.Signal, pin.Header, need, terminal);

        private void Zero(WiredNeed need, string terminal) => Add("0V", NetRole.Zero, "GND", need, terminal);

        private void Supply(WiredNeed need, string terminal) => Add("5V", NetRole.Supply, "5V", need, terminal);

        private void Register(char letter, RegisterPin pin, WiredNeed need, string terminal, InlinePart inline = InlinePart.None, double ohms = 0) =>
            Add($"{letter}{Digits(pin.Chip + 1)}{pin.Letter}", NetRole.Signal, pin.Words, need, terminal, inline, ohms, pin);

        private void Add(string name, NetRole role, string end, WiredNeed need, string terminal, InlinePart inline = InlinePart.None, double ohms = 0, RegisterPin? register = null)
        {
            if (!_nets.TryGetValue(_prefix + name, out var net))
            {
                _nets[_prefix + name] = net = (role, end, register, []);
            }

            var place = need.Part!.Map.Apply(At(need.Part.Part, terminal));
            net.Terminals.Add(new(need.Panel, need.Id, need.Part.Origin.Item, terminal, place, inline, ohms));
        }

        private static Point<ItemSpace> At(Part part, string terminal) =>
            PartTerminals.Of(part).Terminals.FirstOrDefault(one => one.Name == terminal) is { } found ? new(found.XMm, found.YMm) : default;

        private static string Digits(int number) => number.ToString(CultureInfo.InvariantCulture);
    }
}
