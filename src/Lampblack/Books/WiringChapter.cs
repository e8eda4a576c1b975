using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Wiring;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>Wires on the panels, plugs, what stands at the controller, and tests with a meter before it is plugged in.</summary>
internal static class WiringChapter
{
    private const string BoardTitle = "Make ready what stands at the controller";

    public static BookChapter Of(BookWiring wiring, BookFacts facts) => new(
        "wire",
        "Wire it",
        [.. wiring.Wires.Panels.Where(panel => panel.Plug is not null).Select(panel => Solder(panel, wiring, facts)), Board(wiring, facts), Test(wiring, facts)]);

    private static BookStep Solder(PanelWires wires, BookWiring wiring, BookFacts facts)
    {
        var (panel, plug) = (wires.Laid.Panel, wires.Plug!);
        var index = facts.Laid.Panels.Index().First(one => one.Item.Panel.Id == panel.Id).Index;
        ImmutableArray<LadderResistor> ladders = [.. wiring.Wires.Nets.Resistors.Where(one => one.Panel == index)];
        var labels = facts.Charts.Where(chart => chart.Laid.Panel.Id == panel.Id).SelectMany(chart => chart.Holes).GroupBy(hole => hole.Origin.Item).ToDictionary(holes => holes.Key, holes => holes.First().Label);
        string Hole(string item) => labels.GetValueOrDefault(item, string.Empty);
        var between = wires.Wires.Select(wire => wire.To.Inline).ToHashSet();
        var hasDiodes = between.Contains(InlinePart.DiodeToTerminal) || between.Contains(InlinePart.DiodeToWire);
        var what = (hasDiodes, between.Contains(InlinePart.Resistor)) switch { (true, true) => "diode or resistor", (true, false) => "diode", _ => "resistor" };
        var isBare = between.Any(inline => inline != InlinePart.None);
        return new(
            $"wire-{panel.Id}",
            $"Solder the wires of {panel.Title}",
            (wires.Wires.Length * BookTimes.Wire) + (wires.Wires.Count(wire => wire.To.Inline != InlinePart.None) * BookTimes.Between) + (ladders.Length * BookTimes.Between),
            [
                new Doings(
                [
                    $"Lay the panel face down on a cloth. Follow one contact of plug {Text(plug.Name)} after the other, in the pictures of its chains and in the tables below them. {Code($"wiring/{panel.Id}-wires.pdf")} has the same in true size, every tag in its place.",
                    .. ladders.IsEmpty ? ImmutableArray<string>.Empty : ["Solder the resistors of the selectors from tag to tag first."],
                    $"Cut each wire as long as the table says (slack is in it), write its number and its net on both ends, hook it through its tag, and solder it: solder in the {facts.Maker.OtherHand} hand, iron in the {facts.Maker.Hand} one, two seconds a tag.",
                    .. isBare ? [$"A {what} between is soldered to the tag first, its leg cut short. Slip a sleeve over what is bare and shrink it with hot air, away from the panel. Where the chain goes on from there, the next wire starts at that one's free leg, together with the wire before it, never at the tag itself."] : ImmutableArray<string>.Empty,
                    .. hasDiodes ? ["A diode's band stands where the table says."] : ImmutableArray<string>.Empty,
                    $"Tie what runs together with cable ties, lead it out to plug {Text(plug.Name)}, and solder each wire to the contact whose number the table tells, a sleeve over each joint. If the plug goes together both ways round, mark contact 1 on both halves.",
                ]),
                .. TagsDrawing.Of(wires) is { } tags ? [new PictureRow([tags])] : ImmutableArray<BookBlock>.Empty,
                .. facts.Picture($"{panel.Id}/looms") is { } picture ? [picture] : ImmutableArray<BookBlock>.Empty,
                .. ladders.IsEmpty
                    ? ImmutableArray<BookBlock>.Empty
                    : [new BookTable("Resistors from tag to tag", ["Hole", "Selector", "Tags", "Ohms"], [.. ladders.Select(one => new BookRow("ladder", $"{one.ItemId}:{one.First}-{one.Second}", [Text(Hole(one.ItemId)), Text(Named(one.ItemId)), Text($"{one.First} to {one.Second}"), one.Ohms.ToString("0.#", CultureInfo.InvariantCulture)]))], IsTicked: true)],
                .. WireChains.Of(wires, Hole).SelectMany(group => new BookBlock[] { new PictureRow([group.Picture]), Table(group, plug, panel.Title, Hole, facts) }),
                new BookTable(
                    $"Plug {Text(plug.Name)}: from each contact a wire of {facts.Ruler(wires.CableMm)}, of the colour of its net, will go to the controller; nothing to tick yet, the cable is made in the step “{BoardTitle}”",
                    ["Contact", "Net", "Will go to"],
                    [.. plug.Contacts.Select(contact => new BookRow("contact", $"{plug.Name}:{contact.Number}", [Digits(contact.Number), Text(contact.Net), (wiring.Pins.At(contact.Controller) + (contact.Register?.AtSocket ?? contact.ControllerEnd)) is var end && end == contact.Net ? "the pin of that name" : Text(end)]))],
                    IsTicked: false),
            ],
            new("Every row is ticked; no tag has a loose strand; a gentle pull at each wire moves nothing; the panel can be folded open with its loom on.", "A cold joint is dull or moves: heat it again, a little solder, hold still until it is bright."))
        {
            Tools = [Tool.Iron, Tool.Cutter, Tool.Stripper, Tool.LabelPen, Tool.Cloth, Tool.HotAir],
            Materials = ["wire in the colours of the table", "solder", "cable ties", .. hasDiodes ? ["diodes 1N4148"] : ImmutableArray<string>.Empty, "sleeves that shrink", $"plug and socket of {plug.Contacts.Length} contacts"],
            Cautions = [Caution.Solder, Caution.Heat],
            Needs = [Made.ControlsFitted],
            Makes = [Made.WiresSoldered],
        };
    }

