using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Fabrication;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Tests.Jobs;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Fabrication;

/// <summary>Drill templates as an independent rasteriser prints them.</summary>
public sealed class TemplateTests
{
    private const int Dpi = 300;

    private const string Desk = """
        lampblack = 1
        title = "Templates"
        [[panel]]
        id = "one"
        size = [120, 60]
        corner = 5
        [[panel.control]]
        id = "hole"
        part = "hole-10"
        at = [30, 25]
        [[panel.control]]
        id = "far"
        part = "meter-round-45"
        at = [85, 30]
        """;

    private static readonly BuildRequest Bench = new("A4", "option", Parts: BuildParts.Bench);

    /// <summary>A plate without openings, such as one that only glows, has no numbers to explain.</summary>
    [Fact]
    public void A_template_without_holes_explains_no_numbers()
    {
        const string Bare = "[[panel]]\nid = \"p\"\nsize = [120, 60]\n";
        HoleChart[] charts = [Fabricated.Chart(Bare).Value, Fabricated.Chart(Bare + "[[panel.control]]\nid = \"hole\"\npart = \"hole-10\"\nat = [30, 25]\n").Value];
        foreach (var isSpread in new[] { false, true })
        {
            Assert.DoesNotContain("umber", DrillTemplate.Explained(charts[0], isSpread), StringComparison.Ordinal);
            Assert.Contains("umber", DrillTemplate.Explained(charts[1], isSpread), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_template_is_true_to_size_on_paper()
    {
        var page = Assert.Single(Render(SecondTime.Build(Desk, Bench)));

        // The bar of 100 mm stands in the middle of the page; holes are looked for by their lines, from the middle of each outwards.
        var tile = Assert.Single(Tiles(120, 60).Tiles);
        var hole = tile.Map.Apply(new(30, 25));
        var meter = tile.Map.Apply(new(85, 30));
        Assert.Equal(5, Ring(page, hole, 4), 0.2);
        Assert.Equal(22.75, Ring(page, meter, 21), 0.2);

        // The plate's edges, and score lines that run on beyond them.
        foreach (var (x, y) in new[] { (0.0, 30.0), (120, 30), (60, 0), (60, 60), (-5, 0), (125, 60), (0, -5), (120, 65), (1, 60), (119, 0) })
        {
            Assert.True(Near(page, tile.Map.Apply(new(x, y))), $"{x}, {y}");
        }

        Assert.False(Near(page, tile.Map.Apply(new(60, 52))));
    }

    [Fact]
    public void The_black_corner_is_the_lower_left_one()
    {
        var page = Assert.Single(Render(SecondTime.Build(Desk, Bench)));
        var map = Assert.Single(Tiles(120, 60).Tiles).Map;
        Assert.True(Near(page, map.Apply(new(2.5, 2.5))));
        Assert.All(new[] { (117.5, 2.5), (2.5, 57.5), (117.5, 57.5) }, at => Assert.False(Near(page, map.Apply(new(at.Item1, at.Item2)))));
    }

    [Fact]
    public void A_plate_larger_than_the_paper_goes_over_several_pages_that_agree_where_they_overlap()
    {
        var desk = Desk.Replace("size = [120, 60]", "size = [400, 280]", StringComparison.Ordinal).Replace("at = [85, 30]", "at = [205, 137]", StringComparison.Ordinal);
        var build = SecondTime.Build(desk, Bench);
        Assert.Empty(build.Stops());
        Assert.Contains(build.Findings, finding => finding.Code == "panel-too-large" && finding.Severity == Lampblack.Findings.Severity.Warn);
        var pages = Render(build);
        var tiles = Tiles(400, 280);
        Assert.Equal(4, tiles.Tiles.Length);
        Assert.Equal(4, pages.Length);
        Assert.NotEmpty(tiles.Crosses);
        foreach (var cross in tiles.Crosses)
        {
            var shown = tiles.Tiles.Index().Where(tile => tile.Item.Window.Grow(-4).Contains(tile.Item.Map.Apply(cross))).ToList();
            Assert.InRange(shown.Count, 2, 4);
            Assert.All(shown, tile =>
            {
                var at = tile.Item.Map.Apply(cross);
                Assert.True(Near(pages[tile.Index], at));
                Assert.True(Near(pages[tile.Index], new(at.XMm + 3.2, at.YMm)) && Near(pages[tile.Index], new(at.XMm, at.YMm - 3.2)));
            });
        }

        // Every stretch of the plate's edge and of the large hole is on some page.
        foreach (var place in Enumerable.Range(0, 100).Select(step => new Point<PanelSpace>(4 * step, 0)).Concat(Enumerable.Range(0, 72).Select(step => new Point<PanelSpace>(205, 137).Polar(22.75, 5 * step))).Where(place => place.XMm > 6))
        {
            Assert.Contains(tiles.Tiles.Index(), tile => tile.Item.Window.Contains(tile.Item.Map.Apply(place)) && Near(pages[tile.Index], tile.Item.Map.Apply(place)));
        }
    }

    [Fact]
    public void Of_both_ways_the_one_with_fewer_pages_is_taken_upright_where_both_take_as_many()
    {
        Assert.Single(Tiles(245, 120).Tiles);
        Assert.Equal(-1, Tiles(245, 120).Tiles[0].Map.Xy);
        Assert.Equal(1, Tiles(180, 110).Tiles[0].Map.Xx);
        Assert.Equal(2, Tiles(300, 150).Tiles.Length);
    }

    [Fact]
    public void The_bench_gets_its_files_and_nothing_else()
    {
        var build = SecondTime.Build(Desk, Bench);
        Assert.Equal(
            ["back/one.svg", "cutter/one.drl", "cutter/one.dxf", "cutter/one.svg", "hole-chart.csv", "hole-chart.pdf", "report.json", "templates.pdf", "manifest.json"],
            build.Files.Select(file => file.Path).Where(path => !path.StartsWith("licences/", StringComparison.Ordinal) && !path.StartsWith("cut-plan", StringComparison.Ordinal)));
        var whole = SecondTime.Build(Desk, Bench with { Parts = BuildParts.All });
        Assert.Contains(whole.Files, file => file.Path == "templates.pdf");
        Assert.Contains(whole.Files, file => file.Path == "sheet-1/front.pdf");
    }

    [Fact]
    public void Bad_holes_stop_the_bench_as_they_stop_the_print()
    {
        var off = SecondTime.Build(Desk.Replace("at = [30, 25]", "at = [1, 25]", StringComparison.Ordinal), Bench);
        Assert.Equal(["hole-off-panel"], off.Stops());
        Assert.Empty(off.Files);
    }

    [Fact]
    public void A_table_for_other_programs_quotes_what_needs_it()
    {
        var build = SecondTime.Build(Desk.Replace("id = \"one\"", "id = \"one\"\nfixings = { part = \"screw-m3\", inset = 6 }", StringComparison.Ordinal), Bench);
        var lines = System.Text.Encoding.UTF8.GetString(build.Files.Single(file => file.Path == "hole-chart.csv").Bytes.AsSpan()).Split("\r\n");
        Assert.Equal("panel,hole,item,part,x_mm,y_mm,size_mm,way,drill,drill_error_mm,drills_before,paper_punch_mm,then,drilled", lines[0]);
        Assert.Contains("one,1,one/fixing-3,\"Screw M3 with washer, clearance hole\",6,54,3.4,drill,3.5 mm,0.1,,4,,no", lines);
        Assert.Equal(string.Empty, lines[^1]);
        Assert.Equal(8, lines.Length);
    }

    [Theory]
    [InlineData(250, 150)]
    [InlineData(260, 170)]
    public void A_panel_that_fits_the_paper_turned_stands_on_one_page_with_its_words_aside(double widthMm, double heightMm)
    {
        var tile = Assert.Single(Tiles(widthMm, heightMm).Tiles);
        Assert.Equal(-1, tile.Map.Xy);
        var desk = Desk.Replace("size = [120, 60]", FormattableString.Invariant($"size = [{widthMm}, {heightMm}]"), StringComparison.Ordinal);
        var page = Assert.Single(Render(SecondTime.Build(desk, Bench)));
        Assert.Equal(5, Ring(page, tile.Map.Apply(new(30, 25)), 4), 0.2);
        foreach (var (x, y) in new[] { (0.0, 30.0), (widthMm, 30), (60, 0), (60, heightMm), (-4, 0), (0, heightMm + 4) })
        {
            Assert.True(Near(page, tile.Map.Apply(new(x, y))), $"{x}, {y}");
        }
    }

    [Fact]
    public void A3_holds_a_panel_of_390_mm() =>
        Assert.Single(TemplateTiles.Of(390, 200, PaperSize.All.Single(paper => paper.Name == "A3"), PrinterProperties.Unmeasured).Tiles);

    private static TemplateTiles Tiles(double widthMm, double heightMm) => TemplateTiles.Of(widthMm, heightMm, PaperSize.All.Single(paper => paper.Name == "A4"), PrinterProperties.Unmeasured);

    private static ImmutableArray<InkPlates> Render(BuildResult build) =>
        GhostscriptPlates.Render(build.Files.Single(file => file.Path == "templates.pdf").Bytes.AsSpan(), Dpi);

    /// <summary>Radius of the first line from a place outwards, aslant, where no cross and no label stands.</summary>
    private static double Ring(InkPlates page, Point<SheetSpace> middle, double fromMm)
    {
        for (var mm = fromMm; mm < 60; mm += 0.02)
        {
            var at = middle.Polar(mm, 200);
            if (page.AtMm(at.XMm, at.YMm, Dpi).Black > 127)
            {
                return mm + 0.1;
            }
        }

        return double.PositiveInfinity;
    }

    private static bool Near(InkPlates page, Point<SheetSpace> at) => Enumerable.Range(-2, 5).SelectMany(x => Enumerable.Range(-2, 5).Select(y => page.AtMm(at.XMm + (x * 0.08), at.YMm + (y * 0.08), Dpi))).Any(dot => dot.Black > 127);
}
