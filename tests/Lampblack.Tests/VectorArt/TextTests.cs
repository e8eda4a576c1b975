using System;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Lettering;
using Lampblack.VectorArt;
using Xunit;

namespace Lampblack.Tests.VectorArt;

/// <summary>Text in drawings, beside the same line set by the lettering itself.</summary>
public sealed class TextTests
{
    private const string Font = "font-family=\"Overpass\" font-size=\"20\"";

    [Theory]
    [InlineData("", "overpass-regular")]
    [InlineData("font-weight=\"bold\"", "overpass-bold")]
    [InlineData("font-weight=\"500\"", "overpass-medium")]
    [InlineData("style=\"font:600 20px/1.2 'Nowhere', 'Overpass'\"", "overpass-semibold")]
    [InlineData("style=\"font-family:'Saira Condensed',Overpass\"", "saira-condensed-regular")]
    public void A_text_is_set_in_the_first_font_at_hand_in_its_weight(string attributes, string face)
    {
        var shape = Svg.Shape($"<text x=\"10\" y=\"50\" {Font} {attributes}>Dew AV</text>");
        var expected = Line(BundledFonts.Find(face)!, "Dew AV", 20).Shape.Map(Affine<ItemSpace, ItemSpace>.Shift(10, 50));
        Assert.Equal(expected.AreaMm2, shape.AreaMm2, expected.AreaMm2 * 1e-3);
        Assert.InRange(expected.Except(shape.Grow(0.002)).AreaMm2, 0, 0.01);
    }

    [Theory]
    [InlineData("start", 0)]
    [InlineData("middle", -0.5)]
    [InlineData("end", -1)]
    public void Anchors_hold_for_the_whole_line_with_its_parts(string anchor, double share)
    {
        var whole = Line(BundledFonts.Find("overpass-regular")!, "SHUTTER", 10).WidthMm;
        var shapes = Svg.Shapes($"<text x=\"50\" y=\"50\" font-family=\"Overpass\" font-size=\"10\" text-anchor=\"{anchor}\">SHU<tspan fill=\"red\">TTER</tspan></text>");
        Assert.Equal(2, shapes.Length);
        Assert.Equal(new DrawnColour(255, 0, 0, 1), shapes[1].Colour);

        // Side bearings are less than a mm at this size.
        Assert.InRange(shapes[0].Shape.Bounds.LeftMm, 50 + (share * whole), 50 + (share * whole) + 1);
        Assert.InRange(shapes[1].Shape.Bounds.RightMm, 50 + ((1 + share) * whole) - 1, 50 + ((1 + share) * whole) + 0.6);
    }

    [Fact]
    public void Places_letter_by_letter_are_kept()
    {
        var shapes = Svg.Shapes($"<text x=\"10 40 70\" y=\"50 60\" {Font}>III</text>");
        Assert.Equal([10, 40, 70], shapes.Select(shape => (int)shape.Shape.Bounds.LeftMm / 10 * 10));
        Assert.Equal([50, 40, 40], shapes.Select(shape => (int)Math.Round(shape.Shape.Bounds.BottomMm)));
    }

    [Fact]
    public void Blanks_are_drawn_together_as_in_CSS()
    {
        var plain = Svg.Shape($"<text x=\"10\" y=\"50\" {Font}>A B</text>");
        var spaced = Svg.Shape($"<text x=\"10\" y=\"50\" {Font}>\n   A \n  B  </text>");
        var kept = Svg.Shape($"<text x=\"10\" y=\"50\" {Font} xml:space=\"preserve\">A   B</text>");
        Assert.Equal(plain.Bounds, spaced.Bounds);
        Assert.True(kept.Bounds.WidthMm > plain.Bounds.WidthMm + 5);
    }

    [Fact]
    public void A_small_text_under_a_large_transform_is_as_fine_as_a_large_one()
    {
        var large = Svg.Shape($"<text x=\"10\" y=\"50\" {Font}>O</text>");
        var scaled = Svg.Shape("<text transform=\"scale(100)\" x=\".1\" y=\".5\" font-family=\"Overpass\" font-size=\".2\">O</text>");
        Assert.Equal(large.AreaMm2, scaled.AreaMm2, 1e-3);
        Assert.Equal(large.CornerCount, scaled.CornerCount);
    }

    [Fact]
    public void A_font_that_is_not_at_hand_stops_and_names_itself_and_the_way_out()
    {
        var read = Svg.Read(Svg.Page("<rect width=\"9\" height=\"9\"/><text x=\"5\" y=\"50\" font-family=\"Copperbottom, sans-serif\">OPEN</text><text font-family=\"Copperbottom\">SHUT</text>"));
        var finding = Assert.Single(read.Findings);
        Assert.Equal(("svg-font", Lampblack.Findings.Severity.Stop), (finding.Code, finding.Severity));
        Assert.Contains("Copperbottom", finding.Message, StringComparison.Ordinal);
        Assert.Contains("OPEN", finding.Message, StringComparison.Ordinal);
        Assert.Contains("Convert text to paths", finding.Hint, StringComparison.Ordinal);
        Assert.Contains("overpass", finding.Hint, StringComparison.Ordinal);
        Assert.Single(read.Value!.Items);
    }

    [Fact]
    public void A_font_of_the_users_own_is_found_by_its_family()
    {
        var options = new SvgOptions();
        options = options with { Fonts = options.Fonts.Add("Copperbottom", BundledFonts.Find("saira-condensed-bold")!) };
        var read = Svg.Read(Svg.Page($"<text x=\"10\" y=\"50\" font-size=\"20\" font-family=\"copperbottom\">OPEN</text>"), options);
        Assert.Empty(read.Findings);
        Assert.Equal(Line(BundledFonts.Find("saira-condensed-bold")!, "OPEN", 20).Shape.AreaMm2, ((DrawnShape)read.Value!.Items[0]).Shape.AreaMm2, 0.1);
    }

    [Fact]
    public void Letters_that_a_font_lacks_are_told() =>
        Assert.Equal("svg-letter", Svg.OneFinding(Svg.Page($"<text x=\"10\" y=\"50\" {Font}>A\u0416\u4e00</text>")).Code);

    [Theory]
    [InlineData("textLength=\"60\"")]
    [InlineData("text-decoration=\"underline\"")]
    [InlineData("style=\"word-spacing:3px\"")]
    [InlineData("style=\"writing-mode:tb\"")]
    [InlineData("font-style=\"italic\"")]
    public void What_is_not_done_to_text_is_told(string attributes) =>
        Assert.Equal("svg-text", Svg.OneFinding(Svg.Page($"<text x=\"10\" y=\"50\" {Font} {attributes}>On</text>")).Code);

    [Fact]
    public void Text_on_a_path_is_left_out_and_told() =>
        Assert.Equal("svg-left-out", Svg.OneFinding(Svg.Page("<rect width=\"9\" height=\"9\"/><text><textPath href=\"#p\">round</textPath></text>")).Code);

    private static TextRun Line(Typeface face, string text, double sizeMm) => TextOutline.Line(face, text, sizeMm * face.CapHeightShare);
}
