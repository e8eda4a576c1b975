using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Fabrication;
using Lampblack.Formats;
using Lampblack.Sheets;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>The wiring as a list to tick off: what to cut and solder on each panel, the plugs, what stands at the controller, and tests with a meter.</summary>
internal static class WiringPages
{
    private const double TextMm = 2;

    /// <summary>The pages.</summary>
    public static ImmutableArray<PdfPage> Of(string title, DeskWiring wiring, PrintSetup setup)
    {
        var flow = new PageFlow(setup.Paper, $"{PrintableText.Clean(title)}  ·  wiring", setup.Printer.MarginMm, TextMm);
        flow.Paragraph("Tick each line when it is done. Lengths hold the slack; those from a plug hold 150 mm more, so that the panel folds open. Each net's wires form one chain, in the order of the list. Label both ends with the net's name.");
        flow.Paragraph("Caution: " + WiringFiles.Caution);
        foreach (var panel in wiring.Wires.Panels.Where(panel => panel.Plug is not null))
        {
            flow.Heading(SheetText.Fitting($"Plug {panel.Plug!.Name}, wires of {panel.Laid.Panel.Title}", 2.2, flow.WidthMm));
            flow.Table(
                [("No", 9), ("Net", 12), ("mm", 12), ("Colour", 17), ("AWG", 9), ("From", 42), ("To", 42), ("Between wire and terminal", 43)],
                [.. panel.Wires.Select(wire => new[]
                {
                    Digits(wire.Number), wire.Net, wire.LengthMm.ToString("0", CultureInfo.InvariantCulture), wire.Colour, Digits(wire.Awg), Fit(End(wire.From), 42), Fit(End(wire.To), 42),
                    string.Join("; ", new[] { WireTables.Between(wire.To) }.Where(words => words.Length > 0)),
                })]);
        }

        if (!wiring.Wires.Nets.Resistors.IsEmpty)
        {
            flow.Heading("Resistors of selectors, from tag to tag");
            flow.Table([("Selector", 60), ("Tags", 60), ("Ohms", 66)], [.. wiring.Wires.Nets.Resistors.Select(one => new[] { Fit(one.ItemId, 60), $"{one.First} to {one.Second}", one.Ohms.ToString("0.#", CultureInfo.InvariantCulture) })]);
        }

        ImmutableArray<PanelWires> plugs = [.. wiring.Wires.Panels.Where(panel => panel.Plug is not null)];
        if (!plugs.IsEmpty)
        {
            Plugs(flow, plugs, wiring);
        }

        if (wiring.Wires.Nets.Adapters is { IsEmpty: false } adapters)
        {
            flow.Heading("Wires of the " + AdapterWire.Adapter);
            flow.Table(
                [("No", 9), ("mm", 12), ("Colour", 17), ("AWG", 9), ("From the adapter's", 42), ("To", 97)],
                [.. adapters.Select(wire => new[] { wire.Name, wire.LengthMm.ToString("0", CultureInfo.InvariantCulture), wire.Colour, Digits(AdapterWire.Awg), wire.From, $"{WireTables.At(wire)}, {wire.Pin}" })]);
        }

        var board = AtController.Of(wiring.Pins, wiring.Needs).ToList();
        if (board.Count > 0)
        {
            flow.Heading("At the controller");
            foreach (var line in board)
            {
                flow.Paragraph(line);
            }
        }

        var tests = ContinuityTests.Of(wiring.Pins, wiring.Needs, wiring.Wires.Nets);
        if (!tests.IsEmpty)
        {
            flow.Heading("Tests with a meter, before the controller is plugged in");
            flow.Paragraph("Hold the leads to the cable's ends for the controller. A meter that beeps has a range for that; the range for diodes has a diode's sign.");
            flow.Table(
                [("No", 9), ("Control", 52), ("Red lead", 34), ("Black lead", 34), ("The meter says", 57)],
                [.. tests.Select(test => new[] { Digits(test.Number), Fit(test.Control, 52), Fit(test.Red, 34), Fit(test.Black, 34), Fit(test.Expect, 57) })]);
        }

        return flow.Pages(setup.Black.Edge, setup.Printer);

        // A word that is wider than its column would run into the next.
        string Fit(string words, double share) =>
            string.Join(' ', words.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Select(word => SheetText.Fitting(word, TextMm, (flow.WidthMm * share / 186) - 2)));
    }

    private static void Plugs(PageFlow flow, ImmutableArray<PanelWires> panels, DeskWiring wiring)
    {
        flow.Heading("Plugs and cables");
        flow.Paragraph($"From each plug a cable goes to the controller: {string.Join(", ", panels.Select(panel => string.Create(CultureInfo.InvariantCulture, $"{panel.Plug!.Name} {panel.CableMm:0} mm")))}. Nets of one name from several panels meet there.");
        flow.Table(
            [("Plug", 34), ("Contact", 16), ("Net", 24), ("Goes to", 112)],
            [.. panels.SelectMany(panel => panel.Plug!.Contacts.Select(contact => new[] { $"{panel.Plug.Name}, cable {Cable(panel.Plug)}", Digits(contact.Number), contact.Net, wiring.Pins.At(contact.Controller) + contact.ControllerEnd }))]);
    }

    /// <summary>A plug's cable has its number.</summary>
    private static string Cable(PanelPlug plug) => "W" + plug.Name[1..];

    private static string End(WireEnd end) => $"{end.Item}, {end.Terminal}";

    private static string Digits(int number) => number.ToString(CultureInfo.InvariantCulture);
}
