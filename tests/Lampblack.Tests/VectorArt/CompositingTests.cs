using System;
using System.Linq;
using Lampblack.VectorArt;
using Xunit;

namespace Lampblack.Tests.VectorArt;

/// <summary>Opacity, clips, masks, gradients, pictures. Truth: Porter and Duff's "over", and the dots that a few sums give.</summary>
public sealed class CompositingTests
{
    [Fact]
    public void Over_mixes_codes_by_opacity()
    {
        Assert.Equal(new DrawnColour(128, 0, 128, 1), new DrawnColour(255, 0, 0, 0.5).Over(new(0, 0, 255, 1)));

        // Two halves hide three quarters; the upper counts twice as much as the lower.
        var both = new DrawnColour(255, 0, 0, 0.5).Over(new(0, 0, 255, 0.5));
        Assert.Equal((170, 85, 0.75), (both.Red, both.Blue, both.OpacityShare));
    }

    [Fact]
    public void A_see_through_group_shows_no_seams_where_its_parts_overlap()
    {
        var shapes = Svg.Shapes("<g opacity=\".5\"><rect width=\"20\" height=\"20\" fill=\"red\"/><rect x=\"10\" width=\"20\" height=\"20\" fill=\"blue\"/></g>");
        Assert.Equal([200.0, 400.0], shapes.Select(shape => shape.Shape.AreaMm2));
        Assert.All(shapes, shape => Assert.Equal(0.5, shape.Colour.OpacityShare));
        Assert.True(shapes[0].Shape.Intersect(shapes[1].Shape).IsEmpty);
    }

    [Fact]
    public void Parts_of_a_see_through_group_that_are_see_through_themselves_are_mixed_first()
    {
        var shapes = Svg.Shapes("<g opacity=\".5\"><rect width=\"20\" height=\"20\" fill=\"#00f\"/><rect x=\"10\" width=\"20\" height=\"20\" fill=\"#f00\" fill-opacity=\".5\"/></g>");
        Assert.Equal(3, shapes.Length);
        Assert.Contains(shapes, shape => shape.Colour == new DrawnColour(128, 0, 128, 0.5) && Math.Abs(shape.Shape.AreaMm2 - 200) < 1e-6);
        Assert.Contains(shapes, shape => shape.Colour == new DrawnColour(255, 0, 0, 0.25) && Math.Abs(shape.Shape.AreaMm2 - 200) < 1e-6);
    }

    [Fact]
    public void A_clip_path_may_be_clipped_itself_and_counts_its_own_rule()
    {
        var shape = Svg.Shape("""
            <clipPath id="a"><rect width="50" height="100"/></clipPath>
            <clipPath id="b" clip-path="url(#a)"><path clip-rule="evenodd" d="M30 30h40v40h-40zM40 40h20v20h-20z"/></clipPath>
            <rect width="100" height="100" clip-path="url(#b)"/>
            """);
        Assert.Equal(20 * 40 - (10 * 20), shape.AreaMm2, 1e-3);
    }

    [Fact]
    public void A_clip_path_of_text_clips_to_the_letters()
    {
        var text = Svg.Shape("<text x=\"10\" y=\"60\" font-size=\"30\" font-family=\"Overpass\">ON</text>");
        var clipped = Svg.Shape("<clipPath id=\"c\"><text x=\"10\" y=\"60\" font-size=\"30\" font-family=\"Overpass\">ON</text></clipPath><rect width=\"100\" height=\"100\" clip-path=\"url(#c)\"/>");
        Assert.Equal(text.AreaMm2, clipped.AreaMm2, 1e-6);
    }

    [Fact]
    public void A_gradient_becomes_dots_of_1200_dpi_within_an_edge_that_stays_vector()
    {
        var read = Svg.Read(Svg.Page("<linearGradient id=\"g\"><stop stop-color=\"#000\"/><stop offset=\"1\" stop-color=\"#fff\"/></linearGradient><circle id=\"c\" cx=\"30\" cy=\"30\" r=\"10\" fill=\"url(#g)\"/>"));
        var note = Assert.Single(read.Findings);
        Assert.Equal("svg-dots", note.Code);
        Assert.Contains("<circle id=\"c\"> has a gradient", note.Message, StringComparison.Ordinal);
        var picture = Assert.IsType<DrawnPicture>(Assert.Single(read.Value!.Items));
        Assert.Equal((945, 945), (picture.WidthPx, picture.HeightPx)); // 20 mm at 1200 dpi: 944.9
        Assert.Equal(Math.PI * 100, picture.Shape.AreaMm2, 0.1);

        // Half way it is half: the code is the share, as SVG mixes codes.
        for (var column = 0; column < picture.WidthPx; column += 50)
        {
            Assert.Equal((column + 0.5) / 944.88 * 255, Dot(picture, column, 400).Red, 1.5);
        }

        Assert.Equal(255, Dot(picture, 0, 0).Opacity);
    }

