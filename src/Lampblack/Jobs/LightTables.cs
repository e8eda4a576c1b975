using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Circuits;
using Lampblack.Desks;
using Lampblack.Formats;
using Lampblack.Lighting;

namespace Lampblack.Jobs;

/// <summary>The circuit's drawing, and tables of emitters and parts.</summary>
internal static class LightTables
{
    private static readonly ImmutableArray<string> EmitterHead = ["panel", "number", "x_mm", "y_mm", "channel", "lumen"];
    private static readonly ImmutableArray<string> PartHead = ["label", "part", "value", "rating", "count", "note"];

    /// <summary>The files.</summary>
    /// <param name="desk">The desk.</param>
    /// <param name="panels">The panels that are lit.</param>
    /// <param name="circuit">The circuit; null for none.</param>
    /// <param name="walls">The walls of all cells.</param>
    public static IEnumerable<OutputFile> Of(Desk desk, ImmutableArray<PanelLighting> panels, CircuitPlan? circuit, ImmutableArray<CellWalls> walls)
    {
        yield return new("light/emitters.csv", "numbers, places and channels of all emitters as a table", CsvFile.Write(EmitterHead, panels.SelectMany(Emitters)));
        if (circuit is not null)
        {
            yield return new("light/circuit.svg", "the circuit that feeds the lamps", CircuitDrawing.Of(circuit, $"{desk.Title}: lamps").Svg());
            yield return new("light/parts.csv", "what to buy for it, as a table", CsvFile.Write(PartHead, CircuitParts.Of(circuit).Concat(Card(walls)).Select(Row)));
        }
    }

    private static IEnumerable<IEnumerable<string>> Emitters(PanelLighting panel) => EmitterDrawing.Numbered(panel).Select(one => new[]
    {
        panel.Laid.Panel.Id,
        one.Number.ToString(CultureInfo.InvariantCulture),
        one.Emitter.At.XMm.ToString("0.00", CultureInfo.InvariantCulture),
        one.Emitter.At.YMm.ToString("0.00", CultureInfo.InvariantCulture),
        one.Channel,
        one.Emitter.FluxLumens.ToString("0.###", CultureInfo.InvariantCulture),
    });

    /// <summary>Card for the walls of all cells.</summary>
    private static IEnumerable<CircuitPart> Card(ImmutableArray<CellWalls> walls)
    {
        if (!walls.IsEmpty)
        {
            var cells = walls.Sum(wall => wall.Names.Length);
            var areaCm2 = walls.Sum(wall => wall.Names.Length * wall.LengthMm * wall.DepthMm) / 100;
            yield return new(
                string.Empty,
                "card, light-tight",
                FormattableString.Invariant($"{Math.Ceiling(areaCm2):0} cm²"),
                FormattableString.Invariant($"{LightCells.WallMm:0.#} mm"),
                1,
                FormattableString.Invariant($"black outside, white inside: walls of {cells} {(cells == 1 ? "cell" : "cells")}, see cells.pdf"));
        }
    }

    private static IEnumerable<string> Row(CircuitPart part) => [part.Label, part.What, part.Value, part.Rating, part.Count.ToString(CultureInfo.InvariantCulture), part.Note];
}
