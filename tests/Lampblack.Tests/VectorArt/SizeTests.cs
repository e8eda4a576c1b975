using System;
using System.Linq;
using Lampblack.VectorArt;
using Xunit;

namespace Lampblack.Tests.VectorArt;

/// <summary>How large a drawing is, and where things lie in it. Truth: CSS units, and SVG 1.1, 7.7 to 7.10.</summary>
public sealed class SizeTests
{
    [Theory]
    [InlineData("100mm", 100)]
    [InlineData("12.5cm", 125)]
    [InlineData("2in", 50.8)]
    [InlineData("72pt", 25.4)]
    [InlineData("6pc", 25.4)]
    [InlineData("96px", 25.4)]
    [InlineData("96", 25.4)]
    [InlineData(" 400Q ", 100)]
    [InlineData("10em", 16 * 10 * 25.4 / 96)]
    public void A_stated_size_is_exact(string width, double mm)
    {
        var read = Svg.Read(Svg.File($"width=\"{width}\" height=\"50mm\"", "<rect width=\"1\" height=\"1\"/>"));
        Assert.Empty(read.Findings);
        Assert.Equal(mm, read.Value!.WidthMm, 1e-9);
        Assert.Equal(50, read.Value.HeightMm, 1e-9);
        Assert.True(read.Value.SizeIsStated);
    }

    [Theory]
    [InlineData("width=\"40mm\" height=\"30mm\"", "<rect width=\"1\" height=\"1\"/>")]
    [InlineData("viewBox=\"0 0 48 24\"", "<rect width=\"1\" height=\"1\"/>")]
    [InlineData("width=\"40mm\" viewBox=\"0 0 48 24\"", "<rect width=\"1\" height=\"1\"/>")]
    [InlineData("", "<rect x=\"3\" y=\"4\" width=\"20\" height=\"10\"/>")]
    [InlineData("width=\"40mm\" height=\"30mm\"", "<style>svg { width: 55mm }</style><rect width=\"1\" height=\"1\"/>")]
    public void The_size_alone_is_the_size_of_the_drawing(string attributes, string content)
    {
        var file = Svg.File(attributes, content);
        var drawing = Svg.Read(file).Value!;
        var size = SvgReader.Size(System.Text.Encoding.UTF8.GetBytes(file), "drawing.svg")!.Value;
        Assert.Equal((drawing.WidthMm, drawing.HeightMm, drawing.StatedWidthMm), size);
    }

    [Theory]
    [InlineData("viewBox=\"0 0 48 24\"", 48, 24)]
    [InlineData("viewBox=\"0 0 48 24\" width=\"100%\" height=\"100%\"", 48, 24)]
    [InlineData("", 20, 10)] // as large as what it shows
    public void A_size_that_is_not_stated_is_taken_and_told(string attributes, double widthPx, double heightPx)
    {
        var read = Svg.Read(Svg.File(attributes, "<rect x=\"3\" y=\"4\" width=\"20\" height=\"10\"/>"));
        Assert.Equal("svg-size-unstated", Assert.Single(read.Findings).Code);
        Assert.Equal(widthPx * 25.4 / 96, read.Value!.WidthMm, 1e-3);
        Assert.Equal(heightPx * 25.4 / 96, read.Value.HeightMm, 1e-3);
        Assert.False(read.Value.SizeIsStated);
        Assert.Equal(200 * Math.Pow(25.4 / 96, 2), ((DrawnShape)read.Value.Items[0]).Shape.AreaMm2, 0.01);
    }

    [Fact]
    public void One_size_and_a_viewBox_make_the_other()
    {
        var read = Svg.Read(Svg.File("width=\"60mm\" viewBox=\"0 0 30 20\"", "<rect width=\"30\" height=\"20\"/>"));
        Assert.Equal((60.0, 40.0), (read.Value!.WidthMm, read.Value.HeightMm));
        Assert.Empty(read.Findings);
    }

    [Fact]
    public void A_wished_width_scales_the_drawing_and_follows_curves_for_it()
    {
        var small = Svg.Read(Svg.File("viewBox=\"0 0 24 24\"", "<circle cx=\"12\" cy=\"12\" r=\"12\"/>"), new(WidthMm: 240));
        Assert.Empty(small.Findings);
        var circle = ((DrawnShape)small.Value!.Items[0]).Shape;
        Assert.InRange((Math.PI * 120 * 120) - circle.AreaMm2, 0, 2 * Math.PI * 120 * 2e-3);
    }

