using System.Linq;
using SkiaSharp;
using Xunit;

namespace Lampblack.Tests.PictureArt;

public sealed class ArtColoursTests
{
    [Theory]
    [InlineData(0, 0, 0)]
    [InlineData(0, 0, 90)]
    public void No_field_is_mixed_into_any_edge(byte red, byte green, byte blue)
    {
        using var art = Drawn.Panel(new(red, green, blue), new(255, 191, 0), new(220, 40, 40));
        var (found, _) = Drawn.Find(art.Png());
        var colours = found.Colours!.Rgb.Span;
        for (var index = 0; index < Drawn.Width * Drawn.Height; index++)
        {
            var dot = (colours[index * 3], colours[(index * 3) + 1], colours[(index * 3) + 2]);
            Assert.Contains(dot, new (byte, byte, byte)[] { (255, 255, 255), (255, 191, 0), (220, 40, 40) });
            if (found.Openings[index % Drawn.Width, index / Drawn.Width])
            {
                Assert.NotEqual(((byte)255, (byte)255, (byte)255), dot);
            }
        }
    }

    [Fact]
    public void Blurred_edges_take_their_colour_from_well_inside()
    {
        using var sharp = Drawn.Panel(SKColors.Black, new SKColor(255, 191, 0));
        using var art = new SKBitmap(sharp.Info);
        using (var canvas = new SKCanvas(art))
        using (var blur = SKImageFilter.CreateBlur(0.8f, 0.8f))
        using (var paint = new SKPaint { ImageFilter = blur })
        {
            canvas.Clear(SKColors.Black);
            canvas.DrawBitmap(sharp, 0, 0, SKSamplingOptions.Default, paint);
        }

        var (found, _) = Drawn.Find(art.Png());
        var (whole, dots) = (0, 0);
        for (var index = 0; index < Drawn.Width * Drawn.Height; index++)
        {
            if (found.Openings[index % Drawn.Width, index / Drawn.Width])
            {
                dots++;
                Assert.InRange(found.Colours!.Rgb.Span[index * 3], 195, 255);
                whole += found.Colours.Rgb.Span[index * 3] >= 240 ? 1 : 0;
            }
        }

        Assert.InRange(whole, 0.7 * dots, dots); // the rest are strokes of four or five dots, in which the blur leaves no whole one
    }

    [Fact]
    public void Colours_reach_a_little_under_the_field_and_no_farther()
    {
        using var art = Drawn.Panel(SKColors.Black, new SKColor(255, 191, 0));
        var (found, _) = Drawn.Find(art.Png());
        var (near, far) = (found.Openings.Grow(3), found.Openings.Grow(9));
        for (var index = 0; index < Drawn.Width * Drawn.Height; index += 3)
        {
            var (x, y) = (index % Drawn.Width, index / Drawn.Width);
            var isWhite = found.Colours!.Rgb.Span[(index * 3) + 2] == 255;
            Assert.False(near[x, y] && isWhite);
            Assert.False(!far[x, y] && !isWhite);
        }
    }

    [Fact]
    public void White_and_near_white_need_no_picture()
    {
        using var white = Drawn.Panel(SKColors.Black, SKColors.White);
        Assert.True(Drawn.Find(white.Png()).Found.IsColourless);
        Assert.True(Drawn.Find(white.Jpeg(60)).Found.IsColourless);
        using var scan = Drawn.Panel(new(25, 25, 28), new SKColor(238, 231, 214));
        Assert.True(Drawn.Find(scan.Jpeg(85)).Found.IsColourless);
        using var navy = Drawn.Panel(new(0, 0, 100), SKColors.White);
        Assert.True(Drawn.Find(navy.Png()).Found.IsColourless);
        Assert.True(Drawn.Find(navy.Jpeg(80)).Found.IsColourless);
    }

    [Fact]
    public void Near_white_becomes_bare_paper_beside_a_colour_that_stays()
    {
        using var art = Drawn.Panel(SKColors.Black, new(240, 240, 240), new(220, 40, 40));
        var (found, _) = Drawn.Find(art.Png());
        Assert.DoesNotContain((byte)240, found.Colours!.Rgb.ToArray().AsEnumerable());
    }

    [Fact]
    public void Who_wants_no_colours_gets_none()
    {
        using var art = Drawn.Panel(SKColors.Black, new SKColor(255, 191, 0));
        Assert.False(Drawn.Find(art.Png()).Found.IsColourless);
        Assert.True(Drawn.Find(art.Png(), new(KeepColours: false)).Found.IsColourless);
    }

    [Fact]
    public void A_thin_coloured_line_keeps_its_colour()
    {
        var png = new PngBytes(200, 100, 2, 8, (x, y) => y == 50 ? [255, 120, 0] : y == 70 && x > 50 ? [255, 255, 255] : [0, 0, 0]);
        var colours = Drawn.Find(png.Write()).Found.Colours!;
        Assert.Equal([255, 120, 0], colours.Rgb.Span.Slice(((50 * 200) + 100) * 3, 3).ToArray());
        Assert.Equal((10.0, 5.0), (colours.WidthMm(10), colours.HeightMm(10)));
    }
}
