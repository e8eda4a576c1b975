using System;
using System.Linq;
using CsCheck;
using Lampblack.Geometry;
using Xunit;

namespace Lampblack.Tests.Geometry;

/// <summary>Boxes against shapes of any form, which share no code with them, and against counted points.</summary>
public sealed class BoxTests
{
    private static readonly Gen<Box<PanelSpace>> Boxes = Gen.Select(Gen.Int[-8, 8], Gen.Int[-8, 8], Gen.Int[0, 9], Gen.Int[0, 9]).Select((left, bottom, width, height) => new Box<PanelSpace>(left, bottom, width, height));

    private static readonly Gen<Point<PanelSpace>> Points = Gen.Select(Gen.Int[-10, 10], Gen.Int[-10, 10]).Select((x, y) => new Point<PanelSpace>(x, y));

    [Fact]
    public void Boxes_share_the_area_that_their_regions_share() => Gen.Select(Boxes, Boxes).Sample((one, other) =>
    {
        var isFlat = one.WidthMm * one.HeightMm * other.WidthMm * other.HeightMm == 0;
        var shared = isFlat ? 0 : Region<PanelSpace>.Rectangle(one).Intersect(Region<PanelSpace>.Rectangle(other)).AreaMm2;
        Assert.Equal(shared, one.SharedMm2(other), 1e-6);
        Assert.Equal(one.SharedMm2(other), other.SharedMm2(one), 1e-12);
        Assert.Equal(one.SharedMm2(other) > 0, !isFlat && one.Overlaps(other));
    });

    [Fact]
    public void As_much_of_a_stretch_lies_inside_as_of_its_points() => Gen.Select(Boxes, Points, Points).Sample((box, from, to) =>
    {
        const int Steps = 2000;
        var inside = Enumerable.Range(0, Steps).Select(step => (step + 0.5) / Steps)
            .Count(share => from.XMm + (share * (to.XMm - from.XMm)) is var x && from.YMm + (share * (to.YMm - from.YMm)) is var y
                && x > box.LeftMm && x < box.RightMm && y > box.BottomMm && y < box.TopMm);
        Assert.Equal(inside / (double)Steps, box.InsideShare(from, to), 2.0 / Steps);
    });

    /// <summary>Along a border nothing lies inside; a hair farther in all of it does, upright and level.</summary>
    [Theory]
    [InlineData(2, 0)]
    [InlineData(2.001, 0.6)]
    [InlineData(4.999, 0.6)]
    [InlineData(5, 0)]
    [InlineData(5.001, 0)]
    public void A_stretch_along_a_border_lies_outside(double atMm, double share)
    {
        Assert.Equal(share, new Box<PanelSpace>(2, 1, 3, 6).InsideShare(new(atMm, -1), new(atMm, 9)), 1e-9);
        Assert.Equal(share, new Box<PanelSpace>(1, 2, 6, 3).InsideShare(new(-1, atMm), new(9, atMm)), 1e-9);
    }
}