    [Theory]
    [InlineData("", 25, 0, 75, 100)] // a square window in the middle of a page twice as wide... scaled to its height
    [InlineData("xMinYMid", 0, 0, 50, 100)]
    [InlineData("xMaxYMax meet", 50, 0, 100, 100)]
    [InlineData("none", 0, 0, 100, 100)]
    [InlineData("xMidYMin slice", 0, 0, 100, 100)]
    public void A_viewBox_is_fitted_as_asked(string aspect, double left, double bottom, double right, double top)
    {
        var read = Svg.Read(Svg.File($"width=\"100mm\" height=\"100mm\" viewBox=\"0 0 10 20\" preserveAspectRatio=\"{aspect}\"", "<rect width=\"10\" height=\"20\"/>"));
        Svg.Lies(((DrawnShape)read.Value!.Items[0]).Shape, left, bottom, right, top);
    }

    [Fact]
    public void The_origin_is_the_lower_left_corner_and_y_points_up() =>
        Svg.Lies(Svg.Shape("<rect x=\"10\" y=\"5\" width=\"20\" height=\"30\"/>"), 10, 65, 30, 95);

    [Fact]
    public void Percentages_refer_to_the_viewport_and_lengths_to_the_units() =>
        Svg.Lies(Svg.Shape("<svg x=\"10\" y=\"10\" width=\"40\" height=\"80\"><rect x=\"25%\" y=\"10%\" width=\"50%\" height=\"2em\"/></svg>"), 20, 50, 40, 82);

    [Fact]
    public void What_reaches_over_the_page_or_a_nested_view_is_cut_off()
    {
        Svg.Lies(Svg.Shape("<rect x=\"-50\" y=\"90\" width=\"300\" height=\"300\"/>"), 0, 0, 100, 10);
        Svg.Lies(Svg.Shape("<svg x=\"10\" y=\"10\" width=\"20\" height=\"20\"><circle r=\"15\"/></svg>"), 10, 75, 25, 90);
        Svg.Lies(Svg.Shape("<svg x=\"20\" y=\"20\" width=\"20\" height=\"20\" overflow=\"visible\"><circle r=\"15\"/></svg>"), 5, 65, 35, 95);
        Svg.Lies(Svg.Shape("<symbol id=\"s\"><circle r=\"15\"/></symbol><use href=\"#s\" x=\"10\" y=\"10\" width=\"20\" height=\"20\"/>"), 10, 75, 25, 90);
    }

    [Theory]
    [InlineData("translate(10,20)", 10, 20)]
    [InlineData("matrix(1 0 0 1 10 20)", 10, 20)]
    [InlineData("rotate(90) translate(20 -10) rotate(-90)", 10, 20)]
    [InlineData("rotate(180 10 15) translate(5 5) rotate(-180)", 15, 25)]
    [InlineData("skewX(45) translate(-10 20)", 10, 20)]
    [InlineData("skewY(45) translate(10 10)", 10, 20)]
    [InlineData("scale(2) translate(5 10) scale(.5)", 10, 20)]
    public void Transforms_apply_from_the_last_to_the_first(string transform, double x, double y)
    {
        var shape = Svg.Shape($"<g transform=\"{transform}\"><rect width=\"1e-1\" height=\"1e-1\"/></g>");
        Assert.Equal(x, shape.Bounds.LeftMm, 0.15);
        Assert.Equal(100 - y, shape.Bounds.TopMm, 0.15);
        Assert.Equal(0.01, shape.AreaMm2, 1e-5);
    }

    [Fact]
    public void A_transform_that_can_not_be_read_is_told()
    {
        var read = Svg.Read(Svg.Page("<rect width=\"5\" height=\"5\" transform=\"wobble(3)\"/>"));
        Assert.Equal("svg-value", Assert.Single(read.Findings).Code);
        Assert.Equal(25, ((DrawnShape)read.Value!.Items.Single()).Shape.AreaMm2, 1e-6);
    }
}
