using System;
using System.Collections.Generic;
using System.Linq;
using NetTopologySuite.Algorithm;
using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;

namespace Lampblack.Geometry;

/// <content>Areas from outlines that cross, by a fill rule.</content>
public sealed partial class Region<TSpace>
{
    /// <summary>
    /// The area that closed outlines enclose by a fill rule, however they cross; each outline counts as closed.
    /// Nothing where they cross more often than can be worked out in reasonable time and room.
    /// </summary>
    /// <param name="outlines">The outlines; no coordinate farther than 100 m from the origin.</param>
    /// <param name="rule">Which places are inside.</param>
    /// <param name="meetingsLeft">How many pairs of sides may come near each other; those that do are taken off.</param>
    /// <remarks>Crossings are rounded to the grid, and sides that this bends over others are cut again: a border moves by a step or so. The result is always valid.</remarks>
    public static Region<TSpace>? FromWindings(IEnumerable<Outline<TSpace>> outlines, FillRule rule, ref long meetingsLeft)
    {
        ArgumentNullException.ThrowIfNull(outlines);
        var rings = outlines.Select(outline => Ring(outline.Points)).OfType<LinearRing>().ToList();
        if (rings.Count == 1 && Factory.CreatePolygon(rings[0]) is { IsValid: true } simple)
        {
            return new(simple);
        }

        return Windings.Borders(rings.ConvertAll(ring => ring.Coordinates), rule, ref meetingsLeft) is { } borders
            ? Of(WithHoles(borders))
            : null;
    }

    /// <summary>Puts each hole (clockwise) into the smallest shell (counter-clockwise) around it.</summary>
    private static List<Polygon> WithHoles(List<Coordinate[]> borders)
    {
        var rings = borders.ConvertAll(Factory.CreateLinearRing);
        var shells = rings.Where(ring => ring.IsCCW).Select(ring => (Ring: ring, Area: Math.Abs(Area.OfRing(ring.Coordinates)), Holes: new List<LinearRing>())).ToList();
        var tree = new STRtree<int>();
        foreach (var (index, shell) in shells.Index())
        {
            tree.Insert(shell.Ring.EnvelopeInternal, index);
        }

        foreach (var hole in rings.Where(ring => !ring.IsCCW))
        {
            var around = tree.Query(hole.EnvelopeInternal)
                .Where(index => shells[index].Ring.EnvelopeInternal.Covers(hole.EnvelopeInternal) && IsInside(hole, shells[index].Ring))
                .OrderBy(index => shells[index].Area)
                .ToList();
            if (around.Count > 0)
            {
                shells[around[0]].Holes.Add(hole);
            }
        }

        return shells.ConvertAll(shell => Factory.CreatePolygon(shell.Ring, [.. shell.Holes]));
    }

    /// <summary>Rings may touch in corners, so the first corner that does not lie on the shell tells.</summary>
    private static bool IsInside(LinearRing hole, LinearRing shell)
    {
        foreach (var corner in hole.Coordinates)
        {
            switch (PointLocation.LocateInRing(corner, shell.Coordinates))
            {
                case Location.Interior: return true;
                case Location.Exterior: return false;
            }
        }

        // All corners lie on the shell: then the sides between them lie inside, unless both are the same ring.
        return true;
    }
}
