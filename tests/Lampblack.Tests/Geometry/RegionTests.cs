using System;
using System.Linq;
using CsCheck;
using Lampblack.Geometry;
using Xunit;

namespace Lampblack.Tests.Geometry;

public sealed class RegionTests
{
    private static readonly Gen<Region<PanelSpace>> Boxes = Gen.Select(Gen.Double[0, 50], Gen.Double[0, 50], Gen.Double[0.5, 30], Gen.Double[0.5, 30])
        .Select((x, y, w, h) => Region<PanelSpace>.Rectangle(new(x, y, w, h)));

    [Fact]
    public void Union_and_intersection_share_out_the_area() => Gen.Select(Boxes, Boxes).Sample((first, second) =>
        Near(first.AreaMm2 + second.AreaMm2, first.Union(second).AreaMm2 + first.Intersect(second).AreaMm2));

    [Fact]
    public void The_narrowest_of_many_is_the_least_of_their_widths() => Gen.Select(Boxes, Gen.Double[0, 90]).Array[1, 20].Sample(parts =>
    {
        var pieces = parts.Select(part => part.Item1.Map(Affine<PanelSpace, PanelSpace>.Turn(part.Item2)).Except(part.Item1)).Where(piece => !piece.IsEmpty).ToList();
        Assert.Equal(pieces.Select(piece => piece.SmallestWidthMm).DefaultIfEmpty(double.PositiveInfinity).Min(), Region<PanelSpace>.NarrowestMm(pieces));
    });

    [Fact]
    public void What_is_cut_away_and_what_is_kept_make_the_whole() => Gen.Select(Boxes, Boxes.Array[1, 6]).Sample((whole, cuts) =>
    {
        var cut = Region<PanelSpace>.Union(cuts);
        Near(whole.AreaMm2, whole.Except(cut).AreaMm2 + whole.Intersect(cut).AreaMm2);
    });

    [Fact]
    public void Cutting_many_inner_pieces_is_the_same_with_and_without_the_short_way() => Boxes.Array[1, 8].Sample(pieces =>
    {
        // The sheet holds all pieces strictly, so the short way is taken; a sheet with a hole of its own takes the long way.
        var inner = Region<PanelSpace>.Union(pieces.Select(Frame));
        var sheet = Region<PanelSpace>.Rectangle(new(-10, -10, 120, 120));
        var holed = sheet.Except(Region<PanelSpace>.Rectangle(new(100, 100, 5, 5)));
        Near(sheet.Except(inner).AreaMm2 - 25, holed.Except(inner).AreaMm2);
        Assert.Equal(0, sheet.Except(inner).Intersect(inner).AreaMm2, 6);
    });

    [Fact]
    public void An_outline_inside_another_is_a_hole_and_inside_that_an_island()
    {
        var rings = new[] { 10.0, 8, 6 }.Select(size => new Outline<PanelSpace>(
            [new(-size, -size), new(size, -size), new(size, size), new(-size, size)], Closed: true)).ToArray();
        rings[1] = rings[1] with { Points = [.. rings[1].Points.Reverse()] };
        Near(400 - 256 + 144, Region<PanelSpace>.FromOutlines(rings).AreaMm2);
    }

    [Fact]
    public void Outlines_of_one_sense_that_overlap_are_joined()
    {
        var first = new Outline<PanelSpace>([new(0, 0), new(10, 0), new(10, 2), new(0, 2)], Closed: true);
        var second = new Outline<PanelSpace>([new(4, -4), new(6, -4), new(6, 6), new(4, 6)], Closed: true);
        Near(20 + 20 - 4, Region<PanelSpace>.FromOutlines([first, second]).AreaMm2);
    }

    [Fact]
    public void A_bow_tie_keeps_both_its_halves() =>
        Near(50, Region<PanelSpace>.FromCorners([new(0, 0), new(10, 10), new(10, 0), new(0, 10)]).AreaMm2);

