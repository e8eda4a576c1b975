using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Wiring;

namespace Lampblack.Books;

/// <summary>A wire of the perforated board that the registers' sockets stand on.</summary>
/// <param name="Controller">Which controller, from 0.</param>
/// <param name="Number">Its number: "B3" in the table.</param>
/// <param name="Net">What it carries.</param>
/// <param name="From">One end.</param>
/// <param name="To">The other.</param>
/// <param name="LengthMm">What to cut, slack included.</param>
/// <param name="Colour">Its colour.</param>
internal sealed record RegisterWire(int Controller, int Number, string Net, string From, string To, double LengthMm, string Colour)
{
    /// <summary>"B3": bare numbers are those of the panels' wires, L those of the lamps.</summary>
    public string Name => FormattableString.Invariant($"B{Number}");

    /// <summary>The pin of the controller at its beginning; empty where it begins at another socket.</summary>
    public string ControllerPin { get; init; } = string.Empty;
}

/// <summary>A part that is soldered between two pins of a socket.</summary>
/// <param name="What">What it is.</param>
/// <param name="From">One end.</param>
/// <param name="To">The other.</param>
internal sealed record RegisterPart(string What, string From, string To);

/// <summary>
/// The sockets of a desk's shift registers: every wire between them and the controller, and what stands at their pins, by the data sheets of 74HC165 and 74HC595
/// (16 Vcc, 8 GND; 165: 1 SH/LD, 2 CLK, 9 QH, 10 SER, 15 CLK INH; 595: 9 QH', 10 SRCLR, 11 SRCLK, 12 RCLK, 13 OE, 14 SER).
/// </summary>
internal static class RegisterWires
{
    /// <summary>Gauge of these wires: as thin as those of the panels.</summary>
    public const int Awg = 26;

    // Sockets stand in a row beside the controller. From memory.
    private const double NextMm = 45;
    private const double ToControllerMm = 120;
    private const double AcrossMm = 40;

    /// <summary>Pins of a chip's lines, whether it reads or drives.</summary>
    public const int Lines = 8;

    /// <summary>The wires, controller by controller, socket by socket.</summary>
    public static ImmutableArray<RegisterWire> Of(PinPlan pins)
    {
        var wires = ImmutableArray.CreateBuilder<RegisterWire>();
        foreach (var plan in pins.Controllers)
        {
            if (plan.Inputs is { } inputs)
            {
                Chain("74HC165", inputs.ChipCount, plan.Index, wires, [(1, inputs.Load.Header, "blue"), (2, inputs.Clock.Header, "green")], supply: [16], zero: [8, 15], (9, 10));
                wires.Add(new(plan.Index, wires.Count + 1, inputs.Data.Header, inputs.Data.Header, "74HC165 no 1, pin 9", ToControllerMm, "yellow") { ControllerPin = inputs.Data.Header });

                // Nothing follows the last one: its serial input must not float.
                wires.Add(new(plan.Index, wires.Count + 1, "0V", At("74HC165", inputs.ChipCount, 8), At("74HC165", inputs.ChipCount, 10), AcrossMm, "black"));
            }

            if (plan.Outputs is { } outputs)
            {
                Chain("74HC595", outputs.ChipCount, plan.Index, wires, [(11, outputs.Clock.Header, "green"), (12, outputs.Latch.Header, "blue")], supply: [16, 10], zero: [8, 13], (9, 14));
                wires.Add(new(plan.Index, wires.Count + 1, outputs.Data.Header, outputs.Data.Header, "74HC595 no 1, pin 14", ToControllerMm, "yellow") { ControllerPin = outputs.Data.Header });
            }
        }

        return wires.ToImmutable();
    }

    /// <summary>Capacitors and pull-ups.</summary>
    public static ImmutableArray<RegisterPart> Parts(PinPlan pins) =>
    [
        .. from plan in pins.Controllers
           from chip in Chips(plan)
           from part in chip.Name == "74HC165"
               ? Enumerable.Range(0, Lines).Select(line => new RegisterPin(true, chip.Number - 1, line)).Select(pin => new RegisterPart("resistor 10 kΩ", pins.At(plan.Index) + pin.AtSocket, "its pin 16")).Prepend(Capacitor(pins.At(plan.Index), chip))
               : [Capacitor(pins.At(plan.Index), chip)]
           select part,
    ];

    /// <summary>The sockets of a controller.</summary>
    public static IEnumerable<(string Name, int Number)> Chips(ControllerPlan plan) =>
        Enumerable.Range(1, plan.Inputs?.ChipCount ?? 0).Select(number => ("74HC165", number)).Concat(Enumerable.Range(1, plan.Outputs?.ChipCount ?? 0).Select(number => ("74HC595", number)));

    private static RegisterPart Capacitor(string which, (string Name, int Number) chip) => new("capacitor 100 nF", which + At(chip.Name, chip.Number, 16), "its pin 8");

    private static void Chain(string name, int count, int controller, ImmutableArray<RegisterWire>.Builder wires, ImmutableArray<(int Pin, string From, string Colour)> lines, ImmutableArray<int> supply, ImmutableArray<int> zero, (int Out, int In) serial)
    {
        void Add(string net, string from, string to, double lengthMm, string colour, string pin) => wires.Add(new(controller, wires.Count + 1, net, from, to, lengthMm, colour) { ControllerPin = pin });
        foreach (var number in Enumerable.Range(1, count))
        {
            foreach (var (net, from, pins, colour) in new[] { ("5V", "5V", supply, "red"), ("0V", "GND", zero, "black") })
            {
                foreach (var (index, pin) in pins.Index())
                {
                    // From the controller to the first socket, from there to the next; within a socket from pin to pin.
                    var (start, length, header) = index > 0 ? (At(name, number, pins[0]), AcrossMm, string.Empty) : number > 1 ? (At(name, number - 1, pins[0]), NextMm, string.Empty) : (from, ToControllerMm, from);
                    Add(net, start, At(name, number, pin), length, colour, header);
                }
            }

            foreach (var (pin, from, colour) in lines)
            {
                Add(from, number > 1 ? At(name, number - 1, pin) : from, At(name, number, pin), number > 1 ? NextMm : ToControllerMm, colour, number > 1 ? string.Empty : from);
            }

            if (number > 1)
            {
                // A chip that reads hands on towards the controller, one that drives away from it.
                var (giver, taker) = name == "74HC165" ? (number, number - 1) : (number - 1, number);
                Add("chain", At(name, giver, serial.Out), At(name, taker, serial.In), NextMm, "violet", string.Empty);
            }
        }
    }

    private static string At(string name, int number, int pin) => FormattableString.Invariant($"{name} no {number}, pin {pin}");
}
