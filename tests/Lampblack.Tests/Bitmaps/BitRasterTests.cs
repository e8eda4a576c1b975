using System;
using System.Linq;
using Lampblack.Bitmaps;
using Xunit;

namespace Lampblack.Tests.Bitmaps;

public sealed class BitRasterTests
{
    [Theory]
    [InlineData(1, 1)]
    [InlineData(63, 3)]
    [InlineData(64, 3)]
    [InlineData(65, 3)]
    [InlineData(511, 2)]
    [InlineData(512, 2)]
    [InlineData(513, 2)]
    public void Dots_are_read_as_they_were_set_and_joined_one_by_one(int width, int height)
    {
        var random = new Random(width);
        var (first, second) = (Grid.Random(random, width, height, 0.5), Grid.Random(random, width, height, 0.5));
        var (one, other) = (Grid.Pack(first), Grid.Pack(second));
        Assert.Equal(Grid.Lines(first), Grid.Lines(one));
        Assert.Equal(first.Cast<bool>().LongCount(dot => dot), one.Count());
        Check((a, b) => a && b, one.And(other));
        Check((a, b) => a || b, one.Or(other));
        Check((a, b) => a && !b, one.Except(other));
        Check((a, _) => !a, one.Complement());
        Assert.Equal((long)width * height, one.Complement().Count() + one.Count());

        void Check(Func<bool, bool, bool> rule, BitRaster found)
        {
            for (var x = 0; x < width; x++)
            {
                for (var y = 0; y < height; y++)
                {
                    Assert.Equal(rule(first[x, y], second[x, y]), found[x, y]);
                }
            }
        }
    }

    [Fact]
    public void A_part_may_reach_beyond_the_edges_where_all_is_clear()
    {
        var random = new Random(7);
        var dots = Grid.Random(random, 150, 9, 0.5);
        var raster = Grid.Pack(dots);
        for (var round = 0; round < 200; round++)
        {
            var (left, top, width, height) = (random.Next(-200, 200), random.Next(-12, 12), random.Next(1, 200), random.Next(1, 14));
            var part = raster.Crop(left, top, width, height);
            for (var x = 0; x < width; x++)
            {
                for (var y = 0; y < height; y++)
                {
                    var (column, row) = (x + left, y + top);
                    Assert.Equal(column >= 0 && row >= 0 && column < 150 && row < 9 && dots[column, row], part[x, y]);
                }
            }
        }
    }

    [Fact]
    public void Runs_are_set_from_the_first_dot_up_to_the_last()
    {
        for (var start = 0; start <= 200; start += 7)
        {
            for (var end = start; end <= 200; end++)
            {
                var builder = new BitRasterBuilder(200, 2);
                builder.SetRun(1, start, end);
                Assert.Equal([new string('.', 200), new string('.', start) + new string('#', end - start) + new string('.', 200 - end)], Grid.Lines(builder.ToRaster()));
            }
        }
    }

    [Fact]
    public void What_is_written_beyond_the_width_does_not_count()
    {
        var builder = new BitRasterBuilder(70, 2);
        builder.Row(0).Fill(ulong.MaxValue);
        var raster = builder.ToRaster();
        Assert.Equal(70, raster.Count());
        Assert.Equal(63UL, raster.Row(0)[1]);
        Assert.Equal(raster, Grid.Pack(Grid.Of(new string('#', 70), new string('.', 70))));
        Assert.NotEqual(raster, raster.Complement());
        Assert.Equal(raster.GetHashCode(), raster.Complement().Complement().GetHashCode());
    }

    [Fact]
    public void A_finished_picture_can_not_be_changed()
    {
        var builder = new BitRasterBuilder(5, 5);
        _ = builder.ToRaster();
        Assert.Throws<InvalidOperationException>(() => builder.Row(0).Clear());
        Assert.Throws<InvalidOperationException>(builder.ToRaster);
    }

    [Fact]
    public void Sizes_and_places_that_are_none_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => BitRaster.Clear(0, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => BitRaster.Clear(1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => BitRaster.Clear(int.MaxValue, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => BitRaster.Clear(1_000_000, 1_000_000));
        Assert.Throws<ArgumentOutOfRangeException>(() => BitRaster.Clear(5, 5)[5, 0]);
        Assert.Throws<ArgumentOutOfRangeException>(() => BitRaster.Clear(5, 5)[0, 5]);
        Assert.Throws<ArgumentOutOfRangeException>(() => new BitRasterBuilder(5, 5).SetRun(0, 0, 6));
        Assert.Throws<ArgumentException>(() => BitRaster.Clear(5, 5).And(BitRaster.Clear(5, 6)));
    }
}
