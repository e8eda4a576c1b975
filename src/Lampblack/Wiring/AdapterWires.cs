using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>A wire from the USB-to-serial adapter to a controller whose own USB is no serial line.</summary>
/// <param name="Controller">Which controller, from 0.</param>
/// <param name="Number">Its number: "X1" in the table.</param>
/// <param name="From">The adapter's contact.</param>
/// <param name="Pin">The controller's pin.</param>
/// <param name="Colour">Its colour.</param>
public sealed record AdapterWire(int Controller, int Number, string From, string Pin, string Colour)
{
    /// <summary>What it begins at, as tables call it.</summary>
    public const string Adapter = "USB-to-serial adapter";

    /// <summary>Its gauge: as thin as the wires of the panels.</summary>
    public const int Awg = 26;

    /// <summary>The adapter lies beside the controller. From memory.</summary>
    public double LengthMm => 120;

    /// <summary>"X1": bare numbers are those of the panels' wires, B those of the registers, L those of the lamps.</summary>
    public string Name => FormattableString.Invariant($"X{Number}");
}

/// <summary>The three wires of each adapter, crosswise: what one sends the other hears (ATmega32U4 data sheet: PD2 is RXD1, PD3 is TXD1; on usual boards D0 and D1, from memory).</summary>
internal static class AdapterWires
{
    /// <summary>The wires; none where no controller needs an adapter.</summary>
    public static ImmutableArray<AdapterWire> Of(PinPlan pins) =>
    [
        .. pins.Controllers.Where(plan => plan.Chip == ControllerChip.ATmega32U4)
            .SelectMany(plan => new[] { ("GND", "GND", "black"), ("TX", "D0", "yellow"), ("RX", "D1", "green") }.Select(one => (plan.Index, one.Item1, one.Item2, one.Item3)))
            .Select((one, index) => new AdapterWire(one.Index, index + 1, one.Item2, one.Item3, one.Item4)),
    ];
}
