using System.Collections.Immutable;
using System.Linq;
using CsCheck;
using Lampblack.Geometry;
using Xunit;

namespace Lampblack.Tests.Geometry;

/// <summary>Areas by a fill rule. The other truth is the definition itself, place by place: how often outlines turn around it.</summary>
public sealed class WindingTests
{
    private static readonly Gen<Outline<ItemSpace>[]> Scribbles =
        Gen.Select(Gen.Int[0, 12], Gen.Int[0, 12]).Array[3, 9].Array[1, 4].Select(rings => rings
            .Select(ring => new Outline<ItemSpace>([.. ring.Select(corner => new Point<ItemSpace>(corner.Item1, corner.Item2))], Closed: true)).ToArray());

    private static readonly Gen<Outline<ItemSpace>[]> FineScribbles =
        Gen.Select(Gen.Double[0, 12], Gen.Double[0, 12]).Array[3, 30].Array[1, 3].Select(rings => rings
            .Select(ring => new Outline<ItemSpace>([.. ring.Select(corner => new Point<ItemSpace>(corner.Item1, corner.Item2))], Closed: true)).ToArray());

    [Theory]
    [InlineData(FillRule.NonZero)]
    [InlineData(FillRule.EvenOdd)]
    public void Every_place_is_inside_as_the_rule_says_on_coarse_grids_where_sides_lie_on_each_other(FillRule rule) =>
        Scribbles.Sample(outlines => Holds(outlines, rule), iter: 200);

    [Theory]
    [InlineData(FillRule.NonZero)]
    [InlineData(FillRule.EvenOdd)]
    public void Every_place_is_inside_as_the_rule_says_in_fine_scribbles(FillRule rule) =>
        FineScribbles.Sample(outlines => Holds(outlines, rule), iter: 50);

    [Fact]
    public void A_five_pointed_star_is_whole_by_one_rule_and_open_in_the_middle_by_the_other()
    {
        var corners = Enumerable.Range(0, 5).Select(index => new Point<ItemSpace>(0, 0).Polar(10, 90 + (144 * index))).ToImmutableArray();
        var nonZero = Region([new(corners, true)], FillRule.NonZero)!;
        var evenOdd = Region([new(corners, true)], FillRule.EvenOdd)!;

        // Textbook areas of the pentagram with circumradius R: 1.12257 R2 in all; its middle is a pentagon of circumradius R / phi2, 0.34690 R2.
        Assert.Equal(112.257, nonZero.AreaMm2, 0.01);
        Assert.Equal(112.257 - 34.690, evenOdd.AreaMm2, 0.01);
        Assert.Equal(5, evenOdd.Pieces.Length);
    }

    [Fact]
    public void Opposite_turns_leave_a_hole_and_like_turns_do_not()
    {
        Outline<ItemSpace> outer = new([new(0, 0), new(10, 0), new(10, 10), new(0, 10)], true);
        Outline<ItemSpace> like = new([new(2, 2), new(8, 2), new(8, 8), new(2, 8)], true);
        var against = like with { Points = [.. like.Points.Reverse()] };
        Assert.Equal(100, Region([outer, like], FillRule.NonZero)!.AreaMm2, 1e-6);
        Assert.Equal(64, Region([outer, against], FillRule.NonZero)!.AreaMm2, 1e-6);
        Assert.Equal(64, Region([outer, like], FillRule.EvenOdd)!.AreaMm2, 1e-6);
    }

    [Fact]
    public void Too_many_crossings_are_refused_and_what_was_looked_at_is_counted()
    {
        Outline<ItemSpace> comb = new([.. Enumerable.Range(0, 400).Select(index => new Point<ItemSpace>(index % 2 == 0 ? 0 : 100, index * 37 % 400))], true);
        long left = 1_000;
        Assert.Null(Region<ItemSpace>.FromWindings([comb], FillRule.NonZero, ref left));
        left = 1_000_000;
        Assert.NotNull(Region<ItemSpace>.FromWindings([comb], FillRule.NonZero, ref left));
        Assert.InRange(left, 0, 999_000);
    }

    private static Region<ItemSpace>? Region(Outline<ItemSpace>[] outlines, FillRule rule)
    {
        var left = long.MaxValue;
        return Region<ItemSpace>.FromWindings(outlines, rule, ref left);
    }

    private static bool Holds(Outline<ItemSpace>[] outlines, FillRule rule)
    {
        var region = Region(outlines, rule)!;
        for (var x = 0.237; x < 12; x += 1.13)
        {
            for (var y = 0.411; y < 12; y += 1.09)
            {
                var place = new Point<ItemSpace>(x, y);

                // Borders may move by a step of the grid.
                if (outlines.Any(outline => DistanceMm(outline, place) < 3e-4))
                {
                    continue;
                }

                var turns = outlines.Sum(outline => Turns(outline, place));
                if (region.Contains(place) != (rule == FillRule.NonZero ? turns != 0 : turns % 2 != 0))
                {
                    return false;
                }
            }
        }

        // Pieces do not lie over each other, and holes lie in their pieces.
        return System.Math.Abs(region.AreaMm2 - region.Borders().Sum(border => border.SignedAreaMm2)) < 1e-6
            && System.Math.Abs(Region<ItemSpace>.Union(region.Pieces).AreaMm2 - region.AreaMm2) < 1e-6;
    }

    /// <summary>Crossings of a ray to the right, upwards ones counted against downwards ones.</summary>
    private static int Turns(Outline<ItemSpace> outline, Point<ItemSpace> place)
    {
        var turns = 0;
        for (var index = 0; index < outline.Points.Length; index++)
        {
            var (from, to) = (outline.Points[index], outline.Points[(index + 1) % outline.Points.Length]);
            if (from.YMm <= place.YMm != to.YMm <= place.YMm
                && from.XMm + ((place.YMm - from.YMm) / (to.YMm - from.YMm) * (to.XMm - from.XMm)) > place.XMm)
            {
                turns += to.YMm > from.YMm ? 1 : -1;
            }
        }

        return turns;
    }

    private static double DistanceMm(Outline<ItemSpace> outline, Point<ItemSpace> place)
    {
        var nearest = double.PositiveInfinity;
        for (var index = 0; index < outline.Points.Length; index++)
        {
            var (from, to) = (outline.Points[index], outline.Points[(index + 1) % outline.Points.Length]);
            var (side, way) = (to - from, place - from);
            var length = (side.DxMm * side.DxMm) + (side.DyMm * side.DyMm);
            var share = length == 0 ? 0 : System.Math.Clamp(((way.DxMm * side.DxMm) + (way.DyMm * side.DyMm)) / length, 0, 1);
            nearest = System.Math.Min(nearest, place.DistanceMm(from + (share * side)));
        }

        return nearest;
    }
}