    // Area and length of a capsule: a line of 10 mm stroked 4 mm wide with round ends (worked by hand: 10 * 4 + 4 pi; 20 + 4 pi).
    [Fact]
    public void A_round_stroke_is_a_capsule()
    {
        var capsule = Region<PanelSpace>.Stroke(new([new(0, 0), new(10, 0)], Closed: false), 4, LineEnd.Round);
        Assert.InRange(capsule.AreaMm2, 52.5663706 * 0.999, 52.5663706);
        Assert.InRange(capsule.PerimeterMm, 32.5663706 * 0.999, 32.5663706);
    }

    [Fact]
    public void A_map_and_its_inverse_bring_every_point_back() => Gen.Select(Gen.Double[-180, 180], Gen.Double[-50, 50], Gen.Double[-50, 50], Gen.Double[0.5, 2]).Sample(
        (degrees, x, y, scale) =>
        {
            var map = Affine<PanelSpace, SheetSpace>.Turn(degrees).Then(Affine<SheetSpace, SheetSpace>.Scale(scale, 1 / scale)).Then(Affine<SheetSpace, SheetSpace>.Shift(x, y));
            var point = new Point<PanelSpace>(12, 34);
            Assert.True(map.Inverse().Apply(map.Apply(point)).DistanceMm(point) < 1e-9);
        });

    [Fact]
    public void Borders_run_counter_clockwise_outside_and_clockwise_around_holes()
    {
        var ring = Region<PanelSpace>.Disc(new(0, 0), 5).Except(Region<PanelSpace>.Disc(new(0, 0), 3));
        var borders = ring.Borders();
        Assert.Equal(2, borders.Length);
        Assert.True(borders[0].SignedAreaMm2 > 0);
        Assert.True(borders[1].SignedAreaMm2 < 0);
        Near(ring.AreaMm2, borders.Sum(border => border.SignedAreaMm2));
    }

    [Fact]
    public void Curves_stay_within_their_chord_error() => Gen.Double[0.01, 200].Sample(radius =>
    {
        var chords = Resolution.ChordsPerCircle(radius);
        var sagitta = radius * (1 - Math.Cos(Math.PI / chords));
        return sagitta <= Resolution.ChordErrorMm * 1.0000001;
    });

    private static Region<PanelSpace> Frame(Region<PanelSpace> piece) =>
        piece.Except(Region<PanelSpace>.Rectangle(piece.Bounds.Grow(-Math.Min(piece.Bounds.WidthMm, piece.Bounds.HeightMm) / 4)));

    private static void Near(double expected, double found) => Assert.Equal(expected, found, 1e-6 * Math.Max(1, Math.Abs(expected)));

    [Fact]
    public void A_disc_with_fewer_corners_stays_within_the_error_of_the_old_one() => Gen.Select(Gen.Double[1, 60], Gen.Double[0.001, 0.1]).Sample((radius, error) =>
    {
        var border = Assert.Single(Region<PanelSpace>.Disc(new(3, -7), radius).WithFewerCorners(error).Borders());
        Assert.True(border.Points.Length <= Region<PanelSpace>.Disc(new(3, -7), radius).CornerCount);

        // The corners that are left lie on the circle; the middle of a chord between two of them lies farthest inside it.
        Assert.All(border.Points.Zip(border.Points.Skip(1).Append(border.Points[0])), side => Assert.InRange(
            radius - new Point<PanelSpace>((side.First.XMm + side.Second.XMm) / 2, (side.First.YMm + side.Second.YMm) / 2).DistanceMm(new(3, -7)), -1e-3, error + Resolution.ChordErrorMm));
    });

    [Fact]
    public void Of_a_circle_within_a_hundredth_about_half_of_the_corners_are_left()
    {
        var circle = Region<PanelSpace>.Disc(new(0, 0), 20);
        Assert.InRange(circle.WithFewerCorners(0.008).CornerCount, 12, circle.CornerCount * 0.55);
        Assert.Equal(4, Assert.Single(Region<PanelSpace>.Rectangle(new(0, 0, 9, 5)).WithFewerCorners(0.1).Borders()).Points.Length);
    }
}
