using System;
using Lampblack.Geometry;
using Xunit;

namespace Lampblack.Tests.VectorArt;

/// <summary>Strokes as areas. Truth: Steiner's formula, the geometry of mitres, and SVG 1.1, 11.4.</summary>
public sealed class StrokeTests
{
    // What curves may miss: an area is off by their length times this at most.
    private const double ChordErrorMm = Resolution.ChordErrorMm;

    [Theory]
    [InlineData("butt", 80 * 6)]
    [InlineData("square", 86 * 6)]
    [InlineData("round", (80 * 6) + (Math.PI * 9))]
    public void The_ends_of_a_line_add_what_their_form_says(string cap, double areaMm2) =>
        Assert.Equal(areaMm2, Pen($"M10 50h80", 6, $"stroke-linecap=\"{cap}\"").AreaMm2, 0.03);

    [Fact]
    public void Round_joins_around_a_convex_shape_fulfil_Steiners_formula()
    {
        // Area + perimeter r + pi r2 outside; within, a triangle of sides 3, 4, 5 shrinks towards its incircle: area (1 - r / rho)2 is left.
        var (area, perimeter, incircle, radius) = (600.0, 120.0, 10.0, 3.0);
        var stroke = Pen("M20 20h30v40z", 2 * radius, "stroke-linejoin=\"round\"");
        var expected = (perimeter * radius) + (Math.PI * radius * radius) + area - (area * Math.Pow(1 - (radius / incircle), 2));
        Assert.Equal(expected, stroke.AreaMm2, 0.03);
    }

    [Theory]
    [InlineData("miter", 4, 8 * 30 * 2.5)] // a square of 30: (35)2 - (25)2
    [InlineData("miter", 1, (8 * 30 * 2.5) - (4 * 2.5 * 2.5 / 2))] // below 1.414 each corner is cut off
    [InlineData("bevel", 4, (8 * 30 * 2.5) - (4 * 2.5 * 2.5 / 2))]
    [InlineData("round", 4, (8 * 30 * 2.5) - ((4 - Math.PI) * 2.5 * 2.5))]
    public void The_corners_of_a_square_are_as_their_form_says(string join, double limit, double areaMm2) =>
        Assert.Equal(areaMm2, Pen("M30 30h30v30h-30z", 5, FormattableString.Invariant($"stroke-linejoin=\"{join}\" stroke-miterlimit=\"{limit}\"")).AreaMm2, 5 * 2 * Math.PI * ChordErrorMm);

    [Theory]
    [InlineData(2.01, true)]
    [InlineData(1.99, false)]
    public void A_mitre_is_cut_off_just_where_it_is_longer_than_the_limit(double limit, bool isPointed)
    {
        // At 60 degrees a mitre is 1 / sin 30 = 2 widths long, so its tip lies 8 mm beyond the corner.
        var corner = 50 - (20 * Math.Sqrt(3));
        var stroke = Pen(FormattableString.Invariant($"M30 50L50 {corner}L70 50"), 8, FormattableString.Invariant($"stroke-miterlimit=\"{limit}\""));
        Assert.Equal(100 - corner + (isPointed ? 8 : 2), stroke.Bounds.TopMm, 0.01);
    }

    [Fact]
    public void The_ring_around_a_circle_is_exact() =>
        Assert.Equal(2 * Math.PI * 30 * 10, Svg.Shape("<circle cx=\"50\" cy=\"50\" r=\"30\" fill=\"none\" stroke=\"#000\" stroke-width=\"10\"/>").AreaMm2, 0.15);

    [Fact]
    public void A_wide_arc_is_cut_off_square_to_the_curve()
    {
        // A quarter ring: its ends lie on the axes to a hundredth of a dot, though chords stand askew to the curve.
        var stroke = Pen("M80 50A30 30 0 0 1 50 80", 24, string.Empty);
        Assert.Equal(Math.PI / 4 * ((42 * 42) - (18 * 18)), stroke.AreaMm2, 0.15);
        var box = stroke.Bounds;
        Assert.Equal(50, box.LeftMm, 0.003);
        Assert.Equal(50, box.TopMm, 0.003);
    }

