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
    private static readonly ImmutableArray<string> InputPins = ["11", "12", "13", "14", "3", "4", "5", "6"];
    private static readonly ImmutableArray<string> OutputPins = ["15", "1", "2", "3", "4", "5", "6", "7"];

    /// <summary>All joints: 0 V, 5 V, then along the board as its pins are numbered, then the shift registers.</summary>
    public static ImmutableArray<ControllerJoint> Of(BookWiring wiring) => [.. wiring.Pins.Controllers.SelectMany(plan => Of(plan, wiring))];

    /// <summary>The table of all joints, and one of each matrix.</summary>
    public static IEnumerable<BookBlock> Tables(BookWiring wiring)
    {
        foreach (var plan in wiring.Pins.Controllers)
        {
            var which = wiring.Pins.Controllers.Length == 1 ? "the controller" : string.Create(CultureInfo.InvariantCulture, $"controller {plan.Index + 1}");
            yield return new BookTable(
                $"What ends where at {which} ({plan.Chip}), in the order of soldering: 0 V and 5 V, then along the board's edges",
                ["Pin", "From contact", "Colour", "Net", "Also there"],
                [.. Of(plan, wiring).Select(joint => new BookRow("joint", string.Create(CultureInfo.InvariantCulture, $"{joint.Controller + 1}:{joint.Place}"), [$"<b>{Text(joint.Place)}</b>", Text(string.Join(", ", joint.Contacts)), Text(joint.Colour), Text(joint.Net), Text(joint.Also)]))],
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

    private static ImmutableArray<ControllerJoint> Of(ControllerPlan plan, BookWiring wiring)
    {
        var joints = wiring.Wires.Panels.Where(panel => panel.Plug is not null)
            .SelectMany(panel => panel.Plug!.Contacts.Where(contact => contact.Controller == plan.Index).Select(contact => (Panel: panel, Contact: contact)))
            .GroupBy(pair => pair.Contact.ControllerEnd, StringComparer.Ordinal)
            .Select(end => new ControllerJoint(
                plan.Index,
                end.Key,
                [.. end.Select(pair => string.Create(CultureInfo.InvariantCulture, $"{pair.Panel.Plug!.Name} · {pair.Contact.Number}"))],
                string.Join(", ", end.Select(pair => BillWiring.CableColour(pair.Contact.Net, pair.Panel)).Distinct()),
                end.First().Contact.Net,
                string.Empty))
            .ToDictionary(joint => joint.Place, StringComparer.Ordinal);
        foreach (var (place, words) in Beside(plan, wiring))
        {
            var joint = joints.GetValueOrDefault(place) ?? new(plan.Index, place, [], string.Empty, string.Empty, string.Empty);
            joints[place] = joint with { Also = joint.Also.Length == 0 ? words : $"{joint.Also}; {words}" };
        }

        var pins = Controllers.Of(plan.Chip).Pins.Select(pin => pin.Pin.Header).ToList();
        return [.. joints.Values.OrderBy(joint => Order(joint.Place, pins)).ThenBy(joint => joint.Place, StringComparer.Ordinal).Select(joint => joint with { Place = RegisterPin(joint.Place) })];
    }

    private static int Order(string place, List<string> pins) => place switch
    {
        Zero => -2,
        Supply => -1,
        _ when pins.IndexOf(place) is >= 0 and var index => index,
        _ => pins.Count,
    };

    /// <summary>What no plug leads to: registers' lines, pull-ups, gates.</summary>
    private static IEnumerable<(string Place, string Words)> Beside(ControllerPlan plan, BookWiring wiring)
    {
        if (plan.Inputs is { } inputs)
        {
            yield return (inputs.Load.Header, "74HC165, pin 1 of all");
            yield return (inputs.Clock.Header, "74HC165, pin 2 of all");
            yield return (inputs.Data.Header, "74HC165, pin 9 of the first");
        }

        if (plan.Outputs is { } outputs)
        {
            yield return (outputs.Data.Header, "74HC595, pin 14 of the first");
            yield return (outputs.Clock.Header, "74HC595, pin 11 of all");
            yield return (outputs.Latch.Header, "74HC595, pin 12 of all");
        }

        foreach (var ladder in plan.Ladders)
        {
            yield return (ladder.Pin.Header, $"{CircuitWords.Ohms(LadderDesign.PullUpOhms)} from here to 5V");
        }

        var gates = AtController.Gates(plan, wiring.Needs).ToList();
        foreach (var (place, channel) in gates)
        {
            yield return (place, $"wire to the gate resistor of {channel}");
        }

        if (gates.Count > 0)
        {
            yield return (Zero, "wire to the lamps' 0 V");
        }
    }

    /// <summary>"shift register 2, input C" as the chip's own pin; by the data sheets of 74HC165 and 74HC595.</summary>
    private static string RegisterPin(string place)
    {
        const string Register = "shift register ";
        if (!place.StartsWith(Register, StringComparison.Ordinal))
        {
            return place;
        }

        var isInput = place.Contains("input", StringComparison.Ordinal);
        var number = place[Register.Length..place.IndexOf(',', StringComparison.Ordinal)];
        return $"74HC{(isInput ? "165" : "595")} no {number}, pin {(isInput ? InputPins : OutputPins)[place[^1] - 'A']}";
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
