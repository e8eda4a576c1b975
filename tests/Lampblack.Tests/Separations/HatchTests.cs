using System;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Artwork;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Tests.Register;
using Xunit;

namespace Lampblack.Tests.Separations;

public sealed class HatchTests
{
    private const string White = "[[panel.area]]\nbox = [5, 45, 10, 10]\nrole = \"lit\"\n";
    private static readonly string[] Inks = ["amber", "red", "green", "blue", "cyan", "yellow", "orange", "leaf", "clay"];

    /// <summary>Ranges as narrow as dials draw them, wide ones, and areas.</summary>
    public static TheoryData<double> WidthsMm => [1, 1.3, 1.6, 1.8, 2.4, 0];

    [Theory]
    [MemberData(nameof(WidthsMm))]
    public void Every_line_is_a_quarter_of_a_millimetre_and_every_gap_a_third_or_more(double widthMm)
    {
        foreach (var pattern in Enum.GetValues<HatchPattern>())
        {
            var course = widthMm == 0 ? null : new RingCourse(new(0, 0), -40, 40, 20, 20 + widthMm);
            var shape = course is null ? Region<PanelSpace>.Rectangle(new(0, 0, 12, 9)) : Ring(course);
            var bare = Hatch.Bare(pattern, shape, course);
            var black = shape.Grow(0.5).Except(bare);
            Assert.True(shape.Contains(bare.Grow(-0.0002)), $"{pattern} {widthMm}");

            // What a disc of radius r can't reach is corners: r2 (cot(a/2) - (pi - a)/2) of each, so at most 8.6 % of the thinnest slanting line
            // (0.28 mm, four corners of 45 and 135 degrees) and 10 % of the smallest square between crossing lines. A line too thin would be lost whole.
            Assert.InRange(Opened(bare, 0.25).AreaMm2, bare.AreaMm2 * 0.88, bare.AreaMm2 * 1.01);
            Assert.InRange(Opened(black, 0.35).AreaMm2, black.AreaMm2 * 0.88, black.AreaMm2 * 1.01);
            Assert.InRange(bare.AreaMm2, shape.AreaMm2 * 0.15, shape.AreaMm2 * 0.85);
        }
    }

    [Fact]
    public void Inks_take_patterns_in_the_order_in_which_the_file_fills_shapes_with_them()
    {
        const string Legend = "[[panel.legend]]\ntext = \"A\"\nat = [40, 50]\nink = \"blue\"\n";
        var first = Gray(Legend + Area("red", 5) + Area("green", 25));
        var second = Gray(Area("green", 5) + Area("red", 25) + Legend);
        Assert.Equal(Shape(first, 0), Shape(second, 0));
        Assert.Equal(Shape(first, 1), Shape(second, 1));
        Assert.NotEqual(Shape(first, 0), Shape(first, 1));
        Assert.Equal(Shape(Gray(Area("red", 5) + Area("red", 25)), 1), Shape(Gray(Area("green", 5) + Area("green", 25)), 1));
    }

    [Fact]
    public void One_key_serves_all_panels_of_a_build()
    {
        var artworks = Gray(Area("red", 5)).Panels.Concat(Gray(Area("green", 5) + Area("red", 25)).Panels).Select(panel => panel.Artwork).ToList();
        Assert.Equal(2, Lampblack.Separations.HatchKey.Of(artworks).Inks.Length);
    }

    [Theory]
    [InlineData("white")]
    [InlineData("gray")]
    public void Bare_paper_and_grays_stay_what_they_are(string ink) => Assert.Equal(100, Gray(Area(ink, 5)).Panels[0].Shapes.Lit.AreaMm2, 6);

    [Fact]
    public void A_printer_with_colours_gets_no_hatch() =>
        Assert.Equal(100, SeparatedDesk.Of(Toml(Area("red", 5)), "safe").Panels[0].Shapes.Lit.AreaMm2, 6);

    [Fact]
    public void The_mask_opens_behind_the_whole_shape_so_that_the_front_alone_makes_the_pattern()
    {
        var shapes = Gray(Area("red", 5)).Panels[0].Shapes;
        var whole = Region<PanelSpace>.Rectangle(new(5, 5, 10, 10)).Grow(0.5);
        Assert.InRange(shapes.Openings.Except(whole).AreaMm2 + whole.Except(shapes.Openings).AreaMm2, 0, 0.01);
        Assert.InRange(shapes.Lit.AreaMm2, 30, 75);
        Assert.True(shapes.FrontBlack.Intersect(whole).AreaMm2 > 40);
    }

    [Theory]
    [InlineData("white", false)]
    [InlineData("black", true)]
    public void Words_on_a_hatch_get_a_plain_border(string ink, bool bare)
    {
        var shapes = Gray("[[panel.area]]\nbox = [5, 5, 40, 20]\nrole = \"lit\"\nink = \"red\"\n[[panel.legend]]\ntext = \"HI\"\nat = [25, 15]\nheight = 6\nrole = \"" + (bare ? "unlit" : "lit") + "\"\nink = \"" + ink + "\"\n").Panels[0].Shapes;
        var words = shapes.Visible.Single(mark => mark.Name == "HI").Shape;

        // A millimetre around, and what lies between the letters: crumbs of the hatch there could be taken for parts of letters.
        var border = words.Grow(2.1).Grow(-1.1).Except(words.Grow(0.02));
        var black = shapes.FrontBlack.Intersect(border).AreaMm2 / border.AreaMm2;
        Assert.Equal(bare ? 0 : 1, black, 2);
    }

