using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Formats;

namespace Lampblack.Wiring;

/// <summary>Wires and plugs as tables for other programs.</summary>
public static class WireTables
{
    /// <summary>Every wire: what to cut, where it goes, what is soldered between; those of adapters have no panel.</summary>
    /// <param name="plan">The wires.</param>
    public static ImmutableArray<byte> Wires(DeskWires plan) => CsvFile.Write(
        ["no", "panel", "net", "from", "from terminal", "to", "to terminal", "length mm", "colour", "awg", "between wire and from terminal", "between wire and to terminal"],
        plan.Panels.SelectMany(panel => panel.Wires.Select(wire => (IEnumerable<string>)
        [
            Digits(wire.Number), panel.Laid.Panel.Id, wire.Net, wire.From.Item, wire.From.Terminal, wire.To.Item, wire.To.Terminal,
            wire.LengthMm.ToString("0", CultureInfo.InvariantCulture), wire.Colour, Digits(wire.Awg), Between(wire.From), Between(wire.To),
        ])).Concat(plan.Nets.Adapters.Select(wire => (IEnumerable<string>)
        [
            wire.Name, string.Empty, wire.Pin, AdapterWire.Adapter, wire.From, At(wire), wire.Pin, wire.LengthMm.ToString("0", CultureInfo.InvariantCulture), wire.Colour, Digits(AdapterWire.Awg), string.Empty, string.Empty,
        ])));

    /// <summary>The controller that an adapter's wire leads to.</summary>
    internal static string At(AdapterWire wire) => "controller " + Digits(wire.Controller + 1);

    /// <summary>Every contact of every plug: its net, and where the cable takes it to.</summary>
    /// <param name="plan">The wires.</param>
    public static ImmutableArray<byte> Plugs(DeskWires plan) => CsvFile.Write(
        ["plug", "contact", "net", "controller", "goes to", "cable mm"],
        plan.Panels.Where(panel => panel.Plug is not null).SelectMany(panel => panel.Plug!.Contacts.Select(contact => (IEnumerable<string>)
            [panel.Plug.Name, Digits(contact.Number), contact.Net, Digits(contact.Controller + 1), contact.ControllerEnd, panel.CableMm.ToString("0", CultureInfo.InvariantCulture)])));

    /// <summary>What is soldered between a wire and its terminal, in words.</summary>
    internal static string Between(WireEnd end) => end.Inline switch
    {
        InlinePart.DiodeToWire => "diode 1N4148, band to the wire",
        InlinePart.DiodeToTerminal => "diode 1N4148, band to the terminal",
        InlinePart.Resistor => end.InlineOhms.ToString("0.#", CultureInfo.InvariantCulture) + " Ω",
        _ => string.Empty,
    };

    private static string Digits(int number) => number.ToString(CultureInfo.InvariantCulture);
}
