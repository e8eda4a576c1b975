using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Prepared;
using NetTopologySuite.Index.Strtree;
using NetTopologySuite.Operation.Overlay;
using NetTopologySuite.Operation.OverlayNG;

namespace Lampblack.Geometry;

/// <content>Joining and cutting.</content>
public sealed partial class Region<TSpace>
{
    /// <summary>What belongs to at least one of the regions.</summary>
    /// <remarks>Only regions whose boxes meet are overlaid; the rest is put side by side, which is what makes a thousand letters quick.</remarks>
    public static Region<TSpace> Union(IEnumerable<Region<TSpace>> regions)
    {
        ArgumentNullException.ThrowIfNull(regions);
        var pieces = regions.SelectMany(region => region.Polygons()).ToList();
        var joined = new List<Polygon>(pieces.Count);
        foreach (var cluster in Clusters(pieces))
        {
            if (cluster.Count == 1)
            {
                joined.Add(cluster[0]);
            }
            else
            {
                joined.AddRange(Flatten(OverlayNGRobust.Union([.. cluster], Factory)).OfType<Polygon>().Where(polygon => !polygon.IsEmpty));
            }
        }

        return Of(joined);
    }

    /// <summary>What belongs to this region or the other.</summary>
    public Region<TSpace> Union(Region<TSpace> other) => Union([this, other]);

    /// <summary>What belongs to both.</summary>
    public Region<TSpace> Intersect(Region<TSpace> other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Overlay(other, SpatialFunction.Intersection);
    }

    /// <summary>What belongs to this region and not to the other.</summary>
    public Region<TSpace> Except(Region<TSpace> other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return other.IsEmpty || IsEmpty ? this : WithoutInner(other) ?? Overlay(other, SpatialFunction.Difference);
    }

    private static IEnumerable<List<Polygon>> Clusters(List<Polygon> pieces)
    {
        var tree = new STRtree<int>();
        for (var index = 0; index < pieces.Count; index++)
        {
            tree.Insert(pieces[index].EnvelopeInternal, index);
        }

        var seen = new bool[pieces.Count];
        for (var start = 0; start < pieces.Count; start++)
        {
            if (seen[start])
            {
                continue;
            }

            var cluster = new List<int> { start };
            seen[start] = true;
            for (var next = 0; next < cluster.Count; next++)
            {
                foreach (var near in tree.Query(pieces[cluster[next]].EnvelopeInternal).Where(near => !seen[near]).Order())
                {
                    seen[near] = true;
                    cluster.Add(near);
                }
            }

            yield return [.. cluster.Order().Select(index => pieces[index])];
        }
    }

    /// <summary>Cuts pieces that lie strictly inside one simple piece by making them its holes: exact, and needs no overlay.</summary>
    private Region<TSpace>? WithoutInner(Region<TSpace> other)
    {
        if (_shape is not Polygon { NumInteriorRings: 0 } sheet)
        {
            return null;
        }

        var prepared = PreparedGeometryFactory.Prepare(sheet);
        var holes = new List<LinearRing>();
        var islands = new List<Polygon>();
        foreach (var polygon in other.Polygons())
        {
            if (!prepared.ContainsProperly(polygon.Shell))
            {
                return null;
            }

            holes.Add((LinearRing)polygon.ExteriorRing);
            islands.AddRange(polygon.InteriorRings.Select(ring => Factory.CreatePolygon((LinearRing)ring)));
        }

        // A piece may lie inside another's hole: then it cuts that island, not the sheet.
        if (islands.Count > 0)
        {
            return WithIslands(sheet, other, islands);
        }

        return Of([Factory.CreatePolygon((LinearRing)sheet.ExteriorRing, [.. holes])]);
    }

    private static Region<TSpace> WithIslands(Polygon sheet, Region<TSpace> other, List<Polygon> islands)
    {
        var tree = new STRtree<int>();
        for (var index = 0; index < islands.Count; index++)
        {
            tree.Insert(islands[index].EnvelopeInternal, index);
        }

        var holesOfSheet = new List<LinearRing>();
        var cuts = new Dictionary<int, List<LinearRing>>();
        foreach (var polygon in other.Polygons())
        {
            var shell = (LinearRing)polygon.ExteriorRing;
            var within = tree.Query(polygon.EnvelopeInternal)
                .Where(index => islands[index].EnvelopeInternal.Covers(polygon.EnvelopeInternal) && islands[index].Covers(polygon))
                .OrderBy(index => islands[index].Area)
                .ToImmutableArray();
            if (within.IsEmpty)
            {
                holesOfSheet.Add(shell);
            }
            else if (cuts.TryGetValue(within[0], out var list))
            {
                list.Add(shell);
            }
            else
            {
                cuts[within[0]] = [shell];
            }
        }

        var pieces = new List<Polygon> { Factory.CreatePolygon((LinearRing)sheet.ExteriorRing, [.. holesOfSheet]) };
        for (var index = 0; index < islands.Count; index++)
        {
            pieces.Add(cuts.TryGetValue(index, out var holes)
                ? Factory.CreatePolygon((LinearRing)islands[index].ExteriorRing, [.. holes])
                : islands[index]);
        }

        return Of(pieces);
    }

    private Region<TSpace> Overlay(Region<TSpace> other, SpatialFunction function)
    {
        if (function == SpatialFunction.Intersection && !_shape.EnvelopeInternal.Intersects(other._shape.EnvelopeInternal))
        {
            return Empty;
        }

        return Of(OverlayNGRobust.Overlay(_shape, other._shape, function));
    }
}