    [Fact]
    public void On_a_field_that_is_not_black_the_gaps_are()
    {
        var desk = Gray("field = \"white\"\n" + Area("red", 5));
        var (shapes, front) = (desk.Panels[0].Shapes, desk.Panels[0].Front);
        Assert.InRange(shapes.HatchGaps.AreaMm2 + shapes.Lit.AreaMm2, 99.9, 100.1);
        var painted = Assert.Single(front, area => area.Ink.Equals(Ink.Gray(0)) && area.Region.AreaMm2 > 5);
        Assert.InRange(painted.Region.Except(shapes.HatchGaps).AreaMm2, 0, 0.01);
    }

    /// <summary>What stands in the panel, and what is found of colours.</summary>
    public static TheoryData<string, string> Told => new()
    {
        { Area("red", 5) + Area("green", 25), "" },
        { White + "[[panel.rule]]\nline = [[20, 5], [70, 5]]\nink = \"red\"\n", "" },
        { "[[panel.rule]]\nline = [[20, 9], [70, 9]]\n[[panel.rule]]\nline = [[20, 5], [70, 5]]\nink = \"red\"\n", "Warn" },
        { "[[panel.rule]]\nline = [[20, 9], [70, 9]]\nink = \"green\"\n[[panel.rule]]\nline = [[20, 5], [70, 5]]\nink = \"red\"\n", "Warn Warn" },
        { "[[panel.area]]\nbox = [20, 5, 30, 0.8]\nink = \"green\"\n[[panel.area]]\nbox = [20, 15, 30, 0.8]\nink = \"red\"\n", "Warn Warn" },
        { "[[panel.legend]]\ntext = \"ON\"\nat = [40, 50]\n[[panel.legend]]\ntext = \"FAULT\"\nat = [40, 30]\nink = \"red\"\n", "Note" },
        { "[[panel.legend]]\ntext = \"ON\"\nat = [40, 50]\n[[panel.legend]]\ntext = \"FAULT\"\nat = [40, 30]\nink = \"red\"\nrole = \"hidden\"\n", "Note" },
        { "[[panel.legend]]\ntext = \"ON\"\nat = [40, 50]\nink = \"red\"\n[[panel.legend]]\ntext = \"FAULT\"\nat = [40, 30]\nink = \"red\"\n", "" },
        { string.Concat(Inks.Take(8).Select((ink, place) => Small(ink, place))), "" },
        { string.Concat(Inks.Select((ink, place) => Small(ink, place))), "Warn" },
    };

    [Theory]
    [MemberData(nameof(Told))]
    public void Where_only_colour_tells_marks_apart_a_black_only_build_says_so(string inPanel, string severities)
    {
        var found = Gray(inPanel).Findings.Where(finding => finding.Code == "colour-carries-meaning").ToList();
        Assert.Equal(severities, string.Join(' ', found.Select(finding => finding.Severity)));
        Assert.All(found, finding => Assert.True(finding.Span is not null && finding.Hint.Length > 20));
        Assert.DoesNotContain(SeparatedDesk.Of(Toml(inPanel), "safe").Findings, finding => finding.Code == "colour-carries-meaning");
    }

    private static SeparatedDesk Gray(string inPanel) => SeparatedDesk.Of(Toml(inPanel), "gray");

    private static byte[] Toml(string inPanel) => Encoding.UTF8.GetBytes(
        $"lampblack = 1\n[inks]\nleaf = [60, 0, 90, 0]\nclay = [0, 35, 85, 5]\n[[panel]]\nid = \"p\"\nsize = [80, 60]\n{inPanel}");

    private static string Area(string ink, double left) => string.Create(
        CultureInfo.InvariantCulture, $"[[panel.area]]\nbox = [{left}, 5, 10, 10]\nrole = \"lit\"\nink = \"{ink}\"\n");

    private static string Small(string ink, int place) => string.Create(
        CultureInfo.InvariantCulture, $"[[panel.area]]\nbox = [{3 + (8 * place)}, 5, 5, 10]\nrole = \"lit\"\nink = \"{ink}\"\n");

    private static (double, int) Shape(SeparatedDesk desk, int area)
    {
        var shape = desk.Panels[0].Shapes.Visible.Where(mark => mark.Filled).ElementAt(area).Shape;
        return (Math.Round(shape.AreaMm2, 6), shape.Pieces.Length);
    }

    private static Region<PanelSpace> Ring(RingCourse course) => Region<PanelSpace>.FromCorners(
    [
        .. Outline<PanelSpace>.Arc(course.Centre, course.OuterRadiusMm, 90 - course.FromClockDegrees, 90 - course.ToClockDegrees).Points,
        .. Outline<PanelSpace>.Arc(course.Centre, course.InnerRadiusMm, 90 - course.ToClockDegrees, 90 - course.FromClockDegrees).Points,
    ]);

    private static Region<PanelSpace> Opened(Region<PanelSpace> region, double widthMm) => region.Grow(-(widthMm / 2) + 0.004).Grow((widthMm / 2) - 0.004);
}
