using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Circuits;
using Lampblack.Parts;
using Lampblack.Wiring;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>What is joined at one place of a controller.</summary>
/// <param name="Controller">Which controller, from 0.</param>
/// <param name="Place">The pin as it is printed on the board, or a register's pin.</param>
/// <param name="Contacts">The plugs' contacts whose wires end there.</param>
/// <param name="Colour">The wires' colour; empty for none.</param>
/// <param name="Net">The net; empty for none.</param>
/// <param name="Also">What else is soldered there.</param>
internal sealed record ControllerJoint(int Controller, string Place, ImmutableArray<string> Contacts, string Colour, string Net, string Also);

/// <summary>Which wire ends at which pin of the controllers, in the order in which one solders; and the matrix as a table.</summary>
internal static class ControllerJoints
{
    private const string Zero = "GND";
    private const string Supply = "5V";
    private const int MostColumns = 6;

    /// <summary>All joints: 0 V, 5 V, then along the board as its pins are numbered, then the shift registers.</summary>
    public static ImmutableArray<ControllerJoint> Of(BookWiring wiring, LampWires lamps) => [.. wiring.Pins.Controllers.SelectMany(plan => Of(plan, wiring, lamps))];

    /// <summary>The table of all joints, and one of each matrix.</summary>
    public static IEnumerable<BookBlock> Tables(BookWiring wiring, LampWires lamps)
    {
        foreach (var plan in wiring.Pins.Controllers)
        {
            var which = wiring.Pins.Controllers.Length == 1 ? "the controller" : string.Create(CultureInfo.InvariantCulture, $"controller {plan.Index + 1}");
            yield return new BookTable(
                $"What ends where at {which} ({plan.Chip}), in the order of soldering: 0 V and 5 V, then along the board's edges",
                ["Pin", "From contact", "Colour", "Net", "Also there"],
                [.. Of(plan, wiring, lamps).Select(joint => new BookRow("joint", string.Create(CultureInfo.InvariantCulture, $"{joint.Controller + 1}:{joint.Place}"), [$"<b>{Text(joint.Place)}</b>", Text(string.Join(", ", joint.Contacts)), Text(joint.Colour), joint.Net == joint.Place ? "the same" : Text(joint.Net), Text(joint.Also)]))],
                IsTicked: true);
        }

        var names = SpokenNames.Of(wiring.Needs);
        foreach (var plan in wiring.Pins.Controllers.Where(plan => !plan.Columns.IsEmpty))
        {
            var contacts = Crossings(plan, wiring, names);
            foreach (var columns in plan.Columns.Index().Chunk(MostColumns))
            {
                yield return new BookTable(
                    "The matrix: which contact lies between which row and which column",
                    ["Row", .. columns.Select(column => string.Create(CultureInfo.InvariantCulture, $"C{column.Index + 1} ({column.Item.Header})"))],
                    [
                        .. plan.Rows.Index().Select(row => new BookRow(string.Empty, string.Empty,
                        [
                            string.Create(CultureInfo.InvariantCulture, $"R{row.Index + 1} ({row.Item.Header})"),
                            .. columns.Select(column => Text(contacts.GetValueOrDefault((row.Index, column.Index), "–"))),
                        ])),
                    ],
                    IsTicked: false);
            }
        }
    }