    private static BookTable Table(WireGroup group, PanelPlug plug, string title, Func<string, string> hole, BookFacts facts)
    {
        var unit = Quantities.LengthWords.Name(facts.Maker.Unit);
        var hasBetween = group.Wires.Any(wire => wire.To.Inline != InlinePart.None);
        return new(
            string.Create(CultureInfo.InvariantCulture, $"Wires of {Text(title)}, {Text(plug.Name)} contacts {group.Contacts[0].Number} to {group.Contacts[^1].Number}"),
            ["No", "Net", $"Length, {unit}", "Colour", "AWG", "From", "To", .. hasBetween ? ["Between wire and tag"] : ImmutableArray<string>.Empty],
            [
                .. group.Wires.Select(wire => new BookRow("wire", Digits(wire.Number),
                [
                    Digits(wire.Number), Text(wire.Net), Length(wire.LengthMm, facts), Text(wire.Colour), Digits(wire.Awg), Text(Start(wire.From, plug, hole)), Text(End(wire.To, plug, hole)),
                    .. hasBetween ? [Text(WireTables.Between(wire.To))] : ImmutableArray<string>.Empty,
                ])),
            ],
            IsTicked: true);
    }

    private static ImmutableArray<Made> Soldered(BookWiring wiring) => wiring.HasPlugs ? [Made.WiresSoldered] : [];

