using System;
using CsCheck;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Xunit;

namespace Lampblack.Tests.Imaging;

public sealed class CoverageMapTests
{
    private static readonly Box<PanelSpace> View = new(0, 0, 20, 10);

    [Theory]
    [InlineData(1.0)]
    [InlineData(2.0)]
    [InlineData(4.0)]
    public void A_disc_covers_its_area(double radiusMm)
    {
        var map = CoverageMap.Of(Region<PanelSpace>.Disc(new(10.03, 5.02), radiusMm), View, 0.05);
        Assert.Equal(Math.PI * radiusMm * radiusMm, map.AreaMm2, 0.005 * Math.PI * radiusMm * radiusMm);
    }

    // The rasteriser rounds: over 12,000 discs of 2 to 70 dots its borders were wrong by at most 0.058 dots, by more than 0.05 on two of them.
    [Fact]
    public void Any_disc_anywhere_has_its_border_within_a_fifteenth_of_a_dot() =>
        Gen.Select(Gen.Double[6, 14], Gen.Double[4, 6], Gen.Double[0.1, 3.5]).Sample(
            (x, y, radius) =>
            {
                // The region's own area, as its chords may miss the circle by nearly as much as is allowed here.
                var disc = Region<PanelSpace>.Disc(new(x, y), radius);
                Assert.Equal(disc.AreaMm2, CoverageMap.Of(disc, View, 0.05).AreaMm2, 2 * Math.PI * radius * 0.05 * (1.0 / 15));
            },
            iter: 200);

    [Fact]
    public void A_hole_stays_open_and_an_island_in_it_is_covered()
    {
        var ring = Region<PanelSpace>.Disc(new(10, 5), 4).Except(Region<PanelSpace>.Disc(new(10, 5), 3));
        var map = CoverageMap.Of(ring.Union(Region<PanelSpace>.Disc(new(10, 5), 1)), View, 0.1);
        Assert.Equal(Math.PI * (16 - 9 + 1), map.AreaMm2, 0.05);
        Assert.Equal(255, Dot(map, 100, 50));
        Assert.Equal(0, Dot(map, 120, 50));
        Assert.Equal(255, Dot(map, 135, 50));
    }

    [Fact]
    public void Upper_left_in_the_panel_is_the_first_dot_of_the_first_row()
    {
        var map = CoverageMap.Of(Region<PanelSpace>.Rectangle(new(0, 9, 2, 1)), View, 0.5);
        Assert.Equal((40, 20), (map.WidthPx, map.HeightPx));
        Assert.Equal(255, Dot(map, 0, 0));
        Assert.Equal(255, Dot(map, 3, 1));
        Assert.Equal(0, Dot(map, 4, 0));
        Assert.Equal(0, Dot(map, 0, 2));
        Assert.Equal(0, Dot(map, 39, 19));
    }

    [Fact]
    public void A_half_covered_dot_is_half_covered()
    {
        var map = CoverageMap.Of(Region<PanelSpace>.Rectangle(new(0, 0, 10.25, 10)), View, 0.5);
        Assert.Equal(255, Dot(map, 19, 10));
        Assert.InRange(Dot(map, 20, 10), 126, 129);
        Assert.Equal(0, Dot(map, 21, 10));
    }

    [Fact]
    public void What_lies_outside_the_view_is_left_out()
    {
        var map = CoverageMap.Of(Region<PanelSpace>.Rectangle(new(-100, -100, 110, 300)), View, 0.1);
        Assert.Equal(100, map.AreaMm2, 1e-6);
        Assert.Equal(0, CoverageMap.Of(Region<PanelSpace>.Rectangle(new(30, 0, 5, 5)), View, 0.1).AreaMm2);
        Assert.Equal(0, CoverageMap.Of(Region<PanelSpace>.Empty, View, 0.1).AreaMm2);
    }

    [Fact]
    public void A_blurred_map_keeps_its_area()
    {
        var map = CoverageMap.Of(Region<PanelSpace>.Disc(new(10, 5), 2), View, 0.1);
        Assert.Equal(map.AreaMm2, map.Blur(0.5).AreaMm2, 0.01 * map.AreaMm2);
        Assert.True(map.Coverage.Span.SequenceEqual(map.Blur(0).Coverage.Span));
    }

    // Beyond a straight border lies 1/2 exp(-2 pi x / kp): its mean over the first dot of 0.1 mm at kp 0.5 is 0.2847, and the dot before lacks as much.
    [Fact]
    public void A_blurred_border_reaches_into_the_next_dot()
    {
        var map = CoverageMap.Of(Region<PanelSpace>.Rectangle(new(0, 0, 10, 10)), View, 0.1).Blur(0.5);
        Assert.Equal(0.2847 * 255, Dot(map, 100, 50), 1.0);
        Assert.Equal((1 - 0.2847) * 255, Dot(map, 99, 50), 1.0);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(1e-6)]
    public void Dots_without_a_usable_size_are_refused(double mmPerDot) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => CoverageMap.Of(Region<PanelSpace>.Empty, View, mmPerDot));

    [Fact]
    public void A_view_without_a_size_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => CoverageMap.Of(Region<PanelSpace>.Empty, new Box<PanelSpace>(0, 0, 0, 5), 0.1));

    private static int Dot(CoverageMap map, int column, int row) => map.Coverage.Span[(row * map.WidthPx) + column];
}
