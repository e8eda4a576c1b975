using System.Collections.Immutable;
using System.Linq;
using NetTopologySuite.Algorithm;
using NetTopologySuite.Geometries;

namespace Lampblack.Geometry;

/// <content>Widths and holes.</content>
public sealed partial class Region<TSpace>
{
    /// <summary>The narrowest width of the hull around everything, in mm: what would pass through a slot. Zero where empty.</summary>
    public double SmallestWidthMm => IsEmpty ? 0 : new MinimumDiameter(_shape).Length;

    /// <summary>The holes in its pieces, each as a region of its own.</summary>
    public ImmutableArray<Region<TSpace>> FilledHoles() =>
        [.. Polygons().SelectMany(polygon => polygon.InteriorRings).Select(ring => new Region<TSpace>(Factory.CreatePolygon((LinearRing)ring)))];
}
