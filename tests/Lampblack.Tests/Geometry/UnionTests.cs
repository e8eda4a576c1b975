using System;
using System.Collections.Immutable;
using System.Linq;
using CsCheck;
using Lampblack.Geometry;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Utilities;
using NetTopologySuite.Operation.Overlay;
using NetTopologySuite.Operation.OverlayNG;
using Xunit;
using NtsGeometry = NetTopologySuite.Geometries.Geometry;

namespace Lampblack.Tests.Geometry;

/// <summary>
/// Joining pieces that lie over each other, and cutting them by each other. The other truth is NetTopologySuite's overlay, which shares no step with ours: it sorts out crossings in floating
/// numbers and labels edges, where ours rounds them to a fine grid and counts turns.
/// </summary>
public sealed class UnionTests
{
    private static readonly GeometryFactory Library = new();

    private static readonly Gen<Region<PanelSpace>> Bars = Gen.Select(Gen.Int[0, 20], Gen.Int[0, 20], Gen.Int[1, 12], Gen.Int[1, 12])
        .Select((x, y, w, h) => Region<PanelSpace>.Rectangle(new(x, y, w, h)));

    private static readonly Gen<Region<PanelSpace>> Rings = Gen.Select(Gen.Double[0, 20], Gen.Double[0, 20], Gen.Double[0.3, 9], Gen.Double[0, 0.95])
        .Select((x, y, radius, share) => Region<PanelSpace>.Disc(new(x, y), radius).Except(Region<PanelSpace>.Disc(new(x, y), radius * share)));

    private static readonly Gen<Region<PanelSpace>> Slivers = Gen.Select(Gen.Double[0, 20], Gen.Double[0, 20], Gen.Double[0, 360], Gen.Double[0.001, 0.2])
        .Select((x, y, angle, width) => Region<PanelSpace>.Stroke(
            new([new(x, y), new Point<PanelSpace>(x, y).Polar(15, angle)], Closed: false), width, LineEnd.Round));

    // Pieces of a few slanting lines: their long sides lie within a hair of each other.
    private static readonly Gen<Region<PanelSpace>> OneLine = Gen.Select(Gen.Double[0, 10], Gen.Double[0.5, 10], Gen.Int[0, 2], Gen.Bool)
        .Select((from, length, line, isWide) => Region<PanelSpace>.Stroke(
            new([new(from, 0.7 * (from + line)), new(from + length, 0.7 * (from + length + line))], Closed: false), isWide ? 0.5 : 0.2, from > 5 ? LineEnd.Round : LineEnd.Flat));

    [Fact]
    public void Stretches_of_one_slanting_line() => OneLine.Array[2, 10].Sample(IsTheLibrarys, iter: 300);

    [Fact]
    public void Thousands_of_long_slanting_lines_side_by_side_are_looked_at_one_by_one()
    {
        var lines = Enumerable.Range(0, 4_000).Select(index => Region<PanelSpace>.Stroke(new([new(index, 0), new(index + 4_000, 4_000)], Closed: false), 0.2, LineEnd.Flat)).ToList();
        var across = Region<PanelSpace>.Rectangle(new(0, 2_000, 8_000, 1));
        var joined = Region<PanelSpace>.Union([.. lines, across]);
        Assert.Single(joined.Pieces);
    }

    [Fact]
    public void Bars_whose_edges_lie_on_each_other() => Bars.Array[2, 12].Sample(IsTheLibrarys, iter: 300);

    [Fact]
    public void Rings_over_each_other() => Rings.Array[2, 10].Sample(IsTheLibrarys, iter: 150);

    [Fact]
    public void Thin_lines_across_all_others() => Gen.OneOf(Slivers, Rings, Bars).Array[2, 14].Sample(IsTheLibrarys, iter: 150);

    [Fact]
    public void Bars_cut_by_bars_whose_edges_lie_on_theirs() => Gen.Select(Bars.Array[1, 6], Bars.Array[1, 6]).Sample(AreCutAsByTheLibrary, iter: 300);

    [Fact]
    public void Rings_cut_by_thin_lines_and_rings() => Gen.Select(Gen.OneOf(Rings, Bars).Array[1, 6], Gen.OneOf(Slivers, Rings).Array[1, 8]).Sample(AreCutAsByTheLibrary, iter: 300);

    [Fact]
    public void Stretches_of_a_slanting_line_cut_by_others_of_it() => Gen.Select(OneLine.Array[1, 6], OneLine.Array[1, 6]).Sample(AreCutAsByTheLibrary, iter: 300);

