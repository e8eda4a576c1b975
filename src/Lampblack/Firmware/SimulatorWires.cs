using System;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Wiring;

namespace Lampblack.Firmware;

/// <summary>
/// A controller's wiring as the simulators read it: switches, diodes, pull-ups, chips, lamps, one a line; docs/engine.md has the language.
/// It comes from the plan alone, never from the table: so a fault in the table shows.
/// </summary>
public static class SimulatorWires
{
    private const double Reference = 5000;

    /// <summary>The lines, each ended by LF. Contact 3 is the switch <c>contact.3</c>, with a diode <c>contact.3.diode</c> where it has one.</summary>
    public static string Of(ControllerPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var text = new StringBuilder();
        for (var number = 0; number < plan.Contacts.Length; number++)
        {
            Contact(text, plan, number);
        }

        if (plan.Inputs is { } inputs)
        {
            Line(text, $"shift-in {inputs.Load.Name} {inputs.Clock.Name} {inputs.Data.Name} {inputs.ChipCount}");
            for (var input = 0; input < inputs.ChipCount * 8; input++)
            {
                Line(text, $"pull-up in.{input / 8}.{input % 8}");
            }
        }

        if (plan.Outputs is { } outputs)
        {
            Line(text, $"shift-out {outputs.Data.Name} {outputs.Clock.Name} {outputs.Latch.Name} {outputs.ChipCount}");
        }

        for (var number = 0; number < plan.Encoders.Length; number++)
        {
            Line(text, $"encoder encoder.{number} {plan.Encoders[number].PhaseA.Name} {plan.Encoders[number].PhaseB.Name}");
        }

        for (var number = 0; number < plan.Wipers.Length; number++)
        {
            Line(text, $"pot wiper.{number} {plan.Wipers[number].AnalogChannel}");
        }

        for (var number = 0; number < plan.Ladders.Length; number++)
        {
            var ladder = plan.Ladders[number];
            var between = Enumerable.Range(0, 1024).Select(count => 1023 - count).FirstOrDefault(count => !ladder.Windows.Any(window => count >= window.LowCount && count <= window.HighCount));
            Line(text, $"ladder ladder.{number} {ladder.AnalogChannel} {Millivolts(between)} {string.Join(' ', ladder.Windows.Select(window => Millivolts((window.LowCount + window.HighCount) / 2)))}");
        }

        for (var number = 0; number < plan.Indicators.Length; number++)
        {
            Line(text, $"lamp indicator.{number} {(plan.Indicators[number].Place is ChainOutput chain ? Text($"out.{chain.Chip}.{chain.Output}") : ((DirectOutput)plan.Indicators[number].Place).Pin.Name)}");
        }

        for (var number = 0; number < plan.Dimmers.Length; number++)
        {
            if (EnginePins.TimerOf(plan.Chip, plan.Dimmers[number].Pin) is { } output)
            {
                Line(text, $"dimmer dimmer.{number} {output.Timer} {output.Output}");
            }
        }

        return text.ToString();
    }

    private static void Contact(StringBuilder text, ControllerPlan plan, int number)
    {
        switch (plan.Contacts[number].Place)
        {
            case DirectInput direct:
                Line(text, $"switch contact.{number} {direct.Pin.Name} GND");
                break;
            case ChainInput chain:
                Line(text, $"switch contact.{number} in.{chain.Chip}.{chain.Input} GND");
                break;
            case MatrixInput matrix when plan.Diodes:
                Line(text, $"diode contact.{number}.diode {plan.Rows[matrix.Row].Name} mid.{number}");
                Line(text, $"switch contact.{number} mid.{number} {plan.Columns[matrix.Column].Name}");
                break;
            case MatrixInput matrix:
                Line(text, $"switch contact.{number} {plan.Rows[matrix.Row].Name} {plan.Columns[matrix.Column].Name}");
                break;
            default:
                throw new InvalidOperationException("a contact is read by a pin, a matrix or a chain");
        }
    }

    /// <summary>The middle of a count of the converter, so that rounding does not shift it.</summary>
    private static string Millivolts(int count) => ((int)Math.Round((count + 0.5) * Reference / 1024, MidpointRounding.AwayFromZero)).ToString(CultureInfo.InvariantCulture);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static void Line(StringBuilder text, FormattableString line) => text.Append(Text(line)).Append('\n');
}
