using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Lighting;

namespace Lampblack.Jobs;

/// <summary>The wall of cells that are alike, as strips of card.</summary>
/// <param name="Names">The items that they light.</param>
/// <param name="WidthMm">Between its inner faces.</param>
/// <param name="HeightMm">Between its inner faces, the other way.</param>
/// <param name="DepthMm">From the panel's back to the floor: how high the strip is.</param>
internal sealed record CellWalls(ImmutableArray<string> Names, double WidthMm, double HeightMm, double DepthMm)
{
    /// <summary>What is glued behind the first side. Common practice, no source.</summary>
    public const double TabMm = 8;

    /// <summary>One strip's length where it is a single one.</summary>
    public double LengthMm => (2 * (WidthMm + HeightMm)) + TabMm;

    /// <summary>The walls of all cells of some panels; those that are alike, once.</summary>
    public static ImmutableArray<CellWalls> Of(Desk desk, ImmutableArray<PanelLighting> panels) =>
    [
        .. panels.SelectMany(panel => panel.Cells.Select(cell => (Cell: cell, Depth: FloorMm(desk, panel))))
            .GroupBy(pair => (Round(pair.Cell.Inside.WidthMm), Round(pair.Cell.Inside.HeightMm), Round(pair.Depth)))
            .Select(group => new CellWalls([.. group.Select(pair => pair.Cell.Item.Item)], group.Key.Item1, group.Key.Item2, group.Key.Item3)),
    ];

    /// <summary>From a panel's back to the floor that carries its emitters.</summary>
    public static double FloorMm(Desk desk, PanelLighting panel) => desk.DepthMm ?? (panel.Light.Box.DepthMm + panel.Type.RaisedMm);

    /// <summary>Its strips, each with the lengths of its sides; more than one where the whole is longer than there is room. Empty where one side alone is.</summary>
    public ImmutableArray<ImmutableArray<double>> Strips(double roomMm)
    {
        if (Math.Max(WidthMm, HeightMm) + TabMm > roomMm)
        {
            return [];
        }

        var strips = new List<List<double>>();
        foreach (var side in new[] { WidthMm, HeightMm, WidthMm, HeightMm })
        {
            if (strips.Count == 0 || strips[^1].Sum() + side + TabMm > roomMm)
            {
                strips.Add([]);
            }

            strips[^1].Add(side);
        }

        return [.. strips.Select(strip => strip.ToImmutableArray())];
    }

    /// <summary>Scissors and knife are no better than a tenth of a millimetre.</summary>
    private static double Round(double mm) => Math.Round(mm, 1, MidpointRounding.AwayFromZero);
}
