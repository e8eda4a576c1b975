using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Xunit;

namespace Lampblack.Tests.Geometry;

/// <summary>Regions that are only shifted: no corner is touched on the way, and all lie as if each had been.</summary>
public sealed class ShiftTests
{
    private static readonly (double XMm, double YMm)[] Shifts = [(12.34567, -7.000049), (-100.00004, 0.33333), (0.00006, 250)];

    [Fact]
    public void Shifts_one_after_the_other_move_every_corner_as_each_alone_would()
    {
        var letter = Letter();
        var moved = Shifts.Aggregate(letter, (region, shift) => region.Map(Affine<PanelSpace, PanelSpace>.Shift(shift.XMm, shift.YMm)));
        var expected = Corners(letter).Select(corner => Shifts.Aggregate(corner, (at, shift) => (Resolution.Snap(at.XMm + shift.XMm), Resolution.Snap(at.YMm + shift.YMm)))).ToList();
        Assert.Equal(expected, Corners(moved));
        Assert.Equal(expected.Min(corner => corner.XMm), moved.Bounds.LeftMm);
        Assert.Equal(expected.Max(corner => corner.YMm), moved.Bounds.TopMm, 9);
        Assert.Equal(letter.CornerCount, moved.CornerCount);
        Assert.Equal(letter.AreaMm2, moved.AreaMm2, 6);
    }

    [Fact]
    public void What_lies_between_the_steps_of_the_grid_is_brought_onto_it()
    {
        var grown = Letter().Grow(0.37);
        Assert.Contains(Corners(grown), corner => Resolution.Snap(corner.XMm) != corner.XMm);
        var moved = grown.Map(Affine<PanelSpace, SheetSpace>.Shift(0.00004, 0));
        Assert.All(moved.Borders().SelectMany(border => border.Points), point => Assert.Equal((Resolution.Snap(point.XMm), Resolution.Snap(point.YMm)), (point.XMm, point.YMm)));
        Assert.Equal(Corners(grown).Select(corner => Resolution.Snap(corner.XMm + 0.00004)), moved.Borders().SelectMany(border => border.Points).Select(point => point.XMm));
    }

    [Fact]
    public void A_shifted_region_cuts_and_meets_others_where_it_lies()
    {
        var there = Region<PanelSpace>.Rectangle(new(0, 0, 10, 10)).Map(Affine<PanelSpace, PanelSpace>.Shift(100, 50));
        Assert.True(there.Contains(new Point<PanelSpace>(105, 55)));
        Assert.False(there.Contains(new Point<PanelSpace>(5, 5)));
        Assert.False(there.Touches(Region<PanelSpace>.Rectangle(new(0, 0, 10, 10))));
        Assert.Equal(25, there.Intersect(Region<PanelSpace>.Rectangle(new(105, 55, 20, 20))).AreaMm2, 6);
        Assert.Equal(5, there.DistanceMm(Region<PanelSpace>.Rectangle(new(115, 50, 1, 1))), 6);
    }

    [Theory]
    [InlineData(40)]
    [InlineData(900)]
    public void Pieces_over_each_other_are_joined_and_those_apart_stay_as_they_are(int count)
    {
        // Long bars above each other, every third on the one below: boxes that one way from the left finds all open at once.
        var bars = Enumerable.Range(0, count).Select(index => Region<PanelSpace>.Rectangle(new(index % 5, index - (index % 3 == 2 ? 0.5 : 0), 300, 0.8))).ToList();
        var joined = Region<PanelSpace>.Union(bars);
        Assert.Equal(count - (count / 3), joined.Pieces.Length);
        Assert.Equal(bars[0].Bounds, joined.Pieces[0].Bounds);
        Assert.Equal(bars[1].Bounds.BottomMm, joined.Pieces[1].Bounds.BottomMm);
        Assert.Equal(joined.AreaMm2, bars.Aggregate((one, other) => one.Union(other)).AreaMm2, 5);
    }

    private static Region<PanelSpace> Letter() => Region<PanelSpace>.Union(
    [
        Region<PanelSpace>.Disc(new(3.1, 2.7), 2.5).Except(Region<PanelSpace>.Disc(new(3.2, 2.7), 1.3)),
        Region<PanelSpace>.Rectangle(new(8.0003, 1, 0.7001, 5)),
    ]).Map(Affine<PanelSpace, PanelSpace>.Scale(1.0001, 1));

    private static List<(double XMm, double YMm)> Corners(Region<PanelSpace> region) => [.. region.Borders().SelectMany(border => border.Points).Select(point => (point.XMm, point.YMm))];
}
