using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Utilities;
using NetTopologySuite.Operation.Buffer;
using NtsGeometry = NetTopologySuite.Geometries.Geometry;

namespace Lampblack.Geometry;

/// <summary>How the ends of a stroked line look.</summary>
public enum LineEnd
{
    /// <summary>Cut off at the last point.</summary>
    Flat,

    /// <summary>A half disc beyond the last point.</summary>
    Round,

    /// <summary>Half the width beyond the last point.</summary>
    Square,
}

/// <content>Ways to make a region.</content>
public sealed partial class Region<TSpace>
{
    /// <summary>An upright rectangle.</summary>
    public static Region<TSpace> Rectangle(Box<TSpace> box) => RoundedRectangle(box, 0);

    /// <summary>An upright rectangle with rounded corners; the radius is cut to half the shorter side.</summary>
    public static Region<TSpace> RoundedRectangle(Box<TSpace> box, double radiusMm)
    {
        if (!(box.WidthMm > 0 && box.HeightMm > 0))
        {
            return Empty;
        }

        var radius = Math.Min(radiusMm, Math.Min(box.WidthMm, box.HeightMm) / 2);
        if (!(radius > 0))
        {
            // Four corners that stay apart on the grid are a rectangle: nothing that must be looked over.
            return Ring([new(box.LeftMm, box.BottomMm), new(box.RightMm, box.BottomMm), new(box.RightMm, box.TopMm), new(box.LeftMm, box.TopMm)]) is { NumPoints: 5 } ring
                ? new(Factory.CreatePolygon(ring)) { _footing = Footing.OnGrid }
                : Empty;
        }

        var inner = box.Grow(-radius);
        return FromCorners([
            .. Outline<TSpace>.Arc(new(inner.RightMm, inner.BottomMm), radius, -90, 0).Points,
            .. Outline<TSpace>.Arc(new(inner.RightMm, inner.TopMm), radius, 0, 90).Points,
            .. Outline<TSpace>.Arc(new(inner.LeftMm, inner.TopMm), radius, 90, 180).Points,
            .. Outline<TSpace>.Arc(new(inner.LeftMm, inner.BottomMm), radius, 180, 270).Points]);
    }

    /// <summary>A round disc.</summary>
    public static Region<TSpace> Disc(Point<TSpace> centre, double radiusMm) =>
        radiusMm > 0 ? FromCorners(Outline<TSpace>.Arc(centre, radiusMm, 0, 360).Points.RemoveAt(0)) : Empty;

    /// <summary>The inside of a chain of corners; one that crosses itself keeps every part that it goes around.</summary>
    public static Region<TSpace> FromCorners(ImmutableArray<Point<TSpace>> corners)
    {
        var ring = Ring(corners);
        return ring is null ? Empty : Of(Valid(Factory.CreatePolygon(ring)));
    }

    /// <summary>
    /// The area inside closed outlines where an outline inside another is a hole, one inside that an island, and so on
    /// (even-odd where they nest); outlines of one sense of turn that overlap, as some fonts have them, are joined.
    /// </summary>
    public static Region<TSpace> FromOutlines(IEnumerable<Outline<TSpace>> outlines)
    {
        ArgumentNullException.ThrowIfNull(outlines);
        var rings = outlines.Select(outline => Ring(outline.Points)).OfType<LinearRing>()
            .Select(ring => (Ring: ring, Shape: Factory.CreatePolygon(ring)))
            .Where(pair => pair.Shape.Area > 0)
            .OrderByDescending(pair => pair.Shape.Area)
            .ToList();
        if (rings.Count == 0)
        {
            return Empty;
        }

        if (rings.All(pair => pair.Shape.IsValid) && Nested(rings) is { } nested)
        {
            return nested;
        }

        // The largest outline is an outer one, so its sense of turn is that of all outer ones.
        var outerSense = rings[0].Ring.IsCCW;
        var outer = Of(Joined([.. rings.Where(pair => pair.Ring.IsCCW == outerSense).SelectMany(pair => Flatten(Valid(pair.Shape))).OfType<Polygon>()]));
        return outer.Except(Of(Joined([.. rings.Where(pair => pair.Ring.IsCCW != outerSense).SelectMany(pair => Flatten(Valid(pair.Shape))).OfType<Polygon>()])));
    }

