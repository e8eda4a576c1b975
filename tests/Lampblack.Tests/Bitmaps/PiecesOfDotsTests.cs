using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Bitmaps;
using Xunit;

namespace Lampblack.Tests.Bitmaps;

public sealed class PiecesOfDotsTests
{
    [Theory]
    [InlineData(0.05)]
    [InlineData(0.3)]
    [InlineData(0.45)]
    [InlineData(0.7)]
    [InlineData(0.95)]
    public void Specks_and_holes_are_those_found_by_filling_from_each_dot(double share)
    {
        var random = new Random((int)(share * 100));
        for (var round = 0; round < 60; round++)
        {
            var dots = Grid.Random(random, random.Next(1, 140), random.Next(1, 40), share);
            foreach (var smallest in (int[])[0, 1, 2, 5, 30, 10_000])
            {
                Check(dots, smallest, Grid.Pack(dots).WithoutSpecks(smallest), set: true);
                Check(dots, smallest, Grid.Pack(dots).WithoutHoles(smallest), set: false);
            }
        }
    }

    [Fact]
    public void Holes_that_no_disc_fits_into_are_filled_and_others_stay()
    {
        // A block of three by three holds a disc of three dots; a ring around one dot, as large, does not. What reaches the edge is no hole.
        var dots = Grid.Pack(Grid.Of("##########.", "#...#...##.", "#...#.#.##.", "#...#...##.", "###########"));
        var filled = Grid.Pack(Grid.Of("##########.", "#...######.", "#...######.", "#...######.", "###########"));
        Assert.Equal(filled, dots.WithoutThinHoles(3, 100));
        Assert.Equal(dots, dots.WithoutThinHoles(3, 7));
        Assert.Equal(filled, filled.WithoutThinHoles(3, 100));
    }

    [Fact]
    public void A_spiral_a_comb_and_a_u_are_one_piece_each()
    {
        Check(["#.#.#", "#.#.#", "#####", ".....", "#...#", "#...#", "#####"], 9, 11);
        Check(["#####", "#....", "#.###", "#...#", "#####"], 17);
        Check(["#...#", ".#.#.", "..#.."], 5);

        static void Check(string[] rows, params long[] sizes)
        {
            var raster = Grid.Pack(Grid.Of(rows));
            foreach (var size in sizes.Distinct())
            {
                Assert.Equal(sizes.Count(other => other < size), raster.WithoutSpecks(size).Pieces);
                Assert.Equal(sizes.Count(other => other <= size), raster.WithoutSpecks(size + 1).Pieces);
            }
        }
    }

