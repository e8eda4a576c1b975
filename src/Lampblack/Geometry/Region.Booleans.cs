using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Prepared;
using NetTopologySuite.Index.Strtree;

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
        foreach (var cluster in Clusters(pieces, marginMm: 0))
        {
            if (cluster.Count == 1)
            {
                joined.Add(cluster[0]);
            }
            else
            {
                joined.AddRange(Joined(cluster));
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
        return Shape.NumGeometries < other.Shape.NumGeometries ? other.PiecesWithin(this) : PiecesWithin(other);
    }

    /// <summary>What belongs to this region and not to the other.</summary>
    /// <remarks>Each piece is cut by what comes near it; pieces strictly inside become its holes without an overlay, which is exact and quick.</remarks>
    public Region<TSpace> Except(Region<TSpace> other)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (other.IsEmpty || IsEmpty)
        {
            return this;
        }

        var cuts = new PieceIndex(other.Polygons());
        var kept = new List<Polygon>();
        var cut = new List<(Polygon Piece, List<Polygon> Near)>();
        foreach (var piece in Polygons())
        {
            var near = cuts.Near(piece);
            if (near.Count == 0)
            {
                kept.Add(piece);
            }
            else if (!near.Exists(piece.EqualsExact))
            {
                cut.Add((piece, near));
            }
        }

        // Where a large piece lies near many small ones, once over all is less work than many times over the large one.
        if (cut.Count > 1 && cut.Sum(pair => pair.Near.Sum(piece => (long)piece.NumPoints)) > 4L * (CornerCount + other.CornerCount))
        {
            return Difference([.. Polygons()], [.. other.Polygons()]);
        }

        return Of([.. kept, .. cut.SelectMany(pair => Cut(pair.Piece, pair.Near).Polygons())]);
    }

    /// <summary>Pieces that may lie over each other, joined into such that don't.</summary>
    private static List<Polygon> Joined(IEnumerable<Polygon> pieces) => WithHoles(Windings.Union(Rings(pieces)));

    private static Region<TSpace> Difference(IEnumerable<Polygon> pieces, IEnumerable<Polygon> others) => Of(WithHoles(Windings.Difference(Rings(pieces), Rings(others))));

    /// <summary>All borders with the inside on their left.</summary>
    private static List<Coordinate[]> Rings(IEnumerable<Polygon> pieces)
    {
        var rings = new List<Coordinate[]>();
        foreach (var piece in pieces)
        {
            rings.Add(Turning(piece.ExteriorRing, counterClockwise: true));
            foreach (var hole in piece.InteriorRings)
            {
                rings.Add(Turning(hole, counterClockwise: false));
            }
        }

        return rings;
    }

    private static Coordinate[] Turning(LineString ring, bool counterClockwise) =>
        ((LinearRing)ring).IsCCW == counterClockwise ? ring.Coordinates : [.. ring.Coordinates.Reverse()];

    /// <summary>This region's pieces as far as they lie within the other's; those wholly inside are kept as they are.</summary>
    private Region<TSpace> PiecesWithin(Region<TSpace> other)
    {
        if (other.IsRectangle && other.Envelope.Covers(Envelope))
        {
            return this;
        }

        var around = new PieceIndex(other.Polygons());
        var kept = new List<Polygon>();
        var crossing = new List<Polygon>();
        foreach (var piece in Polygons().Where(piece => around.Near(piece).Count > 0))
        {
            (other.Prepared.ContainsProperly(piece) ? kept : crossing).Add(piece);
        }

        if (crossing.Count == 0)
        {
            return kept.Count == Shape.NumGeometries ? this : Of(kept);
        }

        var cut = Of(WithHoles(Windings.Intersection(Rings(crossing), Rings(crossing.SelectMany(around.Near).Distinct()))));
        return kept.Count == 0 ? cut : Of([.. kept, .. cut.Polygons()]);
    }

    /// <summary>Cuts a piece. Cuts strictly inside it become its holes; the others are overlaid first, while it is still simple.</summary>
    private static Region<TSpace> Cut(Polygon sheet, List<Polygon> cuts)
    {
        var prepared = PreparedGeometryFactory.Prepare(sheet);
        var inner = new List<Polygon>();
        var crossing = new List<Polygon>();
        foreach (var cut in cuts)
        {
            (prepared.ContainsProperly(Filled(cut)) ? inner : crossing).Add(cut);
        }

        if (crossing.Count == 0)
        {
            return WithoutInner(sheet, inner);
        }

        var rest = Difference([sheet], crossing);
        return inner.Count == 0 ? rest : rest.Except(Of(inner));
    }

    private static Polygon Filled(Polygon piece) => piece.NumInteriorRings == 0 ? piece : Factory.CreatePolygon((LinearRing)piece.ExteriorRing);

    /// <summary>Cuts pieces that lie strictly inside by making them holes; what lies in a hole of theirs stays as an island.</summary>
    private static Region<TSpace> WithoutInner(Polygon sheet, List<Polygon> inner)
    {
        var islands = inner.SelectMany(piece => piece.InteriorRings).Select(ring => Factory.CreatePolygon((LinearRing)ring)).ToList();
        var holes = sheet.InteriorRings.Cast<LinearRing>().ToList();
        if (islands.Count == 0)
        {
            holes.AddRange(inner.Select(piece => (LinearRing)piece.ExteriorRing));
            return Of([Factory.CreatePolygon((LinearRing)sheet.ExteriorRing, [.. holes])]);
        }

        // A piece may lie inside another's hole: then it cuts that island, not the sheet.
        var tree = new STRtree<int>();
        for (var index = 0; index < islands.Count; index++)
        {
            tree.Insert(islands[index].EnvelopeInternal, index);
        }

        var cuts = new Dictionary<int, List<LinearRing>>();
        foreach (var piece in inner)
        {
            var shell = (LinearRing)piece.ExteriorRing;
            var within = tree.Query(piece.EnvelopeInternal)
                .Where(index => islands[index].EnvelopeInternal.Covers(piece.EnvelopeInternal) && IsInside(shell, (LinearRing)islands[index].ExteriorRing))
                .OrderBy(index => islands[index].Area)
                .ToImmutableArray();
            if (within.IsEmpty)
            {
                holes.Add(shell);
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

        var pieces = new List<Polygon> { Factory.CreatePolygon((LinearRing)sheet.ExteriorRing, [.. holes]) };
        for (var index = 0; index < islands.Count; index++)
        {
            pieces.Add(cuts.TryGetValue(index, out var more)
                ? Factory.CreatePolygon((LinearRing)islands[index].ExteriorRing, [.. more])
                : islands[index]);
        }

        return Of(pieces);
    }

    /// <summary>Pieces by their boxes.</summary>
    private sealed class PieceIndex
    {
        private readonly List<Polygon> _pieces;
        private readonly STRtree<int>? _tree;

        public PieceIndex(IEnumerable<Polygon> pieces)
        {
            _pieces = [.. pieces];
            if (_pieces.Count <= 8)
            {
                return;
            }

            _tree = new();
            for (var index = 0; index < _pieces.Count; index++)
            {
                _tree.Insert(_pieces[index].EnvelopeInternal, index);
            }
        }

        /// <summary>Those whose boxes meet the piece's box, in their own order.</summary>
        public List<Polygon> Near(Polygon piece) => _tree is null
            ? _pieces.FindAll(known => known.EnvelopeInternal.Intersects(piece.EnvelopeInternal))
            : [.. _tree.Query(piece.EnvelopeInternal).Order().Select(index => _pieces[index])];
    }
}
