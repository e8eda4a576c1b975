using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Circuits;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>The lamps' wires as rows like those of the panels, and what a meter must say of them.</summary>
internal static class LampWireTables
{
    // Two resistors of 5 % in a row, and a cheap meter. From memory.
    private const double OhmsShare = 0.1;

    /// <summary>The wires of one board.</summary>
    public static BookTable Board(LampBoard board, ImmutableArray<LampWire> wires, BookFacts facts) => Table($"Wires on the back of the lamp board of {Text(board.Box.Panel)}", wires, facts);

    /// <summary>The wires that lead away.</summary>
    public static BookTable Away(ImmutableArray<LampWire> wires, BookFacts facts) => Table("Wires that lead away from the lamp boards, to supply, neighbours and controller", wires, facts);

    /// <summary>What the meter says on the bench, the supply still off.</summary>
    public static BookTable Bench(LampWires wires, BookFacts facts)
    {
        var isLegged = LampWires.IsLegged(facts);
        var rows = new List<BookRow>();
        void Add(string red, string black, string expect) => rows.Add(Row(rows.Count + 1, red, black, expect));
        foreach (var (board, _) in wires.Boards)
        {
            var on = wires.Boards.Length == 1 ? string.Empty : $"{board.Box.Panel}, ";
            var hasCapacitor = board.Channels.Any(channel => channel.Plan.Pixels is not null);
            Add($"{on}plus rail", $"{on}0 V rail", hasCapacitor ? "no beep but a short one at first: plus and 0 V are not shorted" : "no beep: plus and 0 V are not shorted");
            foreach (var channel in board.Channels)
            {
                if (channel.IsSingles)
                {
                    var many = channel.Pieces.Sum(piece => piece.Length);
                    Add(
                        string.Create(CultureInfo.InvariantCulture, $"{channel.Name}: the {(isLegged ? "long leg" : "long wire")} of each of its {many} {(many == 1 ? "emitter" : "emitters")}"),
                        $"the same one's {(isLegged ? "short leg" : "short wire")}",
                        "diode range: it glows faintly, or 1.6 to 3.2 V; nothing with the leads exchanged");
                }

                if (channel.Plan.Switch is { } one)
                {
                    Add($"{on}0 V rail", $"{channel.Labels.Switch}, leg D", "diode range: 0.4 to 0.8 V (the transistor's own diode); no beep");
                    Add($"free end of the wire from {channel.Labels.Gate} ({Gate(wires, channel)?.Name})", $"{on}0 V rail", Ohms(one));
                }
            }
        }

        return new("Tests with a meter, the supply still off", ["No", "Red lead", "Black lead", "The meter says"], [.. rows], IsTicked: true);
    }

    /// <summary>What it says of the lamps' wires once they end at the controller's pin row; null where none does.</summary>
    public static BookTable? AtController(LampWires wires, BookFacts facts)
    {
        var rows = new List<BookRow>();
        void Add(string red, string black, string expect) => rows.Add(Row(rows.Count + 1, red, black, expect));
        if (facts.Wiring is null || !wires.Away.Any(wire => wire.End.Place == LampPlace.ControllerZero))
        {
            return null;
        }

        ImmutableArray<LampBoard> boards = [.. wires.Boards.Select(board => board.Board)];
        foreach (var wire in wires.Away.Where(wire => wire.End.Place == LampPlace.ControllerZero))
        {
            Add($"{wire.To} at the cable’s end", wire.From, $"beep: {wire.Name} joins them");
            Add($"{facts.Wiring.Pins.At(wire.End.Controller)}5V at the cable’s end", LampWires.Rail(wire.Start.Board!, true, boards).Words, "no beep: 5 V and the lamps' supply never meet");
        }

        foreach (var channel in wires.Boards.SelectMany(board => board.Board.Channels))
        {
            if (channel.Plan.Switch is { } one && Gate(wires, channel) is { } gate)
            {
                Add($"{gate.To} at the cable’s end", $"{channel.Labels.Gate}, the end where {gate.Name} is soldered", $"beep: {gate.Name} is at its pin; at every other wire’s end nothing");
                Add($"{gate.To} at the cable’s end", "GND at the cable’s end", Ohms(one));
            }
            else if (channel.Plan.Pixels is { } pixels && Gate(wires, channel) is { End.Controller: >= 0 } data)
            {
                Add($"{data.To} at the cable’s end", $"{(pixels.NeedsShifter ? channel.Labels.Shifter : channel.Labels.Data)}, the end where {data.Name} is soldered", $"beep: {data.Name} is at its pin; at every other wire’s end nothing");
            }
        }

        return new("Tests of the lamps’ wires, both supplies off, the floors still open", ["No", "Red lead", "Black lead", "The meter says"], [.. rows.Select((row, index) => row with { Key = FormattableString.Invariant($"controller {index + 1}"), Cells = row.Cells.SetItem(0, FormattableString.Invariant($"T{index + 1}")) })], IsTicked: true);
    }

    /// <summary>The wire from a channel's first part to the controller.</summary>
    public static LampWire? Gate(LampWires wires, BoardChannel channel) => wires.Away.FirstOrDefault(wire => wire.Start.Place == LampPlace.First && wire.Net == channel.Name);

    private static string Ohms(SwitchPlan one)
    {
        var ohms = one.GateOhms + one.PullDownOhms;
        return string.Create(CultureInfo.InvariantCulture, $"ohms: {ohms * (1 - OhmsShare) / 1000:0.0} to {ohms * (1 + OhmsShare) / 1000:0.0} kΩ, its two resistors in a row");
    }

    private static BookRow Row(int number, string red, string black, string expect) =>
        new("lamp-test", FormattableString.Invariant($"{number}"), [FormattableString.Invariant($"{number}"), Text(red), Text(black), Text(expect)]);

    private static BookTable Table(string caption, ImmutableArray<LampWire> wires, BookFacts facts) => new(
        caption,
        ["No", "Net", $"Length, {Quantities.LengthWords.Name(facts.Maker.Unit)}", "Colour", "AWG", "From", "To"],
        [.. wires.Select(wire => new BookRow("lamp-wire", wire.Name, [wire.Name, Text(wire.Net), WiringChapter.Length(wire.LengthMm, facts), wire.Colour, FormattableString.Invariant($"{wire.Awg}"), Text(wire.From), Text(wire.To)]))],
        IsTicked: true);
}
