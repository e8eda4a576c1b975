using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>A table of words.</summary>
/// <param name="Name">What it is of.</param>
/// <param name="Heads">Its columns.</param>
/// <param name="Rows">Its rows; the first column names each.</param>
public sealed record WordTable(string Name, ImmutableArray<string> Heads, ImmutableArray<WordRow> Rows);

/// <summary>A row of it.</summary>
/// <param name="Item">Panel and item that it is about, as findings name it; empty where it is about none.</param>
/// <param name="Cells">A word for each column.</param>
public sealed record WordRow(string Item, ImmutableArray<string> Cells);

/// <summary>The wires on the back of a panel.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Title">Its title.</param>
/// <param name="Drawing">The back as one sees it from behind: bodies, looms, terminals, tags, the plug.</param>
/// <param name="Missing">Parts whose tags found no room in it.</param>
/// <param name="Wires">The wires to cut and solder.</param>
/// <param name="Plug">The contacts of its plug.</param>
public sealed record WiredPanel(string Id, string Title, DrawnView Drawing, ImmutableArray<string> Missing, WordTable Wires, WordTable Plug);

/// <summary>A desk's wiring: what the station for it shows.</summary>
/// <param name="Sentence">What it takes, in a sentence.</param>
/// <param name="Panels">The panels that have wires.</param>
/// <param name="Pins">Each control's terminals with the pins that they go to.</param>
/// <param name="Board">What stands beside the controller.</param>
/// <param name="Tests">Tests with a meter.</param>
/// <param name="Findings">What was noticed.</param>
/// <param name="Key">How tags are read.</param>
/// <param name="Caution">What to mind.</param>
public sealed record WiringView(
    string Sentence, ImmutableArray<WiredPanel> Panels, WordTable Pins, ImmutableArray<string> Board, WordTable Tests, ImmutableArray<Finding> Findings, string Key, string Caution)
{
    private const double AroundMm = 2;
    private const string NoPin = "no pin is left for it";

    /// <summary>A desk without a controller, or one that something stops.</summary>
    public static WiringView Nothing { get; } = new(string.Empty, [], new(string.Empty, [], []), [], new(string.Empty, [], []), [], LoomDrawing.Key, WiringFiles.Caution);

    internal static WiringView Of(DeskWiring wiring, ImmutableArray<Finding> findings) => new(
        Words(wiring),
        [.. wiring.Wires.Panels.Where(panel => panel.Plug is not null).Select(panel => Panel(panel, wiring))],
        Pinned(wiring),
        [.. AtController.Of(wiring.Pins, wiring.Needs), .. wiring.Wires.Nets.Adapters.Select(wire => $"{wire.Name}: {wire.LengthMm:0} mm of {wire.Colour} wire from {wire.From} of the {AdapterWire.Adapter} to {WireTables.At(wire)}, {wire.Pin}.")],
        new("Tests with a meter", ["control", "red lead", "black lead", "the meter says"], [.. ContinuityTests.Of(wiring.Pins, wiring.Needs, wiring.Wires.Nets).Select(test => new WordRow(string.Empty, [test.Control, test.Red, test.Black, test.Expect]))]),
        findings,
        LoomDrawing.Key,
        WiringFiles.Caution);

    private static string Words(DeskWiring wiring)
    {
        var wires = wiring.Wires.Panels.Sum(panel => panel.Wires.Length);
        var metres = wiring.Wires.Panels.Sum(panel => panel.Wires.Sum(wire => wire.LengthMm)) / 1000;
        var parts = wiring.Pins.Controllers.Select(plan =>
        {
            var matrix = plan.Contacts.Count(contact => contact.Place is MatrixInput);
            var registers = (plan.Inputs?.ChipCount ?? 0) + (plan.Outputs?.ChipCount ?? 0);
            string?[] held =
            [
                Counted(plan.Contacts.Length - matrix, "contact", "contacts"),
                matrix == 0 ? null : Invariant($"{matrix} contacts in a matrix of {plan.Columns.Length} columns and {plan.Rows.Length} rows{(plan.Diodes ? $" with {Counted(matrix, "diode", "diodes")}" : string.Empty)}"),
                Counted(plan.Encoders.Length, "encoder", "encoders"),
                Counted(plan.Wipers.Length, "knob", "knobs"),
                Counted(plan.Ladders.Length, "selector on resistors", "selectors on resistors"),
                Counted(plan.Indicators.Length, "lamp", "lamps"),
                Counted(plan.Dimmers.Count(dimmer => !dimmer.IsMeter), "dimmed light", "dimmed lights"),
                Counted(plan.Dimmers.Count(dimmer => dimmer.IsMeter), "meter", "meters"),
                Counted(registers, "shift register", "shift registers"),
            ];
            return $"{plan.Chip}: {Listed(held)}";
        });
        return $"{string.Join("; ", parts)}. {Counted(wires, "wire", "wires")}, {metres.ToString("0.0", CultureInfo.InvariantCulture)} m on the panels.";
    }

    private static string Listed(string?[] held) => string.Join(", ", held.OfType<string>()) is { Length: > 0 } words ? words : "nothing";

    private static string? Counted(int count, string one, string many) => count == 0 ? null : Invariant($"{count} {(count == 1 ? one : many)}");

    private static WiredPanel Panel(PanelWires panel, DeskWiring wiring)
    {
        var (size, drawing) = (panel.Laid.Panel, LoomDrawing.Of(panel));
        return new(
            size.Id,
            size.Title,
            new(-AroundMm, -AroundMm, size.WidthMm + (2 * AroundMm), size.HeightMm + (2 * AroundMm), [.. drawing.Layers.Where(layer => !layer.Region.IsEmpty).Select(layer => new DrawnShape(layer.Id, SvgPath.Of(layer.Region, size.HeightMm)))]),
            drawing.Untagged,
            new(
                $"Wires of {size.Title}",
                ["No", "net", "mm", "colour", "AWG", "from", "to", "between wire and terminal"],
                [.. panel.Wires.Select(wire => new WordRow(string.Empty, [Digits(wire.Number), wire.Net, wire.LengthMm.ToString("0", CultureInfo.InvariantCulture), wire.Colour, Digits(wire.Awg), End(wire.From), End(wire.To), WireTables.Between(wire.To)]))]),
            new(
                $"Plug {panel.Plug!.Name} of {size.Title}",
                ["contact", "net", "goes to"],
                [.. panel.Plug.Contacts.Select(contact => new WordRow(string.Empty, [Digits(contact.Number), contact.Net, wiring.Pins.At(contact.Controller) + contact.ControllerEnd]))]));
    }

    private static WordTable Pinned(DeskWiring wiring) => new(
        "Where each control goes",
        ["control", "terminals with nets and pins"],
        [
            .. wiring.Needs.Select(need => new WordRow(
                need.Part?.Origin.Item ?? need.Id,
                [
                    need.Name == need.Id ? need.Id : $"{need.Name} ({need.Id})",
                    need.Part is null ? Strip(need, wiring) : string.Join("; ", from net in wiring.Wires.Nets.Nets from terminal in net.Terminals where terminal.ItemId == need.Id orderby terminal.Terminal select net.IsLocal || net.ControllerEnd == net.Name ? $"{terminal.Terminal} to {net.Name}" : $"{terminal.Terminal} to {net.Name} ({net.ControllerEnd})") is { Length: > 0 } ends ? ends : NoPin,
                ])),
        ]);

    /// <summary>What has no terminals on a panel: its wire comes from the lamps' circuit.</summary>
    private static string Strip(WiredNeed need, DeskWiring wiring) =>
        string.Join("; ", from plan in wiring.Pins.Controllers from line in plan.DataLines where line.ItemId == need.Id select $"{line.Terminal}, from its {(need.HasShifter ? "level shifter" : "data resistor")}, to {wiring.Pins.At(plan.Index)}{line.Pin.Header}") is { Length: > 0 } ends ? ends : NoPin;

    private static string End(WireEnd end) => $"{end.Item}, {end.Terminal}";

    private static string Digits(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
