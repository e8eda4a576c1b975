using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>What pins carry at most, held against what the chip's sheet allows: each pin, pins that share a limit, and all.</summary>
public static class PinCurrents
{
    /// <summary>What is over a limit; nothing where all hold.</summary>
    /// <param name="controller">The controller.</param>
    /// <param name="loads">What each pin carries, whichever way.</param>
    /// <param name="span">Where the controller is written.</param>
    public static ImmutableArray<Finding> Check(Controller controller, IReadOnlyList<(ControllerPin Pin, double Amperes)> loads, SourceSpan? span = null)
    {
        ArgumentNullException.ThrowIfNull(controller);
        var findings = ImmutableArray.CreateBuilder<Finding>();
        if (loads.Count > 0 && loads.MaxBy(load => load.Amperes) is var worst && worst.Amperes > Controller.PinAmperes + Slack)
        {
            findings.Add(Finding.Stop("pin-current", Over($"pin {worst.Pin.Header}", worst.Amperes, Controller.PinAmperes), Hint, span));
        }

        foreach (var group in controller.Groups)
        {
            var sum = loads.Where(load => group.Pins.Contains(load.Pin)).Sum(load => load.Amperes);
            if (sum > group.MostAmperes + Slack)
            {
                var words = Over($"the pins of {group.Name} together", sum, group.MostAmperes);
                findings.Add(group.IsFromMemory ? Finding.Warn("port-current", words, Hint, span) : Finding.Stop("port-current", words, Hint, span));
            }
        }

        var all = loads.Sum(load => load.Amperes);
        if (all > Controller.ChipAmperes + Slack)
        {
            findings.Add(Finding.Stop("chip-current", Over($"the {controller.Name}", all, Controller.ChipAmperes), Hint, span));
        }

        return findings.ToImmutable();
    }

    /// <summary>What the pins of a plan carry where everything is on and every contact is closed.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="lampAmperes">What an indicator gets.</param>
    public static ImmutableArray<(ControllerPin Pin, double Amperes)> Of(ControllerPlan plan, double lampAmperes)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return
        [
            .. plan.Indicators.Select(lamp => lamp.Place).OfType<DirectOutput>().Select(place => (place.Pin, lampAmperes)),
            .. plan.Contacts.Select(contact => contact.Place).OfType<DirectInput>().Select(place => (place.Pin, Controller.PullUpAmperes)),
            .. plan.Encoders.SelectMany(encoder => new[] { encoder.PhaseA, encoder.PhaseB }).Select(pin => (pin, Controller.PullUpAmperes)),
            .. plan.Rows.Select(pin => (pin, Controller.PullUpAmperes)),
            .. plan.Columns.Take(1).Select(pin => (pin, plan.Rows.Length * Controller.PullUpAmperes)),
            .. plan.Dimmers.Select(dimmer => (dimmer.Pin, dimmer.IsMeter ? dimmer.FullScaleAmperes : GateAmperes)),
        ];
    }

    private const double Slack = 1e-9;

    // A gate's resistor of 10 kΩ to 0 V.
    private const double GateAmperes = 0.0005;

    private const string Hint = "give indicators less with `lamp-current` in `[wiring]`, or drive them through transistors";

    private static string Over(string what, double amperes, double most) =>
        FormattableString.Invariant($"{what} would carry {amperes * 1000:0.#} mA, and may carry {most * 1000:0.#} mA (the chip's data sheet)");
}