    private static BookStep Board(BookWiring wiring, BookFacts facts)
    {
        var (lamps, registers) = (facts.LampWires, RegisterWires.Of(wiring.Pins));
        var (joints, adapters) = (ControllerJoints.Of(wiring, lamps), wiring.Wires.Nets.Adapters);
        return new(
            "board",
            BoardTitle,
            BookTimes.Board + ((wiring.Wires.Panels.Sum(panel => panel.Plug?.Contacts.Length ?? 0) + registers.Length + adapters.Length) * BookTimes.Contact),
            [
                .. registers.IsEmpty ? ImmutableArray<BookBlock>.Empty : Registers(wiring, registers, facts),
                new PictureRow([ProvingDrawings.Joints(joints)]),
                new Doings(
                [
                    .. wiring.HasPlugs ? [$"Make a cable for each plug: solder a wire to every contact of its socket, {string.Join(", ", wiring.Wires.Panels.Where(panel => panel.Plug is not null).Select(panel => $"{facts.Ruler(panel.CableMm)} long for {Text(panel.Plug!.Name)}"))}, of the colour of the plug's table, a sleeve over each joint."] : ImmutableArray<string>.Empty,
                    $"Solder {(wiring.HasPlugs ? "the cables' other ends" : "the ends of the lamps' wires")} to a pin row that plugs into your board, or make them ready for its screws, row by row of the table. The names of the pins are printed on the board. The board itself stays apart and unplugged.",
                    .. adapters.IsEmpty ? ImmutableArray<string>.Empty : ["Solder the wires of the USB-to-serial adapter to the pin row, too, and to a socket row that the adapter's pins go into, crosswise as the table says; its 5 V stays open."],
                    $"{Code("wiring/schematic.svg")} has everything on one drawing, for a screen or a large sheet.",
                ]),
                .. UnwiredParts.Told(facts) is { } unwired ? [unwired] : ImmutableArray<BookBlock>.Empty,
                .. adapters.IsEmpty
                    ? ImmutableArray<BookBlock>.Empty
                    : [new BookTable(
                        "Wires of the USB-to-serial adapter",
                        ["No", $"Length, {Quantities.LengthWords.Name(facts.Maker.Unit)}", "Colour", "AWG", "From the adapter’s", "To the controller’s"],
                        [.. adapters.Select(wire => new BookRow("adapter-wire", wire.Name, [wire.Name, Length(wire.LengthMm, facts), wire.Colour, Digits(AdapterWire.Awg), Text(wire.From), Text(wiring.Pins.At(wire.Controller) + wire.Pin)]))],
                        IsTicked: true)],
                .. ControllerJoints.Tables(wiring, lamps),
            ],
            new("Each contact's wire ends at the place of the pin that the table names, and the board itself is not joined to any of them yet.", "A wire at the wrong pin: move it now; the meter of the next step finds most of those that you overlook."))
        {
            Tools = [Tool.Iron, Tool.Cutter, Tool.Stripper, Tool.HotAir, .. registers.IsEmpty ? ImmutableArray<BookTool>.Empty : [Tool.LabelPen, Tool.WoodSaw, Tool.File]],
            Materials = ["the board", "wire in the colours of the table", "pin row or screw terminals", "solder", "sleeves that shrink", .. adapters.IsEmpty ? ImmutableArray<string>.Empty : ["the USB-to-serial adapter", "socket row for the adapter"], .. registers.IsEmpty ? ImmutableArray<string>.Empty : ["perforated board", "sockets of 16 pins, without their chips", "capacitors, and resistors where the table has some"]],
            Cautions = [.. registers.IsEmpty ? ImmutableArray<Caution>.Empty : [Caution.Dust], Caution.Solder, Caution.Heat, Caution.Volts],
            Needs = [.. Soldered(wiring), .. facts.Circuit is null ? ImmutableArray<Made>.Empty : [Made.LampsFed]],
            Makes = [Made.BoardWired],
        };
    }

    /// <summary>The sockets of the registers on their own perforated board; the chips come in last of all.</summary>
    private static ImmutableArray<BookBlock> Registers(BookWiring wiring, ImmutableArray<RegisterWire> wires, BookFacts facts) =>
    [
        new PictureRow([.. RegisterDrawing.Of(wiring.Pins)]),
        new Doings(
        [
            $"Begin with the sockets, without their chips: saw the perforated board, take its burr off, and set them on a piece of perforated board of {facts.Size(RegisterBoard.SizeMm(facts).LongMm, RegisterBoard.SizeMm(facts).HighMm)}, ten holes from one to the next{(RegisterBoard.SizeMm(facts).HighMm > 50 ? $", {RegisterBoard.InRow(facts)} in a row, every other row backwards so that each follows the one before it" : string.Empty)}, all notches to one side, and write each one's name beside it. It will stand on spacers on the floor, close beside the controller: its wires are made for that. On the back left and right are exchanged: the picture has both views.",
            "Solder what stands between two pins, then wire by wire by the table. Each wire's number is written on both ends.",
        ]),
        new BookTable(
            "What stands at the sockets' pins",
            ["Part", "From", "To"],
            [.. RegisterWires.Parts(wiring.Pins).Select((part, index) => new BookRow("register-part", Digits(index + 1), [Text(part.What), Text(part.From), Text(part.To)]))],
            IsTicked: true),
        new BookTable(
            "Wires of the shift registers' sockets",
            ["No", "Net", $"Length, {Quantities.LengthWords.Name(facts.Maker.Unit)}", "Colour", "AWG", "From", "To"],
            [.. wires.Select(wire => new BookRow("register-wire", wire.Name, [wire.Name, Text(wire.Net), Length(wire.LengthMm, facts), wire.Colour, Digits(RegisterWires.Awg), Text(wiring.Pins.At(wire.Controller) + wire.From), Text(wiring.Pins.At(wire.Controller) + wire.To)]))],
            IsTicked: true),
    ];