    private static ImmutableArray<ControllerJoint> Of(ControllerPlan plan, BookWiring wiring, LampWires lamps)
    {
        var joints = wiring.Wires.Panels.Where(panel => panel.Plug is not null)
            .SelectMany(panel => panel.Plug!.Contacts.Where(contact => contact.Controller == plan.Index).Select(contact => (Panel: panel, Contact: contact)))
            .GroupBy(pair => pair.Contact.Register?.AtSocket ?? pair.Contact.ControllerEnd, StringComparer.Ordinal)
            .Select(end => new ControllerJoint(
                plan.Index,
                end.Key,
                [.. end.Select(pair => string.Create(CultureInfo.InvariantCulture, $"{pair.Panel.Plug!.Name} · {pair.Contact.Number}"))],
                string.Join(", ", end.Select(pair => BillWiring.CableColour(pair.Contact.Net, pair.Panel)).Distinct()),
                end.First().Contact.Net,
                string.Empty))
            .ToDictionary(joint => joint.Place, StringComparer.Ordinal);
        foreach (var (place, colour, words) in Beside(plan, wiring, lamps))
        {
            var joint = joints.GetValueOrDefault(place) ?? new(plan.Index, place, [], string.Empty, string.Empty, string.Empty);
            joints[place] = joint with { Also = joint.Also.Length == 0 ? words : $"{joint.Also}; {words}", Colour = joint.Colour.Length == 0 ? colour : joint.Colour };
        }

        var pins = Controllers.Of(plan.Chip).Pins.Select(pin => pin.Pin.Header).ToList();
        return [.. joints.Values.OrderBy(joint => Order(joint.Place, pins)).ThenBy(joint => joint.Place, StringComparer.Ordinal)];
    }

    private static int Order(string place, List<string> pins) => place switch
    {
        Zero => -2,
        Supply => -1,
        _ when pins.IndexOf(place) is >= 0 and var index => index,
        _ => pins.Count,
    };

    /// <summary>What no plug leads to: registers' lines, pull-ups, gates. Each by the number of its wire.</summary>
    private static IEnumerable<(string Place, string Colour, string Words)> Beside(ControllerPlan plan, BookWiring wiring, LampWires lamps)
    {
        foreach (var wire in RegisterWires.Of(wiring.Pins).Where(wire => wire.Controller == plan.Index && wire.ControllerPin.Length > 0))
        {
            yield return (wire.ControllerPin, wire.Colour, $"{wire.Name} to {wire.To}");
        }

        foreach (var wire in wiring.Wires.Nets.Adapters.Where(wire => wire.Controller == plan.Index))
        {
            yield return (wire.Pin, wire.Colour, $"{wire.Name} to {wire.From} of the USB-to-serial adapter");
        }

        foreach (var ladder in plan.Ladders)
        {
            yield return (ladder.Pin.Header, string.Empty, $"{CircuitWords.Ohms(LadderDesign.PullUpOhms)} from here to 5V");
        }

        var gates = AtController.Gates(plan, wiring.Needs).ToList();
        foreach (var gate in gates)
        {
            var wire = lamps.Away.FirstOrDefault(one => one.Start.Place == LampPlace.First && one.Net == gate.Channel);
            yield return (gate.Register?.AtSocket ?? gate.Place, wire?.Colour ?? string.Empty, $"{(wire is null ? string.Empty : wire.Name + ", ")}wire to the {gate.Target} of {gate.Channel}");
        }

        if (gates.Count > 0)
        {
            yield return (Zero, "black", $"{(lamps.Away.FirstOrDefault(one => one.End.Place == LampPlace.ControllerZero && one.End.Controller == plan.Index) is { } wire ? wire.Name + ", " : string.Empty)}wire to the lamps' 0 V");
        }
    }

    private static Dictionary<(int Row, int Column), string> Crossings(ControllerPlan plan, BookWiring wiring, ImmutableDictionary<string, string> names)
    {
        var crossings = new Dictionary<(int, int), string>();
        foreach (var same in plan.Contacts.GroupBy(contact => contact.ItemId))
        {
            var need = wiring.Needs.First(one => one.Id == same.Key);
            foreach (var (contact, planned) in need.Contacts.Zip(same))
            {
                if (planned.Place is MatrixInput place)
                {
                    crossings[(place.Row, place.Column)] = $"{names[need.Id]}, {SpokenNames.Standing(need, need.Positions[contact.Closed.IndexOf(true)])}";
                }
            }
        }

        return crossings;
    }
}
