using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Lettering;
using NetTopologySuite.Geometries;

namespace Lampblack.Bench;

/// <summary>2000 letters in lines of 50, as regions of ours and as the same polygons of the library.</summary>
internal sealed class Letters
{
    private const string Alphabet = "SHUTTERLAMPNORTHSIGNALPOINTSHEATERFOCUSGUIDEMOUNTY";

    public Letters()
    {
        var face = BundledFonts.Find("barlow-condensed-semibold")!;
        Regions = [.. Enumerable.Range(0, 40).SelectMany(line =>
            TextOutline.Line(face, Alphabet, 2.8).Shape.Map(Affine<ItemSpace, ItemSpace>.Shift(0, line * 4)).Pieces)];
        Polygons = [.. Regions.Select(Polygon)];
        All = Region<ItemSpace>.Union(Regions);
        MultiPolygon = GeometryFactory.Default.CreateMultiPolygon([.. Polygons]);
    }

    public ImmutableArray<Region<ItemSpace>> Regions { get; }

    public ImmutableArray<Polygon> Polygons { get; }

    public Region<ItemSpace> All { get; }

    public MultiPolygon MultiPolygon { get; }

    private static Polygon Polygon(Region<ItemSpace> piece)
    {
        var rings = piece.Borders().Select(border => GeometryFactory.Default.CreateLinearRing(
            [.. border.Points.Append(border.Points[0]).Select(point => new Coordinate(point.XMm, point.YMm))])).ToArray();
        return GeometryFactory.Default.CreatePolygon(rings[0], rings[1..]);
    }
}
