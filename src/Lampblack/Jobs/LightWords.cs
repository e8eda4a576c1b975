using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Circuits;
using Lampblack.Lighting;

namespace Lampblack.Jobs;

/// <summary>A plan of light in words.</summary>
internal static class LightWords
{
    /// <summary>One cell.</summary>
    public static string Cell(LitCell cell) => FormattableString.Invariant(
        $"{cell.Item.Name} has a light of its own{(cell.Output > 0 ? FormattableString.Invariant($", output {cell.Output}") : string.Empty)}: {(cell.Emitters.Length == 1 ? "1 emitter" : FormattableString.Invariant($"{cell.Emitters.Length} emitters"))} in a cell of {cell.Inside.WidthMm:0.0} x {cell.Inside.HeightMm:0.0} mm, {LightingFindings.Figure(cell.MeanCandelaPerM2)} cd/m2");

    /// <summary>The circuit, a line for each channel and one for the supply.</summary>
    public static IEnumerable<string> Circuit(CircuitPlan circuit)
    {
        foreach (var channel in circuit.Channels)
        {
            var made = channel.Strings.IsEmpty
                ? CircuitWords.Count(channel.Channel.Count, "emitter", "emitters")
                : string.Join(", ", channel.Strings.Select(each => FormattableString.Invariant($"{each.StringCount} x {each.String.DiodeCount} in series with {CircuitWords.Ohms(each.String.ResistorOhms)}")));
            yield return $"{channel.Channel.Name}: {made}, {CircuitWords.Amperes(channel.NominalAmperes)}";
        }

        var fuse = circuit.Wire.FuseAmperes is { } amperes ? $", fuse {CircuitWords.Amperes(amperes)}" : string.Empty;
        yield return $"supply {CircuitWords.Volts(circuit.Wish.SupplyVolts)}, {CircuitWords.Amperes(circuit.Supply.RatedAmperes)}{fuse}, wire {CircuitWords.Wire(circuit.Wire.Gauge)}; dimmed at {CircuitWords.Hertz(circuit.Dimming.PwmHertz)} in {circuit.Dimming.StepCount} steps";
    }
}