    /// <summary>The area that a pen of the given width covers along a line; corners are mitred where the line is closed or its ends are not round.</summary>
    public static Region<TSpace> Stroke(Outline<TSpace> line, double widthMm, LineEnd end)
    {
        ArgumentNullException.ThrowIfNull(line);
        var coordinates = line.Points.Select(point => new Coordinate(point.XMm, point.YMm)).ToList();
        if (line.Closed && coordinates.Count > 0)
        {
            coordinates.Add(coordinates[0].Copy());
        }

        if (coordinates.Count < 2 || !(widthMm > 0))
        {
            return Empty;
        }

        var parameters = new BufferParameters(
            QuadrantChords(widthMm / 2),
            end switch { LineEnd.Flat => EndCapStyle.Flat, LineEnd.Round => EndCapStyle.Round, _ => EndCapStyle.Square },
            end == LineEnd.Round ? JoinStyle.Round : JoinStyle.Mitre,
            mitreLimit: 4);
        NtsGeometry path = line.Closed ? Factory.CreateLinearRing([.. coordinates]) : Factory.CreateLineString([.. coordinates]);
        return Of([.. Flatten(path.Buffer(widthMm / 2, parameters)).OfType<Polygon>().Where(piece => !piece.IsEmpty).Select(OnFineGrid)]);
    }

    /// <summary>Chords of a quarter circle. The library may cut a joint's arc into chords half as long again as asked for, so a half more are asked for.</summary>
    private static int QuadrantChords(double radiusMm) => (int)Math.Ceiling(Resolution.ChordsPerCircle(radiusMm) * 1.5 / 4);

    private static LinearRing? Ring(ImmutableArray<Point<TSpace>> corners)
    {
        var coordinates = new List<Coordinate>(corners.Length + 1);
        foreach (var corner in corners)
        {
            var coordinate = new Coordinate(Resolution.Snap(corner.XMm), Resolution.Snap(corner.YMm));
            if (coordinates.Count == 0 || !coordinates[^1].Equals2D(coordinate))
            {
                coordinates.Add(coordinate);
            }
        }

        if (coordinates.Count > 1 && coordinates[^1].Equals2D(coordinates[0]))
        {
            coordinates.RemoveAt(coordinates.Count - 1);
        }

        if (coordinates.Count < 3)
        {
            return null;
        }

        coordinates.Add(coordinates[0].Copy());
        return Factory.CreateLinearRing([.. coordinates]);
    }

    private static NtsGeometry Valid(NtsGeometry shape) => shape.IsValid ? shape : GeometryFixer.Fix(shape);

    /// <summary>Builds polygons by depth of nesting; nothing where outlines cross or two of one depth overlap.</summary>
    private static Region<TSpace>? Nested(List<(LinearRing Ring, Polygon Shape)> rings)
    {
        var depths = new int[rings.Count];
        var shells = new List<(int Index, List<LinearRing> Holes)>();
        for (var index = 0; index < rings.Count; index++)
        {
            var parent = -1;
            for (var outer = 0; outer < index; outer++)
            {
                if (!rings[outer].Shape.EnvelopeInternal.Intersects(rings[index].Shape.EnvelopeInternal))
                {
                    continue;
                }

                if (rings[outer].Shape.Covers(rings[index].Shape))
                {
                    depths[index]++;
                    parent = outer;
                }
                else if (rings[outer].Shape.Intersects(rings[index].Shape) && depths[outer] % 2 == depths[index] % 2)
                {
                    return null;
                }
            }

            // The last one around it is the closest; inside one of its own sense it is an overlap, not a hole.
            if (parent >= 0 && rings[parent].Ring.IsCCW == rings[index].Ring.IsCCW)
            {
                return null;
            }

            if (depths[index] % 2 == 0)
            {
                shells.Add((index, []));
            }
            else
            {
                shells.FindLast(shell => shell.Index == parent).Holes?.Add(rings[index].Ring);
            }
        }

        var region = Of([.. shells.Select(shell => Factory.CreatePolygon(rings[shell.Index].Ring, [.. shell.Holes]))]);
        return region.Shape.IsValid ? region : null;
    }
}
