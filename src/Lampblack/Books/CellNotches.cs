using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Books;

/// <summary>A notch in a cell's wall, at the edge that touches the panel: looms go round cells, but a wire whose tag stands within one has to come in.</summary>
/// <param name="Cell">The cell.</param>
/// <param name="Wall">Which wall, seen from the front: "left", "right", "upper", "lower".</param>
/// <param name="AtMm">Its middle, from the wall's left or lower end inside.</param>
/// <param name="Wires">The numbers of the wires that pass.</param>
internal sealed record CellNotch(BookCell Cell, string Wall, double AtMm, ImmutableArray<int> Wires)
{
    /// <summary>Room for so many thin wires side by side. From memory.</summary>
    public double WideMm => 1 + (2 * Wires.Length);

    /// <summary>How deep.</summary>
    public double DeepMm => 3;
}

/// <summary>All such notches of a desk.</summary>
internal static class CellNotches
{
    /// <summary>The notches, cell by cell.</summary>
    public static ImmutableArray<CellNotch> Of(BookFacts facts) => facts.Wiring is not { } wiring ? [] :
    [
        .. from cell in facts.Cells
           from panel in wiring.Wires.Panels
           where panel.Laid.Panel.Id == cell.Panel
           from crossing in panel.Wires.SelectMany(wire => Crossings(cell.Inside, wire.Way).Select(one => (one.Wall, AtMm: Math.Round(one.AtMm, MidpointRounding.AwayFromZero), wire.Number)))
           group crossing.Number by (cell, crossing.Wall, crossing.AtMm) into place
           select new CellNotch(place.Key.cell, place.Key.Wall, place.Key.AtMm, [.. place.Distinct()]),
    ];

    /// <summary>Where a way along x and y comes through a frame.</summary>
    private static IEnumerable<(string Wall, double AtMm)> Crossings(Box<PanelSpace> frame, ImmutableArray<Point<PanelSpace>> way)
    {
        foreach (var (one, next) in way.Zip(way.Skip(1)))
        {
            foreach (var (wall, x) in new[] { ("left", frame.LeftMm), ("right", frame.RightMm) })
            {
                if ((one.XMm < x) != (next.XMm < x) && one.YMm >= frame.BottomMm && one.YMm <= frame.TopMm)
                {
                    yield return (wall, one.YMm - frame.BottomMm);
                }
            }

            foreach (var (wall, y) in new[] { ("lower", frame.BottomMm), ("upper", frame.TopMm) })
            {
                if ((one.YMm < y) != (next.YMm < y) && one.XMm >= frame.LeftMm && one.XMm <= frame.RightMm)
                {
                    yield return (wall, one.XMm - frame.LeftMm);
                }
            }
        }
    }
}
