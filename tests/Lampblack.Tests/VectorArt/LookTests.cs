using System;
using System.Linq;
using Lampblack.VectorArt;
using Xunit;

namespace Lampblack.Tests.VectorArt;

/// <summary>Who wins among attributes, style sheets and styles, and what colours mean. Truth: CSS 2.1, 6.4; CSS Color Module Level 4.</summary>
public sealed class LookTests
{
    [Theory]
    [InlineData("fill=\"red\"", "", 255, 0, 0)]
    [InlineData("fill=\"red\"", "rect{fill:#0f0}", 0, 255, 0)]
    [InlineData("fill=\"red\" style=\"fill:blue\"", "rect{fill:#0f0}", 0, 0, 255)]
    [InlineData("style=\"fill:blue\"", "rect{fill:#0f0!important}", 0, 255, 0)]
    [InlineData("class=\"a b\"", ".b{fill:red}rect{fill:blue}", 255, 0, 0)]
    [InlineData("class=\"a b\" id=\"i\"", "#i{fill:red}.a.b{fill:blue}", 255, 0, 0)]
    [InlineData("class=\"a\"", ".a{fill:red}.a{fill:blue}", 0, 0, 255)]
    [InlineData("class=\"a\"", "g rect{fill:red}.x .a,h{fill:blue}", 255, 0, 0)]
    [InlineData("class=\"a\"", "g>rect{fill:red}", 255, 0, 0)]
    [InlineData("class=\"a\"", "svg>rect{fill:red}", 0, 0, 0)]
    [InlineData("class=\"a\"", "[class=\"a\"]{fill:red}", 255, 0, 0)]
    [InlineData("", "*{fill:red}/* rect{fill:blue} */", 255, 0, 0)]
    [InlineData("", "g{fill:red}", 255, 0, 0)]
    [InlineData("fill=\"currentColor\"", "g{color:blue}", 0, 0, 255)]
    [InlineData("style=\"fill:inherit\"", "g{fill:red}rect{fill:blue}", 255, 0, 0)]
    [InlineData("fill=\"initial\"", "g{fill:red}", 0, 0, 0)]
    public void The_stronger_rule_wins(string attributes, string sheet, byte red, byte green, byte blue)
    {
        var shape = Assert.Single(Svg.Shapes($"<style>{sheet.Replace(">", "&gt;", StringComparison.Ordinal)}</style><g><rect width=\"9\" height=\"9\" {attributes}/></g>"));
        Assert.Equal(new DrawnColour(red, green, blue, 1), shape.Colour);
    }

    [Theory]
    [InlineData("#f80", 255, 136, 0, 1)]
    [InlineData("#ff880080", 255, 136, 0, 128 / 255.0)]
    [InlineData("RebeccaPurple", 102, 51, 153, 1)]
    [InlineData("rgb(100%, 50%, 0%)", 255, 128, 0, 1)]
    [InlineData("rgb(10 20 30 / 25%)", 10, 20, 30, 0.25)]
    [InlineData("rgba(10,20,300,.5)", 10, 20, 255, 0.5)]
    [InlineData("hsl(120, 100%, 25%)", 0, 128, 0, 1)] // CSS: the same as green
    [InlineData("hsl(39 100% 50%)", 255, 166, 0, 1)] // CSS: orange, 255 165 0, has hue 38.8
    [InlineData("hsla(-120deg 100% 50% / .5)", 0, 0, 255, 0.5)]
    [InlineData("hsl(0.5turn 100% 50%)", 0, 255, 255, 1)]
    [InlineData("#123 icc-color(x, 1)", 17, 34, 51, 1)]
    public void Colours_are_what_their_text_says(string text, byte red, byte green, byte blue, double opacity)
    {
        var colour = Svg.Shapes($"<rect width=\"9\" height=\"9\" fill=\"{text}\"/>")[0].Colour;
        Assert.Equal((red, green, blue), (colour.Red, colour.Green, colour.Blue));
        Assert.Equal(opacity, colour.OpacityShare, 1e-9);
    }

