using System;
using System.Linq;
using CsCheck;
using Lampblack.Geometry;
using Xunit;

namespace Lampblack.Tests.Geometry;

public sealed class ArcPathTests
{
    [Fact]
    public void Bulges_are_the_tangent_of_a_quarter_of_the_angle()
    {
        // Facts of the exchange format: a quarter circle's bulge is 0.414214, a half circle's 1 (row 38; computed from the definition, group code 42).
        Assert.Equal(0.414214, ArcPath<ItemSpace>.BulgeOf(90), 1e-6);
        Assert.Equal(1, ArcPath<ItemSpace>.BulgeOf(180), 1e-12);
        var corner = ArcPath<ItemSpace>.RoundedRectangle(new(0, 0, 10, 6), 1).Corners.First(one => one.BulgeFactor != 0);
        Assert.Equal(0.414214, corner.BulgeFactor, 1e-6);
    }

    [Fact]
    public void A_slot_has_two_straight_sides_and_two_half_circles_in_quarters()
    {
        var slot = ArcPath<ItemSpace>.RoundedRectangle(new(-10, -2, 20, 4), 2);
        Assert.Equal(2, slot.Corners.Count(corner => corner.BulgeFactor == 0));
        Assert.Equal(4, slot.Corners.Count(corner => corner.BulgeFactor != 0));
        Assert.Equal((16 * 4) + (Math.PI * 4), slot.ToRegion().AreaMm2, 0.02);
    }

    [Fact]
    public void A_circle_knows_that_it_is_one_wherever_it_is_moved()
    {
        var circle = ArcPath<ItemSpace>.Circle(new(1, 2), 3.25).Map(Affine<ItemSpace, ItemSpace>.Turn(33).Then(Affine<ItemSpace, PanelSpace>.Shift(5, -1)));
        Assert.Equal(3.25, circle.AsCircle!.Value.RadiusMm, 1e-12);
        Assert.Null(ArcPath<ItemSpace>.RoundedRectangle(new(0, 0, 10, 6), 1).AsCircle);
    }

    [Fact]
    public void Arcs_in_chords_lie_on_the_circle_that_the_bulge_tells()
    {
        // An independent way to the same circle: radius = chord (1 + b^2) / (4 b), as the bulge is the sagitta over half the chord.
        Gen.Select(Gen.Double[-50, 50], Gen.Double[-50, 50], Gen.Double[0.5, 40], Gen.Double[0, 360], Gen.Double[0.05, 12], Gen.Bool).Sample(
            (x, y, chord, degrees, bulge, isLeft) =>
            {
                var signed = isLeft ? bulge : -bulge;
                Point<ItemSpace> from = new(x, y), to = from.Polar(chord, degrees);
                var (centre, radius, start, turn) = ArcPath<ItemSpace>.ArcTo(new(from, signed), to);
                var expected = chord * (1 + (bulge * bulge)) / (4 * bulge);
                var end = centre.Polar(radius, start + turn);
                return Math.Abs(radius - expected) < 1e-6 * expected && end.DistanceMm(to) < 1e-6 * Math.Max(1, radius) && Math.Sign(turn) == Math.Sign(signed);
            },
            iter: 2000);
    }

    [Fact]
    public void A_mirror_turns_arcs_round_and_keeps_the_area()
    {
        var path = ArcPath<PanelSpace>.RoundedRectangle(new(2, 3, 30, 20), 4);
        var mirrored = path.Map(new Affine<PanelSpace, BackSpace>(-1, 0, 40, 0, 1, 0));
        Assert.All(mirrored.Corners.Zip(path.Corners), pair => Assert.Equal(-pair.Second.BulgeFactor, pair.First.BulgeFactor));
        Assert.Equal(path.ToRegion().AreaMm2, mirrored.ToRegion().AreaMm2, 1e-3);
        Assert.Equal(8, mirrored.ToRegion().Bounds.LeftMm, 1e-9);
    }

    [Fact]
    public void A_stretch_is_refused() =>
        Assert.Throws<ArgumentException>(() => ArcPath<ItemSpace>.Circle(default, 1).Map(Affine<ItemSpace, ItemSpace>.Scale(2, 1)));
}
