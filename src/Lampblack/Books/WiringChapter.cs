using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Parts;
using Lampblack.Wiring;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>Wires on the panels, plugs, what stands at the controller, and tests with a meter before it is plugged in.</summary>
internal static class WiringChapter
{
    public static BookChapter Of(BookWiring wiring, BookFacts facts) => new(
        "wire",
        "Wire it",
        [.. wiring.Wires.Panels.Where(panel => panel.Plug is not null).Select(panel => Solder(panel, wiring, facts)), Board(wiring, facts), Test(wiring)]);

    private static BookStep Solder(PanelWires wires, BookWiring wiring, BookFacts facts)
    {
        var (panel, plug) = (wires.Laid.Panel, wires.Plug!);
        var unit = Quantities.LengthWords.Name(facts.Maker.Unit);
        var index = facts.Laid.Panels.Index().First(one => one.Item.Panel.Id == panel.Id).Index;
        ImmutableArray<LadderResistor> ladders = [.. wiring.Wires.Nets.Resistors.Where(one => one.Panel == index)];
        return new(
            $"wire-{panel.Id}",
            $"Solder the wires of {panel.Title}",
            (wires.Wires.Length * BookTimes.Wire) + (wires.Wires.Count(wire => wire.To.Inline != InlinePart.None) * BookTimes.Between) + (ladders.Length * BookTimes.Between),
            [
                new Doings(
                [
                    $"Lay the panel face down on a cloth, and {Code($"wiring/{panel.Id}-wires.pdf")} (true size) beside it: it shows the back as you see it.",
                    .. ladders.IsEmpty ? ImmutableArray<string>.Empty : ["Solder the resistors of the selectors from tag to tag first."],
                    $"Cut each wire as long as the table says (slack is in it), write its net on both ends, hook it through its tag, and solder it: solder in the {facts.Maker.OtherHand} hand, iron in the {facts.Maker.Hand} one, two seconds a tag. A diode or resistor between is soldered to the tag first, its leg cut short; slip a sleeve over what is bare. The wires of one net form a chain, in the order of the table.{(wires.Wires.Any(wire => wire.From.Inline != InlinePart.None) ? " Where such a chain goes on from a tag with a diode or resistor, the next wire starts at that one's free leg, together with the wire before it, never at the tag itself." : string.Empty)}",
                    $"A diode's band stands where the table says. Tie what runs together, and lead it out to plug {Text(plug.Name)}.",
                ]),
                .. facts.Picture($"{panel.Id}/wires") is { } picture ? [picture] : ImmutableArray<BookBlock>.Empty,
                .. ladders.IsEmpty
                    ? ImmutableArray<BookBlock>.Empty
                    : [new BookTable("Resistors from tag to tag", ["Selector", "Tags", "Ohms"], [.. ladders.Select(one => new BookRow("ladder", $"{one.ItemId}:{one.First}-{one.Second}", [Text(one.ItemId), Text($"{one.First} to {one.Second}"), one.Ohms.ToString("0.#", CultureInfo.InvariantCulture)]))], IsTicked: true)],
                new BookTable(
                    $"Wires of {Text(panel.Title)}",
                    ["No", "Net", $"Length, {unit}", "Colour", "AWG", "From", "To", "Between wire and tag"],
                    [.. wires.Wires.Select(wire => new BookRow("wire", Digits(wire.Number), [Digits(wire.Number), Text(wire.Net), Length(wire.LengthMm, facts), Text(wire.Colour), Digits(wire.Awg), Text(Start(wire.From)), Text(End(wire.To)), Text(WireTables.Between(wire.To))]))],
                    IsTicked: true),
                new BookTable(
                    $"Plug {Text(plug.Name)}: from each contact a wire of {facts.Ruler(wiring.Wires.CableMm)} goes to the controller",
                    ["Contact", "Net", "Goes to"],
                    [.. plug.Contacts.Select(contact => new BookRow("contact", $"{plug.Name}:{contact.Number}", [Digits(contact.Number), Text(contact.Net), Text(At(wiring, contact.Controller) + contact.ControllerEnd)]))],
                    IsTicked: true),
            ],
            new("Every row is ticked; no tag has a loose strand; a gentle pull at each wire moves nothing; the panel can be folded open with its loom on.", "A cold joint is dull or moves: heat it again, a little solder, hold still until it is bright."))
        {
            Tools = ["soldering iron", "cutter", "stripper", "fine pen for labels"],
            Materials = ["wire in the colours of the table", "solder", .. wires.Wires.Any(wire => wire.To.Inline is InlinePart.DiodeToTerminal or InlinePart.DiodeToWire) ? ["diodes 1N4148"] : ImmutableArray<string>.Empty, $"plug and socket of {plug.Contacts.Length} contacts"],
            Cautions = [Caution.Solder],
            Needs = [Made.ControlsFitted],
            Makes = [Made.WiresSoldered],
        };
    }

