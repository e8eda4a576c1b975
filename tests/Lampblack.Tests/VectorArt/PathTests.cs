using System;
using Lampblack.Geometry;
using Xunit;

namespace Lampblack.Tests.VectorArt;

/// <summary>Path data. Truth: SVG 1.1, 8.3 and F.6, and the geometry of circles, ellipses and parabolas.</summary>
public sealed class PathTests
{
    // From (60, 50) to (50, 60) on the screen about a circle of radius 10; the file's y points down, the drawing's up.
    // The four arcs of F.6.4: about (50, 50) or (60, 60), the short way or the long one.
    [Theory]
    [InlineData(0, 1, 50, 40, 60, 50, false)]
    [InlineData(0, 0, 50, 40, 60, 50, false)]
    [InlineData(1, 1, 50, 30, 70, 50, true)]
    [InlineData(1, 0, 40, 40, 60, 60, true)]
    public void The_four_arcs_through_two_points_are_told_by_their_flags(int large, int sweep, double left, double bottom, double right, double top, bool isLong)
    {
        var shape = Svg.Shape($"<path d=\"M60 50A10 10 0 {large} {sweep} 50 60z\"/>");
        var segment = 100 * ((Math.PI / 2) - 1) / 2;
        Assert.Equal(isLong ? (Math.PI * 100) - segment : segment, shape.AreaMm2, 2 * Math.PI * 10 * Resolution.ChordErrorMm);
        Svg.Lies(shape, left, bottom, right, top);
    }

    [Fact]
    public void Radii_that_do_not_reach_are_enlarged_and_negative_ones_lose_their_sign()
    {
        // F.6.6: half a circle of radius 20, and half an ellipse stretched alike both ways.
        Assert.Equal(Math.PI * 200, Svg.Shape("<path d=\"M30 50A1 1 0 0 1 70 50z\"/>").AreaMm2, Math.PI * 20 * Resolution.ChordErrorMm);
        Assert.Equal(Math.PI * 20 * 40 / 2, Svg.Shape("<path d=\"M30 50A-1-2 0 0 1 70 50z\"/>").AreaMm2, Math.PI * 40 * Resolution.ChordErrorMm);
    }

    [Fact]
    public void A_turned_ellipse_has_the_box_of_the_textbook()
    {
        // Half width sqrt(a2 cos2 + b2 sin2), half height sqrt(a2 sin2 + b2 cos2), here a 30, b 10, turned by 30 degrees.
        var (x, y) = (Math.Sqrt((900 * 0.75) + (100 * 0.25)), Math.Sqrt((900 * 0.25) + (100 * 0.75)));
        var (cx, cy) = (30 * Math.Cos(Math.PI / 6), 30 * Math.Sin(Math.PI / 6));
        var shape = Svg.Shape(FormattableString.Invariant($"<path d=\"M{50 - cx} {50 - cy}A30 10 30 1 1 {50 + cx} {50 + cy}A30 10 30 1 1 {50 - cx} {50 - cy}z\"/>"));
        Svg.Lies(shape, 50 - x, 50 - y, 50 + x, 50 + y);
        Assert.Equal(Math.PI * 300, shape.AreaMm2, 0.15);
    }

    [Fact]
    public void A_large_circle_is_followed_within_the_chord_error()
    {
        var shape = Svg.Shape("<circle cx=\"50\" cy=\"50\" r=\"45\"/>");
        foreach (var corner in shape.Borders()[0].Points)
        {
            Assert.InRange(corner.DistanceMm(new(50, 50)), 45 - 3e-4, 45 + 3e-4);
        }

        // Inside by the sagitta at most: 2 r times the chord error along the border, two thirds of it on average.
        Assert.InRange((Math.PI * 2025) - shape.AreaMm2, 0, 2 * Math.PI * 45 * 2e-3);
    }

    [Theory]
    [InlineData("M10 10h20v20h-20z", 400)]
    [InlineData("M10,10 30,10 30,30 10,30", 400)] // more pairs after a moveto are lines, and a fill closes
    [InlineData("m10 10 20 0 0 20-20 0z", 400)]
    [InlineData("M10 10H30V30H10Zm40 0h10v10h-10z", 500)] // a relative moveto after z starts from the closed corner
    [InlineData("M1e1.1e2L3e1 1e1 30 30.0.1e2 30", 400)]
    [InlineData("M10 10L30 10L30 30L10 30L10 10", 400)]
    [InlineData("M0 0Q50 100 100 0z", 100.0 * 100 / 2 * 2 / 3)] // a parabola is two thirds of its triangle (Archimedes)
    [InlineData("M0 0q25 50 50 50T100 0z", 100.0 * 50 * 2 / 3, 0.0)]
    [InlineData("M0 50C0 22.38576 22.38576 0 50 0S100 22.38576 100 50 77.61424 100 50 100 0 77.61424 0 50", 7853.98, 3)] // a circle by four cubics
    [InlineData("M10 10a5 5 0 1 1 10 0a5 5 0 1 1-10 0z", 78.54, 0.05)]
    [InlineData("M10 10a5 5 0 1110 0a5 5 0 11-10 0z", 78.54, 0.05)] // flags need no blanks after them
    public void Commands_draw_what_the_specification_says(string data, double areaMm2, double toleranceMm2 = 0.2)
    {
        if (toleranceMm2 > 0)
        {
            Assert.Equal(areaMm2, Svg.Shape($"<path d=\"{data}\"/>").AreaMm2, toleranceMm2);
        }
        else
        {
            // The second curve mirrors the first one's control point: both together rise to 50 and end where they began.
            Svg.Lies(Svg.Shape($"<path d=\"{data}\"/>"), 0, 50, 100, 100);
        }
    }

    [Theory]
    [InlineData("M10 10h20v20h-20zX", 400)]
    [InlineData("M10 10h20v20h-20L5", 400)]
    [InlineData("M10 10h20v20h-20z 5 5", 400)]
    public void What_comes_before_a_fault_is_drawn_and_the_fault_is_told(string data, double areaMm2)
    {
        var read = Svg.Read(Svg.Page($"<path id=\"p\" d=\"{data}\"/>"));
        var finding = Assert.Single(read.Findings);
        Assert.Equal("svg-value", finding.Code);
        Assert.Contains("<path id=\"p\">", finding.Message, StringComparison.Ordinal);
        Assert.Equal(areaMm2, ((Lampblack.VectorArt.DrawnShape)read.Value!.Items[0]).Shape.AreaMm2, 1e-6);
    }

    [Fact]
    public void A_path_that_begins_with_anything_but_a_moveto_draws_nothing() =>
        Assert.Equal("svg-value", Svg.Read(Svg.Page("<path d=\"L10 10 20 0z\"/>")).Findings[0].Code);

    [Fact]
    public void Rounded_corners_of_rectangles_are_quarters_of_ellipses()
    {
        Assert.Equal(800 - ((4 - Math.PI) * 8 * 5), Svg.Shape("<rect x=\"10\" y=\"10\" width=\"40\" height=\"20\" rx=\"8\" ry=\"5\"/>").AreaMm2, 0.05);

        // One radius stands for both, and neither is more than half the side.
        Assert.Equal(800 - ((4 - Math.PI) * 20 * 10), Svg.Shape("<rect x=\"10\" y=\"10\" width=\"40\" height=\"20\" rx=\"30\"/>").AreaMm2, 0.1);
    }
}