    /// <summary>Half of all dots set, none hanging together over sides: the most runs that a picture can have.</summary>
    [Fact]
    public void A_large_checkerboard_is_one_piece_and_takes_little_memory()
    {
        var builder = new BitRasterBuilder(9921, 4000);
        for (var row = 0; row < 4000; row++)
        {
            builder.Row(row).Fill(row % 2 == 0 ? 0x5555555555555555 : 0xAAAAAAAAAAAAAAAA);
        }

        var board = builder.ToRaster();
        var before = GC.GetAllocatedBytesForCurrentThread();
        var cleaned = board.WithoutSpecks(1000);
        Assert.Equal((0, board), (cleaned.Pieces, cleaned.Raster));
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 40_000_000);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(8)]
    public void Opening_keeps_what_a_disc_inside_reaches(int diameter)
    {
        var random = new Random(diameter);
        for (var round = 0; round < 25; round++)
        {
            var dots = Grid.Random(random, random.Next(1, 90), random.Next(1, 24), 0.97);
            Assert.Equal(Grid.Lines(Opened(dots, diameter, beyond: false)), Grid.Lines(Grid.Pack(dots).Open(diameter, BeyondEdge.Clear)));
            Assert.Equal(Grid.Lines(Opened(dots, diameter, beyond: true)), Grid.Lines(Grid.Pack(dots).Open(diameter, BeyondEdge.Set)));
        }
    }

    [Theory]
    [InlineData(3, 3, true)]
    [InlineData(3, 4, false)]
    [InlineData(4, 4, true)]
    [InlineData(4, 5, false)]
    [InlineData(7, 7, true)]
    [InlineData(7, 8, false)]
    public void A_stroke_as_wide_as_the_disc_stays_and_one_a_dot_narrower_goes(int width, int diameter, bool stays)
    {
        var builder = new BitRasterBuilder(200, 60);
        for (var row = 20; row < 20 + width; row++)
        {
            builder.SetRun(row, 10, 150);
        }

        var thin = builder.ToRaster().Thinner(diameter, BeyondEdge.Clear);
        Assert.Equal(140L * width, thin.AllDots);
        if (stays)
        {
            // Only the four corners are rounded.
            Assert.InRange(thin.Dots, 0, 4 * diameter);
        }
        else
        {
            Assert.Equal([new(new(10, 20, 140, width), 140L * width)], thin.Places);
            Assert.Equal(1, thin.LostShare);
        }
    }

    [Fact]
    public void Thin_places_are_named_the_largest_first()
    {
        var builder = new BitRasterBuilder(300, 100);
        builder.SetRun(5, 0, 20);
        builder.SetRun(15, 100, 150);
        builder.SetRun(25, 200, 230);
        var thin = builder.ToRaster().Thinner(2, BeyondEdge.Clear, most: 2);
        Assert.Equal([new(new(100, 15, 50, 1), 50), new(new(200, 25, 30, 1), 30)], thin.Places);
        Assert.Equal(100, thin.Dots);
        Assert.Equal(0, BitRaster.Clear(9, 9).Thinner(3, BeyondEdge.Set).LostShare);
    }

    /// <summary>The union of all discs, even ones around corners of dots, that hold no clear dot.</summary>
    private static bool[,] Opened(bool[,] dots, int diameter, bool beyond)
    {
        var (width, height) = (dots.GetLength(0), dots.GetLength(1));
        var opened = new bool[width, height];
        for (var left = -diameter; left <= width; left++)
        {
            for (var top = -diameter; top <= height; top++)
            {
                var disc = (from x in Enumerable.Range(0, diameter)
                            from y in Enumerable.Range(0, diameter)
                            where Square((2 * x) - diameter + 1) + Square((2 * y) - diameter + 1) <= Square(diameter)
                            select (X: left + x, Y: top + y)).ToList();
                if (disc.All(dot => Inside(dot.X, dot.Y) ? dots[dot.X, dot.Y] : beyond))
                {
                    disc.Where(dot => Inside(dot.X, dot.Y)).ToList().ForEach(dot => opened[dot.X, dot.Y] = true);
                }
            }
        }

        return opened;
        bool Inside(int x, int y) => x >= 0 && y >= 0 && x < width && y < height;
        static int Square(int number) => number * number;
    }

    private static void Check(bool[,] dots, int smallest, Despeckled found, bool set)
    {
        var expected = (bool[,])dots.Clone();
        var small = Flooded(dots, set).Where(piece => piece.Count < smallest).ToList();
        small.ForEach(piece => piece.ForEach(dot => expected[dot.X, dot.Y] = !set));
        Assert.Equal(Grid.Lines(expected), Grid.Lines(found.Raster));
        Assert.Equal((small.Count, small.Sum(piece => piece.Count)), (found.Pieces, found.Dots));
    }

    private static List<List<(int X, int Y)>> Flooded(bool[,] dots, bool set)
    {
        var seen = new HashSet<(int X, int Y)>();
        var pieces = new List<List<(int X, int Y)>>();
        for (var x = 0; x < dots.GetLength(0); x++)
        {
            for (var y = 0; y < dots.GetLength(1); y++)
            {
                if (dots[x, y] != set || !seen.Add((x, y)))
                {
                    continue;
                }

                var piece = new List<(int X, int Y)> { (x, y) };
                for (var index = 0; index < piece.Count; index++)
                {
                    piece.AddRange(
                        from column in Enumerable.Range(piece[index].X - 1, 3)
                        from row in Enumerable.Range(piece[index].Y - 1, 3)
                        where column >= 0 && row >= 0 && column < dots.GetLength(0) && row < dots.GetLength(1) && dots[column, row] == set && seen.Add((column, row))
                        select (column, row));
                }

                pieces.Add(piece);
            }
        }

        return pieces;
    }
}