    private static BookStep Board(BookWiring wiring, BookFacts facts)
    {
        ImmutableArray<string> lines = [.. AtController.Of(wiring.Pins, wiring.Needs).Select(Text)];
        var unwired = facts.Laid.Panels.SelectMany(panel => panel.Parts).Where(part => part.Part.Class is not (PartClass.Screw or PartClass.Plain or PartClass.Connector) && !wiring.Needs.Any(need => need.Part?.Origin.Item == part.Origin.Item)).Select(part => part.Origin.Item).ToList();
        return new(
            "board",
            "Make ready what stands at the controller",
            BookTimes.Board + (wiring.Wires.Panels.Sum(panel => panel.Plug?.Contacts.Length ?? 0) * BookTimes.Contact),
            [
                new Doings([$"{Code("wiring/schematic.svg")} is the same drawing as a file, for a screen or a larger sheet.", "Solder the cables' wires to a pin row that plugs into your board, or make their ends ready for its screws: the plugs' tables say which contact goes to which pin. The board itself stays apart and unplugged.", .. lines]),
                .. unwired.Count == 0 ? ImmutableArray<BookBlock>.Empty : [new Paragraph($"Not wired by this book: {Text(string.Join(", ", unwired))}. Each is wired by the sheet that came with it, which also says what volts and amperes it may switch or take. Nothing of the mains belongs in this panel.")],
                .. facts.PageOf("schematic") is { } picture ? [picture] : ImmutableArray<BookBlock>.Empty,
            ],
            new("Each contact's wire ends at the place of the pin that its table names, and the board itself is not joined to any of them yet.", "A wire at the wrong pin: move it now; the meter of the next step finds those that you overlook."))
        {
            Tools = ["soldering iron"],
            Materials = ["the board", "cable wire"],
            Cautions = [Caution.Solder, Caution.Volts],
            Needs = [Made.WiresSoldered, .. facts.Circuit is null ? ImmutableArray<Made>.Empty : [Made.LampsFed]],
            Makes = [Made.BoardWired],
        };
    }

    private static BookStep Test(BookWiring wiring)
    {
        var tests = ContinuityTests.Of(wiring.Pins, wiring.Needs, wiring.Wires.Nets);
        return new(
            "test-wires",
            "Test every wire with the meter",
            tests.Length * BookTimes.Test,
            [
                .. wiring.Wires.Panels.Select(panel => panel.Plug).OfType<PanelPlug>().FirstOrDefault() is { } plug && !tests.IsEmpty ? [new PictureRow([ProvingDrawings.Meter(tests[Math.Min(1, tests.Length - 1)], plug.Name)])] : ImmutableArray<BookBlock>.Empty,
                new Doings(["Cables plugged together, the board itself not joined. Hold the leads to the cable's ends for the controller; the first test comes first."]),
                new BookTable(
                    "Tests with a meter",
                    ["No", "Control", "Red lead", "Black lead", "The meter says"],
                    [.. tests.Select(test => new BookRow("test", Digits(test.Number), [Digits(test.Number), Text(test.Control), Text(test.Red), Text(test.Black), Text(test.Expect)]))],
                    IsTicked: true),
            ],
            new("The meter says what the table says, every time.", "A beep where there should be none: strands or solder between two tags. None where there should be one: the next joint on that net, or the terminals are the other way round in your part: swap two wires. A diode that passes both ways or none: turn it, or take another."))
        {
            Tools = ["meter with a range that beeps and one for diodes"],
            Needs = [Made.WiresSoldered, Made.BoardWired],
            Makes = [Made.WiresTested],
        };
    }

    private static string Length(double mm, BookFacts facts) => facts.Maker.Unit == Quantities.LengthUnit.Millimetre
        ? mm.ToString("0", CultureInfo.InvariantCulture)
        : (Math.Ceiling(mm / 25.4 * 4) / 4).ToString("0.##", CultureInfo.InvariantCulture);

    private static string At(BookWiring wiring, int controller) => wiring.Pins.Controllers.Length == 1 ? string.Empty : $"controller {Digits(controller + 1)}: ";

    /// <summary>Behind a diode or resistor the wire starts at its free leg: at the tag itself it would lie before it.</summary>
    private static string Start(WireEnd end) => end.Inline == InlinePart.None ? End(end) : $"{End(end)}: free leg of its {WireTables.Between(end)}";

    private static string End(WireEnd end) => $"{end.Item}, {end.Terminal}";

    private static string Digits(int number) => number.ToString(CultureInfo.InvariantCulture);
}