    private static BookStep Test(BookWiring wiring, BookFacts facts)
    {
        var lamps = LampWireTables.AtController(facts.LampWires, facts);
        var tests = ContinuityTests.Of(wiring.Pins, wiring.Needs, wiring.Wires.Nets);
        return new(
            "test-wires",
            "Test every wire with the meter",
            (tests.Length + (lamps?.Rows.Length ?? 0)) * BookTimes.Test,
            [
                .. Meter(wiring, tests, facts) is { } meter ? [new PictureRow([meter])] : ImmutableArray<BookBlock>.Empty,
                new Doings([$"Cables plugged together, the board itself not joined. Hold the leads to the cable's ends for the controller; the first test comes first. A tag that is named is held at the part itself.{(wiring.Pins.Controllers.Any(plan => plan.Inputs is not null || plan.Outputs is not null) ? " A net that ends at a register is held at its pin of the empty socket." : string.Empty)}"]),
                .. tests.IsEmpty ? ImmutableArray<BookBlock>.Empty : [new BookTable(
                    "Tests with a meter",
                    ["No", "Control", "Red lead", "Black lead", "The meter says"],
                    [.. tests.Select(test => new BookRow("test", Digits(test.Number), [Digits(test.Number), Text(test.Control), Text(test.Red), Text(test.Black), Text(test.Expect)]))],
                    IsTicked: true)],
                .. lamps is null ? ImmutableArray<BookBlock>.Empty : [lamps],
            ],
            new("The meter says what the table says, every time.", "A beep where there should be none: strands or solder between two tags. None where there should be one: the next joint on that net, or the terminals are the other way round in your part: swap two wires. A diode that passes both ways or none: turn it, or take another."))
        {
            Tools = [Tool.Meter],
            Needs = [.. Soldered(wiring), Made.BoardWired],
            Makes = [Made.WiresTested],
        };
    }

    /// <summary>One of the tests as a picture; where only the lamps' wires come to the controller, the first of those.</summary>
    private static BookPicture? Meter(BookWiring wiring, ImmutableArray<ContinuityTest> tests, BookFacts facts)
    {
        if (wiring.Wires.Panels.Select(panel => panel.Plug).OfType<PanelPlug>().FirstOrDefault() is { } plug && !tests.IsEmpty)
        {
            var shown = ProvingDrawings.Shown(tests);
            return ProvingDrawings.Meter(shown, ProvingDrawings.Where(shown, plug.Name));
        }

        return facts.LampWires.Away.FirstOrDefault(wire => wire.End.Place == LampPlace.ControllerZero) is { } zero
            ? ProvingDrawings.Meter(new(1, "the lamps’ wires", $"{zero.To} at the cable’s end", zero.From, $"beep: {zero.Name} joins them"), "the cable’s end, and the lamp board")
            : null;
    }

    internal static string Length(double mm, BookFacts facts) => facts.Maker.Unit == Quantities.LengthUnit.Millimetre
        ? mm.ToString("0", CultureInfo.InvariantCulture)
        : (Math.Ceiling(mm / 25.4 * 4) / 4).ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>Behind a diode or resistor the wire starts at its free leg: at the tag itself it would lie before it.</summary>
    private static string Start(WireEnd end, PanelPlug plug, Func<string, string> hole) =>
        end.Inline == InlinePart.None ? End(end, plug, hole) : $"{End(end, plug, hole)}: free leg of its {(end.Inline == InlinePart.Resistor ? "resistor" : "diode")}";

    /// <summary>As in the pictures: the number of the hole, the part, the tag.</summary>
    private static string End(WireEnd end, PanelPlug plug, Func<string, string> hole) =>
        end.Item == plug.Name ? $"{plug.Name} · {end.Terminal}" : $"{hole(end.Item)} {Named(end.Item)}, tag {end.Terminal}";

    private static string Named(string item) => item[(item.IndexOf('/', StringComparison.Ordinal) + 1)..];

    private static string Digits(int number) => number.ToString(CultureInfo.InvariantCulture);
}
