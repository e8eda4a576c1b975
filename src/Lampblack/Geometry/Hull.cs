using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using NetTopologySuite.Geometries;

namespace Lampblack.Geometry;

/// <summary>The corners of what a rubber band around some points would take in.</summary>
public static class Hull
{
    /// <summary>The corners, each once; of points on one line its ends.</summary>
    /// <typeparam name="TSpace">Where the points lie.</typeparam>
    /// <param name="points">The points.</param>
    public static ImmutableArray<Point<TSpace>> Of<TSpace>(IEnumerable<Point<TSpace>> points)
        where TSpace : struct, ISpace =>
        [.. new GeometryFactory().CreateMultiPointFromCoords([.. points.Select(point => new Coordinate(point.XMm, point.YMm))])
            .ConvexHull().Coordinates.Distinct().Select(corner => new Point<TSpace>(corner.X, corner.Y))];
}