    [Fact]
    public void Copies_of_one_shape_join_into_itself_corner_by_corner()
    {
        var ring = Region<PanelSpace>.Disc(new(1.23456, 7.65432), 5).Grow(0.3).Except(Region<PanelSpace>.Disc(new(1, 7), 2));
        var joined = Region<PanelSpace>.Union([ring, ring, ring]);
        Assert.Equal(Corners(ring).OrderBy(corner => (corner.XMm, corner.YMm)), Corners(joined).OrderBy(corner => (corner.XMm, corner.YMm)));
    }

    [Fact]
    public void Corners_keep_their_places_to_the_last_bit_and_only_crossings_are_new()
    {
        var (first, second) = (Region<PanelSpace>.Disc(new(0, 0), 5).Grow(1.0 / 3), Region<PanelSpace>.Disc(new(4, 1), 5).Grow(0.7));
        var known = Corners(first).Concat(Corners(second)).ToHashSet();
        Assert.Equal(2, Corners(first.Union(second)).Count(corner => !known.Contains(corner)));
    }

    [Fact]
    public void A_hole_filled_by_another_piece_is_gone_and_one_that_is_not_stays()
    {
        var frame = Region<PanelSpace>.Rectangle(new(0, 0, 10, 10)).Except(Region<PanelSpace>.Rectangle(new(2, 2, 2, 2))).Except(Region<PanelSpace>.Rectangle(new(6, 6, 2, 2)));
        var joined = frame.Union(Region<PanelSpace>.Rectangle(new(1, 1, 4, 4)));
        Assert.Equal(96, joined.AreaMm2, 1e-9);
        Assert.Single(joined.FilledHoles());
    }

    [Fact]
    public void Regions_of_hundreds_of_metres_are_joined_as_well() =>
        Assert.Equal(3e10, Region<PanelSpace>.Rectangle(new(0, 0, 1e6, 2e4)).Union(Region<PanelSpace>.Rectangle(new(5e5, 0, 1e6, 2e4))).AreaMm2, 1);

    [Fact]
    public void Regions_wider_than_fine_steps_reach_are_joined_on_the_grid()
    {
        var joined = Region<PanelSpace>.Rectangle(new(0, 0, 90_000, 10)).Union(Region<PanelSpace>.Rectangle(new(80_000, 5, 9_000, 90_000)));
        Assert.Equal(900_000 + (9_000.0 * 90_000) - (9_000 * 5), joined.AreaMm2, 1e-3);
        Assert.Single(joined.Pieces);
    }

    private static ImmutableArray<Point<PanelSpace>> Corners(Region<PanelSpace> region) => [.. region.Borders().SelectMany(border => border.Points)];

    private static void IsTheLibrarys(Region<PanelSpace>[] pieces) => IsSame(Region<PanelSpace>.Union(pieces), OverlayNGRobust.Union([.. pieces.Select(Of)], Library));

    private static void AreCutAsByTheLibrary((Region<PanelSpace>[] Pieces, Region<PanelSpace>[] Others) shapes)
    {
        var (one, other) = (Region<PanelSpace>.Union(shapes.Pieces), Region<PanelSpace>.Union(shapes.Others));
        IsSame(one.Except(other), Areas(OverlayNGRobust.Overlay(Of(one), Of(other), SpatialFunction.Difference)));
        IsSame(one.Intersect(other), Areas(OverlayNGRobust.Overlay(Of(one), Of(other), SpatialFunction.Intersection)));
    }

    /// <summary>The library keeps lines and points where areas only touch.</summary>
    private static NtsGeometry Areas(NtsGeometry shape) => Library.CreateMultiPolygon([.. PolygonExtracter.GetPolygons(shape).Cast<Polygon>()]);

    private static void IsSame(Region<PanelSpace> region, NtsGeometry library)
    {
        var ours = Of(region);
        Assert.True(ours.IsValid);
        Assert.InRange(ours.Area, library.Area - 1e-4, library.Area + 1e-4);

        // Where they differ, one reaches no farther beyond the other than a crossing is rounded: a fine step of 1.6 nm, doubled for slanting sides.
        var difference = OverlayNGRobust.Overlay(ours, library, SpatialFunction.SymDifference);
        Assert.InRange(difference.Area, 0, 4e-6 * (1 + library.Length));
    }

    private static NtsGeometry Of(Region<PanelSpace> region) => Library.CreateMultiPolygon([.. region.Pieces.Select(piece =>
    {
        var borders = piece.Borders().Select(border => Library.CreateLinearRing(
            [.. border.Points.Append(border.Points[0]).Select(point => new Coordinate(point.XMm, point.YMm))])).ToArray();
        return Library.CreatePolygon(borders[0], borders[1..]);
    })]);
}