    [Fact]
    public void A_colour_that_nobody_knows_is_told_and_painted_black()
    {
        var read = Svg.Read(Svg.Page("<rect width=\"9\" height=\"9\" fill=\"color(display-p3 1 0 0)\"/><rect width=\"8\" height=\"8\" fill=\"color(display-p3 1 0 0)\"/>"));
        Assert.Equal("svg-colour", Assert.Single(read.Findings).Code);
        Assert.Equal(DrawnColour.Black, ((DrawnShape)read.Value!.Items[0]).Colour);
    }

    [Theory]
    [InlineData("@media print{rect{fill:red}}")]
    [InlineData("rect:nth-child(2){fill:red}")]
    [InlineData("rect~rect{fill:red}")]
    public void Rules_that_are_not_understood_are_told(string sheet) =>
        Assert.Equal("svg-style-rule", Svg.OneFinding(Svg.Page($"<style>{sheet}</style><rect width=\"9\" height=\"9\"/>")).Code);

    [Fact]
    public void Fill_and_stroke_are_two_areas_in_painting_order_with_id_class_and_place()
    {
        var drawing = Svg.Clean("<g>\n  <rect id=\"r\" class=\"x y\" x=\"20\" y=\"20\" width=\"30\" height=\"20\" fill=\"#fff\" stroke=\"#00f\" stroke-width=\"2\" stroke-opacity=\".5\"/></g>");
        var (fill, stroke) = ((DrawnShape)drawing.Items[0], (DrawnShape)drawing.Items[1]);
        Assert.Equal(("r", "x y", "art.svg(2,3)"), (fill.Id, fill.Class, fill.Place.ToString()));
        Assert.Equal(new(0, 0, 255, 0.5), stroke.Colour);
        Assert.Equal(100 * 2, stroke.Shape.AreaMm2, 0.01);
    }

    [Theory]
    [InlineData("<set attributeName=\"x\" to=\"5\"/>", "svg-moving")]
    [InlineData("<script>alert(1)</script>", "svg-moving")]
    [InlineData("<foreignObject/>", "svg-left-out")]
    [InlineData("<mesh/>", "svg-left-out")]
    [InlineData("<use href=\"#gone\"/>", "svg-reference")]
    [InlineData("<rect width=\"5\" height=\"5\" style=\"mix-blend-mode:multiply\"/>", "svg-left-out")]
    [InlineData("<rect width=\"5\" height=\"5\" style=\"clip-path:circle(3px)\"/>", "svg-left-out")]
    [InlineData("<rect width=\"5\" height=\"5\" style=\"filter:sepia(1)\"/>", "svg-left-out")]
    [InlineData("<filter id=\"f\"><feTurbulence/></filter><rect width=\"5\" height=\"5\" filter=\"url(#f)\"/>", "svg-left-out")]
    [InlineData("<rect width=\"5\" height=\"five\"/>", "svg-value")]
    [InlineData("<rect width=\"5\" height=\"-5\"/>", "svg-value")]
    [InlineData("<polygon points=\"1,2 3\"/>", "svg-value")]
    [InlineData("<path d=\"M0 0h9\" stroke=\"red\" stroke-dasharray=\"3 -1\"/>", "svg-value")]
    public void What_is_not_drawn_as_meant_is_told_with_the_element(string element, string code)
    {
        var finding = Svg.OneFinding(Svg.Page("<rect width=\"9\" height=\"9\"/>" + element));
        Assert.Equal(code, finding.Code);
        Assert.Contains("<", finding.Message, StringComparison.Ordinal);
        Assert.NotNull(finding.Span);
    }

    [Fact]
    public void The_same_file_gives_the_same_areas_every_time()
    {
        var file = FeatureDrawings.File(string.Concat(FeatureDrawings.All.Values));
        string Text() => string.Join('\n', Svg.Read(file).Value!.Items.OfType<DrawnShape>().Select(item =>
            string.Join(' ', item.Shape.Borders().SelectMany(border => border.Points).Select(point => $"{Svg.Number(point.XMm)},{Svg.Number(point.YMm)}"))));
        Assert.Equal(Text(), Text());
    }
}
