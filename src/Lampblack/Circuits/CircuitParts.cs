using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Formats;

namespace Lampblack.Circuits;

/// <summary>One line of a parts list.</summary>
/// <param name="Label">What it is called in the drawing; empty where it is not drawn by itself.</param>
/// <param name="What">What it is.</param>
/// <param name="Value">Its value.</param>
/// <param name="Rating">What it must bear.</param>
/// <param name="Count">How many.</param>
/// <param name="Note">What else is worth knowing.</param>
public sealed record CircuitPart(string Label, string What, string Value, string Rating, int Count, string Note);

/// <summary>The parts of a circuit.</summary>
public static class CircuitParts
{
    private const double CapacitorVoltsFactor = 1.25;

    /// <summary>The parts, the supply first, then by channel.</summary>
    /// <param name="plan">The plan.</param>
    public static ImmutableArray<CircuitPart> Of(CircuitPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return [.. Feeding(plan), .. plan.Channels.Zip(CircuitLabels.Of(plan)).SelectMany(pair => Channel(pair.First, pair.Second, plan.Wish))];
    }

    /// <summary>The list as a table for programs.</summary>
    /// <param name="plan">The plan.</param>
    public static ImmutableArray<byte> Csv(CircuitPlan plan) => CsvFile.Write(
        ["label", "part", "value", "rating", "count", "note"],
        Of(plan).Select(part => new[] { part.Label, part.What, part.Value, part.Rating, part.Count.ToString(CultureInfo.InvariantCulture), part.Note }));

    private static IEnumerable<CircuitPart> Feeding(CircuitPlan plan)
    {
        yield return new("", "supply", $"{CircuitWords.Volts(plan.Wish.SupplyVolts)} DC", $"{CircuitWords.Amperes(plan.Supply.RatedAmperes)}{(plan.Wish.SupplyAmperes is null ? " or more" : "")}", 1, "certified, limited, safe extra-low voltage (SELV)");
        if (plan.Wire.FuseAmperes is { } fuse)
        {
            yield return new("F1", "fuse, slow", CircuitWords.Amperes(fuse), $"{CircuitWords.Volts(plan.Wish.SupplyVolts)} or more", 1, "in a holder, close to the supply");
        }

        yield return new("", "wire, a pair", CircuitWords.Wire(plan.Wire.Gauge), CircuitWords.Amperes(plan.Wire.Gauge.SafeAmperes), 1, $"{CircuitWords.Length(plan.Wish.WireLengthMm)} from the supply to the panel{(plan.Wish.OnwardLengthMm > 0 ? $", {CircuitWords.Length(plan.Wish.OnwardLengthMm)} from panel to panel" : string.Empty)}");
    }

    private static IEnumerable<CircuitPart> Channel(ChannelPlan plan, CircuitLabels labels, CircuitWish wish)
    {
        var name = plan.Channel.Name;
        var count = plan.Channel.Count;
        switch (plan.Channel.Feed)
        {
            case SingleDiodes diodes:
                yield return new("", "lamp diode", $"{CircuitWords.Volts(diodes.Curve.VoltsAt(diodes.WantedAmperes))} at {CircuitWords.Amperes(diodes.WantedAmperes)}", CircuitWords.Amperes(diodes.MostAmperes), count, name);
                foreach (var (kind, label) in plan.Strings.Zip(labels.Resistors))
                {
                    yield return new(label, "resistor", CircuitWords.Ohms(kind.String.ResistorOhms), CircuitWords.Watts(kind.RatingWatts), kind.StringCount, $"{name}: one for each string of {CircuitWords.Digits(kind.String.DiodeCount)}; {CircuitWords.Percent(wish.ResistorToleranceShare)}");
                }

                break;
            case CutStrip strip:
                yield return new("", "strip", CircuitWords.Volts(strip.StripVolts), $"{CircuitWords.Amperes(strip.UnitAmperes)} a unit", plan.StripUnitCount, $"{name}: units of {CircuitWords.Digits(strip.UnitCount)}");
                break;
            case AddressablePixels pixels:
                yield return new("", "pixel", CircuitWords.Volts(pixels.PixelVolts), CircuitWords.Amperes(pixels.PixelAmperes), count, name);
                yield return new(labels.Data, "resistor", CircuitWords.Ohms(CircuitLabels.DataOhms), CircuitWords.Watts(wish.ResistorWatts), 1, $"{name}: in the data line, close to the first pixel");
                yield return new(labels.Capacitor, "capacitor, electrolytic", "1000 µF", $"{CircuitWords.Volts(pixels.PixelVolts * CapacitorVoltsFactor)} or more", 1, $"{name}: at the first pixel; mind its polarity");
                if (plan.Pixels!.NeedsShifter)
                {
                    yield return new(labels.Shifter, "level shifter", CircuitLabels.ShifterChip, CircuitWords.Volts(pixels.PixelVolts), 1, $"{name}: one gate of it, fed as the pixels are");
                }

                break;
        }

        if (plan.Switch is { } one)
        {
            yield return new(labels.Switch, "transistor, N-channel MOSFET", $"{CircuitWords.Ohms(one.OnOhms)} or less at a gate of {CircuitWords.Volts(one.GateVolts)}", $"{CircuitWords.Volts(one.DrainVolts)}, {CircuitWords.Amperes(one.DrainAmperes)}", 1, $"{name}: logic-level gate");
            yield return new(labels.Gate, "resistor", CircuitWords.Ohms(one.GateOhms), CircuitWords.Watts(wish.ResistorWatts), 1, $"{name}: between pin and gate");
            yield return new(labels.PullDown, "resistor", CircuitWords.Ohms(one.PullDownOhms), CircuitWords.Watts(wish.ResistorWatts), 1, $"{name}: from gate to 0 V, dark while the controller starts");
        }
    }
}