    [Fact]
    public void A_curve_that_turns_within_its_own_width_has_no_holes()
    {
        var stroke = Pen("M30 80C30 10 40 10 40 80", 30, "stroke-linecap=\"round\" stroke-linejoin=\"round\"");
        Assert.Empty(stroke.FilledHoles());
        Assert.Single(stroke.Pieces);
    }

    [Theory]
    [InlineData("10 5", "0", 10 * 6.0, 6)] // 90 mm: six dashes of ten
    [InlineData("10 5", "5", 60, 7)] // five, five of ten, five
    [InlineData("10 5", "-5", 60, 6)]
    [InlineData("30", "0", 60, 2)] // one length is taken twice
    [InlineData("0 10", "0", 0, 0)]
    public void Dashes_are_as_long_as_they_say(string dashes, string offset, double lengthMm, int pieces)
    {
        var file = $"<path d=\"M5 50h90\" stroke=\"#000\" stroke-width=\"2\" stroke-dasharray=\"{dashes}\" stroke-dashoffset=\"{offset}\"/>";
        if (pieces == 0)
        {
            Assert.Empty(Svg.Read(Svg.Page(file + "<rect width=\"1\" height=\"1\"/>")).Value!.Items.RemoveAt(0));
            return;
        }

        var stroke = Svg.Shape(file);
        Assert.Equal(lengthMm * 2, stroke.AreaMm2, 0.01);
        Assert.Equal(pieces, stroke.Pieces.Length);
    }

    [Fact]
    public void Dashes_without_length_are_dots_where_ends_are_round() =>
        Assert.Equal(9 * Math.PI, Pen("M5 50h90", 2, "stroke-dasharray=\"0 10\" stroke-linecap=\"round\"").AreaMm2, 9 * 2 * Math.PI * ChordErrorMm);

    [Fact]
    public void A_dash_across_the_start_of_a_closed_line_is_one_with_a_corner()
    {
        // 40 mm around, dashes of 10 from the middle of a side: the one over the start has a mitred corner, worth a quarter of the width squared more.
        var stroke = Pen("M40 40h10v10h-10z", 2, "stroke-dasharray=\"10\" stroke-dashoffset=\"5\"");
        Assert.Equal(2, stroke.Pieces.Length);
        Assert.Equal(20 * 2, stroke.AreaMm2, 0.01);
    }

    [Theory]
    [InlineData("round", 3.14159 * 9)]
    [InlineData("square", 36)]
    public void A_point_with_ends_shows_them(string cap, double areaMm2) =>
        Assert.Equal(areaMm2, Pen("M50 50z", 6, $"stroke-linecap=\"{cap}\"").AreaMm2, 0.05);

    [Fact]
    public void A_stretched_pen_is_stretched()
    {
        // A line along x, drawn three times as high: only its width grows.
        Assert.Equal(40 * 6, Svg.Shape("<path transform=\"scale(1 3)\" d=\"M10 10h40\" stroke=\"#000\" stroke-width=\"2\"/>").AreaMm2, 0.01);
    }

    [Fact]
    public void A_pen_that_does_not_scale_keeps_the_width_of_the_outermost_coordinates()
    {
        // Width 96 px of the outermost coordinates are 25.4 mm, whatever the viewBox and the transform do.
        var stroke = Svg.Shape("<path vector-effect=\"non-scaling-stroke\" transform=\"scale(2 .5)\" d=\"M10 100h20\" stroke=\"#000\" stroke-width=\"96\"/>");
        Svg.Lies(stroke, 20, 50 - 12.7, 60, 50 + 12.7);
    }

    private static Region<ItemSpace> Pen(string data, double widthMm, string attributes) =>
        Svg.Shape(FormattableString.Invariant($"<path d=\"{data}\" fill=\"none\" stroke=\"#000\" stroke-width=\"{widthMm}\" {attributes}/>"));
}
