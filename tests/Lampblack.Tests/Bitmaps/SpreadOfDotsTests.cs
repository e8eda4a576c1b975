using System;
using System.Collections.Generic;
using System.Linq;
using CsCheck;
using Lampblack.Bitmaps;
using Xunit;

namespace Lampblack.Tests.Bitmaps;

public sealed class SpreadOfDotsTests
{
    private static readonly Gen<(bool[,] First, bool[,] Second, double Radius)> Pairs =
        Gen.Select(Gen.Int[1, 130], Gen.Int[1, 40], Gen.Int, Gen.Double[0, 9]).Select((width, height, seed, radius) =>
        {
            var random = new Random(seed);
            return (Grid.Random(random, width, height, 0.1), Grid.Random(random, width, height, 0.3), radius);
        });

    /// <summary>Every width around the borders of words and blocks, and radii at and beside the squares' sums where the disc gains dots.</summary>
    public static TheoryData<int> Widths() => [.. Enumerable.Range(1, 130)];

    [Theory]
    [MemberData(nameof(Widths))]
    public void Grown_and_shrunk_dots_are_those_found_by_trying_all_pairs(int width)
    {
        var random = new Random(width);
        foreach (var radius in Radii(random))
        {
            var dots = Grid.Random(random, width, random.Next(1, 34), random.Next(3) switch { 0 => 0.01, 1 => 0.1, _ => 0.6 });
            var raster = Grid.Pack(dots);
            Assert.Equal(Grid.Lines(Grid.Grow(dots, radius)), Grid.Lines(raster.Grow(radius, cores: 1)));
            Assert.Equal(Grid.Lines(Grid.Shrink(dots, radius, beyond: false)), Grid.Lines(raster.Shrink(radius, BeyondEdge.Clear)));
            Assert.Equal(Grid.Lines(Grid.Shrink(dots, radius, beyond: true)), Grid.Lines(raster.Shrink(radius, BeyondEdge.Set)));
        }
    }

    [Theory]
    [InlineData(511, 70)]
    [InlineData(512, 200)]
    [InlineData(513, 131)]
    [InlineData(1100, 66)]
    public void Long_rows_and_many_bands_are_spread_alike_on_one_core_and_on_all(int width, int height)
    {
        var dots = Grid.Random(new Random(width), width, height, 0.002);
        foreach (var radius in (double[])[1.5, 12, 24, 70.3])
        {
            var grown = Grid.Pack(dots).Grow(radius, cores: 1);
            Assert.Equal(grown, Grid.Pack(dots).Grow(radius));
            Assert.Equal(Grid.Lines(Grid.Grow(dots, radius)), Grid.Lines(grown));

            // Nothing is left beyond the edges that would count.
            Assert.Equal(Grid.Pack(Grid.Grow(dots, radius)), grown);
        }
    }

    [Fact]
    public void A_dot_at_each_edge_and_corner_is_cut_off_there()
    {
        foreach (var (x, y) in new[] { (0, 0), (99, 0), (0, 49), (99, 49), (50, 0), (0, 25), (63, 49), (64, 49) })
        {
            var dots = new bool[100, 50];
            dots[x, y] = true;
            foreach (var radius in (double[])[0.99, 1, 5, 7.07, 7.08, 63, 64, 65, 129, 1000])
            {
                Assert.Equal(Grid.Lines(Grid.Grow(dots, radius)), Grid.Lines(Grid.Pack(dots).Grow(radius)));
            }
        }
    }

    /// <summary>Whole radii: Gauss's circle counts, OEIS A000328, number from memory.</summary>
    [Fact]
    public void One_dot_becomes_as_many_as_the_circle_has_lattice_points()
    {
        var dot = new bool[31, 31];
        dot[15, 15] = true;
        Assert.Equal(
            [1L, 5, 13, 29, 49, 81, 113, 149, 197, 253, 317, 377, 441],
            Enumerable.Range(0, 13).Select(radius => Grid.Pack(dot).Grow(radius).Count()));
    }

