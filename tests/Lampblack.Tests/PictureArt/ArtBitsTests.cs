using System;
using System.Linq;
using Lampblack.PictureArt;
using Xunit;

namespace Lampblack.Tests.PictureArt;

public sealed class ArtBitsTests
{
    [Theory]
    [InlineData(250, 600)]
    [InlineData(599, 600)]
    [InlineData(600, 600)]
    [InlineData(890, 600)]
    [InlineData(905, 1200)]
    [InlineData(1200, 1200)]
    [InlineData(2400, 1200)]
    public void The_resolution_follows_the_picture(double ownDpi, double dpi)
    {
        var widthMm = 240 / ownDpi * 25.4;
        var bits = ArtBits.Of(Edge(240, 100.5, 0), widthMm).Value;
        Assert.Equal(dpi, bits.ResolutionDpi);
        Assert.Equal(Math.Round(240 / ownDpi * dpi, MidpointRounding.AwayFromZero), bits.Openings.WidthDots);
        Assert.Equal(widthMm, bits.MmPerDot * bits.Openings.WidthDots, 9);
    }

    [Fact]
    public void At_its_own_resolution_no_dot_changes()
    {
        using var art = Drawn.Panel(SkiaSharp.SKColors.Black, SkiaSharp.SKColors.White);
        var (found, _) = Drawn.Find(art.Png());
        var bits = ArtBits.Of(found, Drawn.Width / 600.0 * 25.4);
        Assert.Same(found.Openings, bits.Value.Openings);
        Assert.Empty(bits.Findings);
    }

    [Theory]
    [InlineData(150)]
    [InlineData(300)]
    [InlineData(450)]
    [InlineData(700)]
    [InlineData(1000)]
    [InlineData(2000)]
    public void An_edge_comes_out_where_it_was_drawn_to_a_tenth_of_a_dot(double ownDpi)
    {
        for (var part = 0; part < 10; part++)
        {
            var place = 100 + (part / 10.0);
            foreach (var slope in new[] { 0, 0.1, 0.37 })
            {
                var bits = ArtBits.Of(Edge(240, place, slope), 240 / ownDpi * 25.4).Value;
                var scale = (double)bits.Openings.WidthDots / 240;
                for (var row = (int)(40 * scale); row < 160 * scale; row += 7)
                {
                    var first = Enumerable.Range(0, bits.Openings.WidthDots).First(column => bits.Openings[column, row]);
                    var drawn = place + (slope * (((row + 0.5) / scale) - 100)); // in dots of the picture

                    // Half a new dot is what any grid does; the tenth is of the picture's dots.
                    Assert.InRange((first / scale) - drawn, (-0.5 / scale) - 0.1, (0.5 / scale) + 0.1);
                }
            }
        }
    }

    [Fact]
    public void Coarse_pictures_are_smoothed_and_said()
    {
        var found = Edge(240, 100.5, 0.2);
        Assert.Equal(["art-upscaled"], ArtBits.Of(found, 240 / 300.0 * 25.4).Findings.Codes());
        Assert.Equal(["art-coarse"], ArtBits.Of(found, 240 / 149.0 * 25.4).Findings.Codes());
        Assert.Empty(ArtBits.Of(found, 240 / 599.0 * 25.4).Findings);
        Assert.Throws<ArgumentOutOfRangeException>(() => ArtBits.Of(found, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => ArtBits.Of(found, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => ArtBits.Of(found, 5000));
    }

    [Fact]
    public void A_checker_of_single_dots_stays_one_when_it_is_made_four_times_finer()
    {
        var found = Drawn.Find(new PngBytes(64, 64, 0, 8, (x, y) => [(x / 4 + y / 4) % 2 * 255]).Write()).Found;
        var bits = ArtBits.Of(found, 64 / 150.0 * 25.4).Value.Openings;
        for (var index = 0; index < 256 * 256; index++)
        {
            var (x, y) = (index % 256, index / 256);
            if (x % 16 is > 2 and < 13 && y % 16 is > 2 and < 13)
            {
                Assert.Equal((x / 16 + y / 16) % 2 == 1, bits[x, y]);
            }
        }
    }

    /// <summary>Black left of a straight edge and white right of it, mixed by the covered share of each dot (worked out in 32 x 32 parts).</summary>
    private static FoundField Edge(int size, double place, double slope)
    {
        var png = new PngBytes(size, 200, 0, 8, (x, y) =>
        {
            var covered = 0.0;
            for (var part = 0; part < 32; part++)
            {
                covered += Math.Clamp(x + 1 - (place + (slope * (y + ((part + 0.5) / 32) - 100))), 0, 1);
            }

            return [(int)Math.Round(covered / 32 * 255, MidpointRounding.AwayFromZero)];
        });
        return Drawn.Find(png.Write()).Found;
    }
}
