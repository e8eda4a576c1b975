using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>The shift registers go into their sockets once the sockets have shown the right volts.</summary>
internal static class RegisterStep
{
    // USB gives 4.75 to 5.25 V at its socket, and a little is lost on the board. USB 2.0; what is lost from memory.
    private const double LeastVolts = 4.5;
    private const double MostVolts = 5.3;

    /// <summary>Whether a desk has any.</summary>
    public static bool Has(BookWiring wiring) => wiring.Pins.Controllers.Any(plan => plan.Inputs is not null || plan.Outputs is not null);

    /// <summary>The step; none where there are no registers.</summary>
    public static IEnumerable<BookStep> Of(BookWiring wiring)
    {
        if (!Has(wiring))
        {
            yield break;
        }

        ImmutableArray<(string Which, string Name, int Number)> chips = [.. wiring.Pins.Controllers.SelectMany(plan => RegisterWires.Chips(plan).Select(chip => (wiring.Pins.At(plan.Index), chip.Name, chip.Number)))];
        var expect = System.FormattableString.Invariant($"{LeastVolts:0.0} to {MostVolts:0.0} V");
        yield return new(
            "chips",
            chips.Length == 1 ? "Put the shift register into its socket" : "Put the shift registers into their sockets",
            5 + (chips.Length * 2 * BookTimes.Test) + (chips.Length * BookTimes.PutChip),
            [
                new PictureRow([RegisterDrawing.Chip(wiring.Pins)]),
                new Doings(
                [
                    "Everything unplugged, the sockets still empty: plug the pin row onto the board, then the board's USB in. The meter stands at volts, direct current.",
                    "Hold the leads to the empty sockets as the table says; touch no two pins with one tip.",
                    "Unplug the USB. Touch something earthed, a radiator's bare metal, before you take a chip: static harms it. Bend its legs straight on the table, and press it in, notch to notch.",
                ]),
                new BookTable(
                    "The empty sockets on USB",
                    ["Socket", "Red lead", "Black lead", "The meter says"],
                    [
                        .. chips.SelectMany(chip => (BookRow[])
                        [
                            new BookRow("chip-test", $"{chip.Which}{chip.Name} no {chip.Number} supply", [Text($"{chip.Which}{chip.Name} no {chip.Number}"), "pin 16", "pin 8", expect]),
                            new BookRow("chip-test", $"{chip.Which}{chip.Name} no {chip.Number} zero", [Text($"{chip.Which}{chip.Name} no {chip.Number}"), "pin 16", chip.Name == "74HC165" ? "pin 15" : "pin 13", $"{expect}: that pin lies on 0 V"]),
                            .. chip.Name == "74HC165" ? [] : new[] { new BookRow("chip-test", $"{chip.Which}{chip.Name} no {chip.Number} clear", [Text($"{chip.Which}{chip.Name} no {chip.Number}"), "pin 10", "pin 8", $"{expect}: that pin lies on plus"]) },
                        ]),
                    ],
                    IsTicked: true),
            ],
            new("Every row says what it should, and then every chip sits with its notch at the socket's notch, all 16 legs in their holes, none bent under.", "No volts: the red or black wire of that socket, or of the one before it. Minus volts: plus and 0 V are exchanged; put no chip in. A chip that gets warm: unplug at once, it is turned about."))
        {
            Tools = [Tool.Meter, Tool.UsbCable, Tool.Computer],
            Materials = ["the shift registers"],
            Cautions = [Caution.Volts],
            Needs = [Made.WiresTested, Made.Flashed],
            Makes = [Made.ChipsIn],
        };
    }
}
