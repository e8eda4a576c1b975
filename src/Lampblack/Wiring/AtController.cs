using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;

namespace Lampblack.Wiring;

/// <summary>What stands beside a controller: registers, pull-ups, and the gates of lamps, in sentences.</summary>
public static class AtController
{
    /// <summary>The sentences.</summary>
    /// <param name="plan">The pin plan.</param>
    /// <param name="needs">What it was made for.</param>
    public static IEnumerable<string> Of(PinPlan plan, ImmutableArray<WiredNeed> needs)
    {
        ArgumentNullException.ThrowIfNull(plan);
        foreach (var controller in plan.Controllers)
        {
            var which = plan.Controllers.Length == 1 ? string.Empty : string.Create(CultureInfo.InvariantCulture, $"Controller {controller.Index + 1}: ");
            if (controller.Inputs is { } inputs)
            {
                yield return string.Create(CultureInfo.InvariantCulture, $"{which}{inputs.ChipCount} x 74HC165 in a chain. Pin 1 (SH/LD) of all to {inputs.Load.Header}, pin 2 (CLK) of all to {inputs.Clock.Header}, pin 9 (QH) of the first to {inputs.Data.Header}, pin 10 (SER) of each to pin 9 of the next; of the last to GND. Pin 15 and 8 to GND, pin 16 to 5V with 100 nF to GND. Every input, used or not, gets 10 kilohms to 5V. Inputs A to D are pins 11 to 14, E to H pins 3 to 6.");
            }

            if (controller.Outputs is { } outputs)
            {
                yield return string.Create(CultureInfo.InvariantCulture, $"{which}{outputs.ChipCount} x 74HC595 in a chain. Pin 14 (SER) of the first to {outputs.Data.Header}, pin 11 (SRCLK) of all to {outputs.Clock.Header}, pin 12 (RCLK) of all to {outputs.Latch.Header}, pin 9 of each to pin 14 of the next. Pin 13 and 8 to GND, pins 10 and 16 to 5V with 100 nF to GND. Output A is pin 15, B to H pins 1 to 7.");
            }

            foreach (var ladder in controller.Ladders)
            {
                yield return string.Create(CultureInfo.InvariantCulture, $"{which}{LadderDesign.PullUpOhms / 1000:0} kilohms from {ladder.Pin.Header} to 5V ({ladder.ItemId}).");
            }

            foreach (var gate in Gates(controller, needs))
            {
                yield return gate.IsData
                    ? $"{which}{gate.Place} to the {gate.Target} of \"{gate.Channel}\" (light/circuit.svg); the engine does not drive it."
                    : Gate(which, gate.Place, gate.Channel);
            }
        }
    }

    /// <summary>Where wires to the gates of lamps' transistors begin at a controller, and what they light. A meter has no gate.</summary>
    /// <param name="controller">The controller.</param>
    /// <param name="needs">What the plan was made for.</param>
    internal static IEnumerable<GateWire> Gates(ControllerPlan controller, ImmutableArray<WiredNeed> needs)
    {
        var lights = needs.Where(need => need is { Part: null, Kind: WiredKind.Indicator }).ToDictionary(need => need.Id, need => need.Name);
        return controller.Dimmers.Where(dimmer => !dimmer.IsMeter).Select(dimmer => new GateWire(dimmer.Pin.Header, null, dimmer.Channel))
            .Concat(controller.Indicators.Where(lamp => lights.ContainsKey(lamp.ItemId)).Select(lamp => lamp.Place is ChainOutput chain
                ? new GateWire(new RegisterPin(false, chain.Chip, chain.Output).Words, new(false, chain.Chip, chain.Output), lights[lamp.ItemId])
                : new(((DirectOutput)lamp.Place).Pin.Header, null, lights[lamp.ItemId])))
            .Concat(controller.DataLines.SelectMany(line => needs.Where(need => need is { Part: null, Kind: WiredKind.Data } && need.Id == line.ItemId).Take(1)
                .Select(need => new GateWire(line.Pin.Header, null, line.ItemId) { IsData = true, Target = need.HasShifter ? "level shifter" : "data resistor" })));
    }

    private static string Gate(string which, string pin, string channel) => $"{which}{pin} to the gate resistor of \"{channel}\" (light/circuit.svg); its 0 V and the controller's GND are joined.";
}

/// <summary>A wire from a controller to the gate of a lamps' transistor.</summary>
/// <param name="Place">Where it begins: "D3", "shift register 1, output C".</param>
/// <param name="Register">The register's pin; null for a pin of the controller.</param>
/// <param name="Channel">What it lights.</param>
internal sealed record GateWire(string Place, RegisterPin? Register, string Channel)
{
    /// <summary>Whether it carries data to a strip of pixels instead.</summary>
    public bool IsData { get; init; }

    /// <summary>What it ends at.</summary>
    public string Target { get; init; } = "gate resistor";
}