    [Fact]
    public void A_gradient_of_one_colour_stays_an_area() => Assert.Equal(
        new DrawnColour(10, 20, 30, 0.5),
        Svg.Shapes("<linearGradient id=\"g\"><stop stop-color=\"#0a141e\"/><stop offset=\"1\" stop-color=\"#0a141e\"/></linearGradient><rect width=\"9\" height=\"9\" fill=\"url(#g)\" fill-opacity=\".5\"/>")[0].Colour);

    [Fact]
    public void Large_pictures_are_made_coarser_to_stay_within_their_room_and_say_so()
    {
        const string gradient = "<linearGradient id=\"g\"><stop stop-color=\"#000\"/><stop offset=\"1\" stop-color=\"#fff\"/></linearGradient>";
        var read = Svg.Read(Svg.File("width=\"1000mm\" height=\"900mm\"", gradient + "<rect width=\"100%\" height=\"100%\" fill=\"url(#g)\"/><rect width=\"100%\" height=\"100%\" fill=\"url(#g)\"/>"));
        Assert.Equal(2, read.Value!.Items.Length);
        Assert.All(read.Value.Items, item => Assert.InRange((long)((DrawnPicture)item).WidthPx * ((DrawnPicture)item).HeightPx, 29_000_000, 30_000_000));
        Assert.Equal(["svg-dots", "svg-dots"], read.Findings.Select(finding => finding.Code));
        Assert.All(read.Findings, finding => Assert.Contains("instead of 1200", finding.Message, StringComparison.Ordinal));
    }

    [Fact]
    public void An_embedded_picture_keeps_its_dots_and_its_place()
    {
        // Four by two dots; 40 mm wide they are squares of 10 mm.
        var source = FeatureDrawings.All["picture"];
        var start = source.IndexOf("data:", StringComparison.Ordinal);
        var data = source[start..source.IndexOf('"', start)];
        var read = Svg.Read(Svg.Page($"<image x=\"20\" y=\"10\" width=\"40\" height=\"20\" style=\"image-rendering:pixelated\" href=\"{data}\"/>"));
        var picture = Assert.IsType<DrawnPicture>(Assert.Single(read.Value!.Items));
        Svg.Lies(picture.Shape, 20, 70, 60, 90);
        (byte, byte, byte)[] codes = [(200, 0, 0), (0, 200, 0), (0, 0, 200), (0, 0, 0), (250, 220, 0), (0, 180, 180), (180, 0, 180), (90, 90, 90)];
        for (var index = 0; index < codes.Length; index++)
        {
            var dot = Dot(picture, (int)(((index % 4) + 0.5) / 4 * picture.WidthPx), (int)(((index / 4) + 0.5) / 2 * picture.HeightPx));
            Assert.Equal(codes[index], (dot.Red, dot.Green, dot.Blue));
        }
    }

    [Fact]
    public void A_mask_shows_by_lightness_and_hides_outside()
    {
        var read = Svg.Read(Svg.Page("<mask id=\"m\" maskUnits=\"userSpaceOnUse\" x=\"0\" y=\"0\" width=\"100\" height=\"100\"><rect width=\"10\" height=\"20\" fill=\"#fff\"/><rect x=\"10\" width=\"5\" height=\"20\" fill=\"#0f0\"/></mask><rect width=\"20\" height=\"20\" fill=\"#f00\" mask=\"url(#m)\"/>"), new(PictureDpi: 254));
        var picture = Assert.IsType<DrawnPicture>(Assert.Single(read.Value!.Items));
        Assert.Equal((255, 255), (Dot(picture, 50, 100).Red, Dot(picture, 50, 100).Opacity));
        Assert.Equal(0.7154 * 255, Dot(picture, 125, 100).Opacity, 2.0); // luminance of green by the specification's coefficients
        Assert.Equal(0, Dot(picture, 180, 100).Opacity);
    }

    [Fact]
    public void A_thing_masked_by_nothing_is_not_seen() =>
        Assert.Single(Svg.Shapes("<mask id=\"m\"/><rect width=\"20\" height=\"20\" mask=\"url(#m)\"/><rect width=\"5\" height=\"5\"/>"));

    private static (int Red, int Green, int Blue, int Opacity) Dot(DrawnPicture picture, int column, int row)
    {
        var at = ((row * picture.WidthPx) + column) * 4;
        return (picture.Rgba[at], picture.Rgba[at + 1], picture.Rgba[at + 2], picture.Rgba[at + 3]);
    }
}
