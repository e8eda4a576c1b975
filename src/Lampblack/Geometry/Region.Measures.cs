using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using NetTopologySuite.Algorithm;
using NetTopologySuite.Geometries;

namespace Lampblack.Geometry;

/// <content>Widths and holes.</content>
public sealed partial class Region<TSpace>
{
    /// <summary>The narrowest width of the hull around everything, in mm: what would pass through a slot. Zero where empty.</summary>
    public double SmallestWidthMm => IsEmpty ? 0 : new MinimumDiameter(Shape).Length;

    /// <summary>The smallest of the widths of regions, in mm; infinite where there are none.</summary>
    public static double NarrowestMm(IEnumerable<Region<TSpace>> regions)
    {
        // A shape fits between two lines at its width's distance, so its area is at most that width times its length: what is wide by that need not be measured.
        var narrowestMm = double.PositiveInfinity;
        foreach (var (region, atLeastMm) in regions.Select(region => (region, AtLeastMm: region.AreaMm2 / Math.Max(region.Envelope.Diameter, double.Epsilon))).OrderBy(pair => pair.AtLeastMm))
        {
            if (atLeastMm > narrowestMm)
            {
                break;
            }

            narrowestMm = Math.Min(narrowestMm, region.SmallestWidthMm);
        }

        return narrowestMm;
    }

    /// <summary>The holes in its pieces, each as a region of its own.</summary>
    public ImmutableArray<Region<TSpace>> FilledHoles() =>
        [.. Polygons().SelectMany(polygon => polygon.InteriorRings).Select(ring => new Region<TSpace>(Factory.CreatePolygon((LinearRing)ring)))];
}