    /// <summary>The squared distances from the seeds (0, 0) and (6, 4), worked out by hand.</summary>
    [Fact]
    public void The_seven_by_five_grid_has_its_squared_distances()
    {
        int[][] squares = [[0, 1, 4, 9, 16, 17, 16], [1, 2, 5, 10, 13, 10, 9], [4, 5, 8, 13, 8, 5, 4], [9, 10, 13, 10, 5, 2, 1], [16, 17, 16, 9, 4, 1, 0]];
        var seeds = Grid.Pack(Grid.Of("#......", ".......", ".......", ".......", "......#"));
        foreach (var square in Enumerable.Range(1, 17))
        {
            // A little above the root every dot at that square is in, a little below it none is.
            var (below, above) = (Math.BitDecrement(Math.Sqrt(square)), Math.BitIncrement(Math.Sqrt(square)));
            Assert.Equal(squares.Sum(row => row.Count(found => found < square)), seeds.Grow(below).Count());
            Assert.Equal(squares.Sum(row => row.Count(found => found <= square)), seeds.Grow(above).Count());
        }
    }

    [Fact]
    public void Closing_keeps_all_dots_and_opening_adds_none() => Pairs.Sample(sample =>
    {
        var raster = Grid.Pack(sample.First);
        var closed = raster.Grow(sample.Radius).Shrink(sample.Radius, BeyondEdge.Set);
        var opened = raster.Shrink(sample.Radius, BeyondEdge.Clear).Grow(sample.Radius);
        return raster.Except(closed).Count() == 0 && opened.Except(raster).Count() == 0
            && closed.Equals(closed.Grow(sample.Radius).Shrink(sample.Radius, BeyondEdge.Set))
            && opened.Equals(opened.Shrink(sample.Radius, BeyondEdge.Clear).Grow(sample.Radius));
    }, seed: "0000Ks6FuC20", iter: 200);

    [Fact]
    public void Growing_goes_piece_by_piece_and_keeps_order() => Pairs.Sample(sample =>
    {
        var (first, second) = (Grid.Pack(sample.First), Grid.Pack(sample.Second));
        var (grown, other) = (first.Grow(sample.Radius), second.Grow(sample.Radius));
        return grown.Or(other).Equals(first.Or(second).Grow(sample.Radius))
            && first.And(second).Grow(sample.Radius).Except(grown.And(other)).Count() == 0
            && grown.Except(first.Grow(sample.Radius + 0.7)).Count() == 0;
    }, seed: "0000Ks6FuC20", iter: 200);

    /// <summary>A4 at 1200 dpi is 18 MB of dots; a thread more takes two rows more.</summary>
    [Fact]
    public void A_whole_page_is_spread_and_choked_in_little_memory()
    {
        var builder = new BitRasterBuilder(9921, 14031);
        for (var row = 0; row < 14031; row += 50)
        {
            builder.SetRun(row, row % 4000, 9000);
        }

        var page = builder.ToRaster();
        var before = GC.GetAllocatedBytesForCurrentThread();
        var grown = page.Grow(24, cores: 1);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 20_000_000);
        before = GC.GetAllocatedBytesForCurrentThread();
        var back = grown.Shrink(24, BeyondEdge.Set, cores: 1);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 60_000_000);
        Assert.Equal(0, page.Except(back).Count());
    }

    [Theory]
    [InlineData(-0.001)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_radius_is_a_number_from_0_up(double radius) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => BitRaster.Clear(3, 3).Grow(radius));

    private static IEnumerable<double> Radii(Random random)
    {
        yield return 0;
        var sum = (random.Next(9) * random.Next(9)) + Square(random.Next(1, 9)) + Square(random.Next(9));
        foreach (var square in (int[])[1, 2, Square(random.Next(1, 9)) + Square(random.Next(9)), sum])
        {
            yield return Math.BitDecrement(Math.Sqrt(square));
            yield return Math.Sqrt(square);
            yield return Math.BitIncrement(Math.Sqrt(square));
        }

        yield return random.NextDouble() * 20;
    }

    private static int Square(int number) => number * number;
}
