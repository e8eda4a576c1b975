using System;
using System.Linq;
using Lampblack.Fabrication;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Fabrication;

public sealed class HoleChartTests
{
    private const string Grid = """
        [[panel]]
        id = "p"
        size = [120, 80]
        corner = 3
        [[panel.control]]
        id = "low"
        part = "hole-6"
        at = [20, 20]
        row = { count = 3, step = 30 }
        [[panel.control]]
        id = "high"
        part = "toggle-mini-on-on"
        at = [90, 61]
        [[panel.control]]
        id = "left"
        part = "toggle-mini-on-on"
        at = [30, 60]
        drilled = [0.3, -0.2]
        """;

    [Fact]
    public void Holes_are_numbered_as_one_reads_and_placed_from_the_lower_left_corner()
    {
        var chart = Fabricated.Chart(Grid).Value;
        Assert.Equal(["1 p/left", "2 p/high", "3 p/low.1", "4 p/low.2", "5 p/low.3"], chart.Holes.Select(hole => $"{hole.Label} {hole.Origin.Item}"));
        Assert.Equal(new Point<PanelSpace>(90, 61), chart.Hole("2").Centre);
        Assert.Equal(new Point<PanelSpace>(80, 20), chart.Hole("5").Centre);
    }

    [Fact]
    public void A_drilled_hole_is_charted_where_it_is_and_never_drilled_again()
    {
        var chart = Fabricated.Chart(Grid).Value;
        var drilled = chart.Hole("1");
        Assert.True(drilled.IsDrilled);
        Assert.Equal(30.3, drilled.Centre.XMm, 1e-9);
        Assert.Equal(59.8, drilled.Centre.YMm, 1e-9);
        Assert.DoesNotContain("1", DrillingOrder.Of(chart).SelectMany(turn => turn.Labels));
        Assert.Contains(DrillingOrder.Steps(Lampblack.Desks.WorkOrder.DrillThenGlue, chart), step => step.StartsWith("Already drilled", StringComparison.Ordinal) && step.Contains(": 1.", StringComparison.Ordinal));
    }

    [Fact]
    public void Each_drill_is_taken_in_hand_once_the_smallest_first_and_no_step_is_wider_than_four_millimetres()
    {
        var chart = Fabricated.Chart(Fabricated.EveryForm, "[bench]\ndrills = [\"metric\"]").Value;
        var turns = DrillingOrder.Of(chart);
        Assert.Equal(turns.Select(turn => turn.Drill.DiameterMm).Distinct().Order(), turns.Select(turn => turn.Drill.DiameterMm));
        foreach (var hole in chart.Holes)
        {
            var steps = hole.Before.Select(drill => drill.DiameterMm).Concat(hole.Choice is { } last ? [last.Drill.DiameterMm] : []).ToList();
            Assert.All(steps.Zip(steps.Skip(1)), pair => Assert.InRange(pair.Second - pair.First, 0.4, 4.0001));
            Assert.All(steps, step => Assert.Contains(hole.Label, turns.Single(turn => Math.Abs(turn.Drill.DiameterMm - step) < 1e-9).Labels));
            Assert.True(steps.Count == 0 || steps[0] <= 4, hole.Label);
        }
    }

    [Fact]
    public void Other_forms_are_drilled_within_their_edge()
    {
        var chart = Fabricated.Chart(Fabricated.EveryForm).Value;
        Assert.Equal([1, 1, 2, 4, 4], new[] { "fixing-1", "flats", "slot", "window", "screen" }.Select(id => chart.Holes.First(hole => hole.Origin.Item == $"all/{id}").Starts.Length));
        foreach (var hole in chart.Holes.Where(hole => hole.Way == HoleWay.File))
        {
            var inside = hole.Line.ToRegion();
            Assert.All(hole.Starts, start => Assert.True(inside.Grow(0.003).Contains(Region<PanelSpace>.Disc(start, hole.Choice!.Drill.DiameterMm / 2)), $"{hole.Origin.Item} {start}"));
            Assert.Contains("file to the template", hole.Then, StringComparison.Ordinal);
        }

        Assert.Equal(HoleWay.Saw, chart.Holes.Single(hole => hole.Origin.Item == "all/large" ).Way);
        Assert.StartsWith("then a step drill or a hole saw up to 22 mm", chart.Holes.Single(hole => hole.Origin.Item == "all/large").Then, StringComparison.Ordinal);
        // A hole saw turns about one small hole; a larger drill would leave it nothing to turn about.
        Assert.Equal([3.0], chart.Holes.Single(hole => hole.Origin.Item == "all/large").Drills.Select(drill => drill.DiameterMm));
        Assert.Contains("file the notch 0.9 x 0.6 mm", chart.Holes.Single(hole => hole.Origin.Item == "all/notched").Then, StringComparison.Ordinal);
    }

    /// <summary>Whole millimetres or sixteenths of an inch (common practice, no source), between the hole and what its nut still covers.</summary>
    [Fact]
    public void Punches_are_sizes_that_are_sold()
    {
        var holes = Fabricated.Chart(Fabricated.EveryForm).Value.Holes;
        foreach (var (unit, stepMm) in new[] { (LengthUnit.Millimetre, 1.0), (LengthUnit.Inch, 25.4 / 16) })
        {
            var punched = holes.Where(hole => hole.HandPunchMm(unit) is not null).ToList();
            Assert.NotEmpty(punched);
            Assert.All(punched, hole =>
            {
                var punch = hole.HandPunchMm(unit)!.Value;
                Assert.Equal(Math.Round(punch / stepMm, MidpointRounding.AwayFromZero), punch / stepMm, 6);
                Assert.InRange(punch, hole.DiameterMm!.Value - 1e-6, hole.DiameterMm.Value + (1.5 * (hole.PunchMm!.Value - hole.DiameterMm.Value)) + 1e-6);
            });
        }

        var hand = Fabricated.Chart(Grid).Value.Hole("2") with { DiameterMm = 6.5, PunchMm = 7.5 };
        Assert.Equal((7, null), (hand.HandPunchMm(LengthUnit.Millimetre), (hand with { PunchMm = null }).HandPunchMm(LengthUnit.Millimetre)));
        Assert.Null((hand with { PunchMm = 6.8, DiameterMm = 6.5 }).HandPunchMm(LengthUnit.Millimetre));
    }

    [Theory]
    [InlineData("[\"metric\"]", "6.5 mm", 0)]
    [InlineData("[\"inch\"]", "17/64 in", 0.247)]
    [InlineData("[\"letters\"]", "letter F", 0.028)]
    [InlineData("[6.2, 7]", "7 mm", 0.5)]
    [InlineData("[6.4, 8]", "6.4 mm", -0.1)]
    [InlineData("\"inch\"", "17/64 in", 0.247)]
    [InlineData("[\"1/4 in\", \"0.27 in\"]", "0.27 in", 0.358)]
    public void Holes_are_matched_to_the_drills_owned_and_the_error_is_told(string drills, string name, double errorMm)
    {
        var choice = Fabricated.Chart(Grid, $"[bench]\ndrills = {drills}").Value.Hole("2").Choice!;
        Assert.Equal(name, choice.Drill.Name);
        Assert.Equal(errorMm, choice.ErrorMm, 0.001);
    }

    [Theory]
    [InlineData("[6.5, 6]", null)]
    [InlineData("[6.71, 6]", "drill-apart")] // 0.21 too large: just outside
    [InlineData("[6.7, 6]", null)] // 0.20: just inside
    [InlineData("[6.46, 6, 8]", null)] // 0.04 too small: the drill takes that much beyond its size
    [InlineData("[6.44, 6, 8]", "drill-apart")]
    public void A_drill_that_misses_by_more_than_its_allowance_is_a_finding(string drills, string? code)
    {
        var found = Fabricated.Chart(Grid.Replace("drilled = [0.3, -0.2]", string.Empty, StringComparison.Ordinal), $"[bench]\ndrills = {drills}").Findings;
        if (code is null)
        {
            Assert.Empty(found);
        }
        else
        {
            var finding = Assert.Single(found);
            Assert.Equal(code, finding.Code);
            Assert.Contains("`p/left`, `p/high`", finding.Message, StringComparison.Ordinal);
            Assert.NotNull(finding.Span);
        }
    }

    [Fact]
    public void Nothing_is_said_of_drills_where_the_maker_named_none() => Assert.Empty(Fabricated.Chart(Fabricated.EveryForm).Findings);

    [Theory]
    [InlineData("118", true)] // the usual drill: row 37; 60 to 90 degrees by a sheet maker's fabrication brief on drilling
    [InlineData("91", true)]
    [InlineData("90", false)]
    [InlineData("60", false)]
    [InlineData("59", true)]
    public void A_point_that_grabs_acrylic_is_a_finding(string degrees, bool isFound)
    {
        var desk = Lampblack.Desks.DeskReader.Read("desk.toml", System.Text.Encoding.UTF8.GetBytes($"lampblack = 1\n[bench]\npoint = {degrees}\n{Grid}"));
        Assert.Equal(isFound ? ["drill-point"] : [], HoleChart.PointFindings(desk.Value.Bench).Select(finding => finding.Code));
    }

    [Theory]
    [InlineData("drills = [\"metrik\"]", "did you mean `metric`?")]
    [InlineData("drills = [true]", "neither a series nor a size")]
    [InlineData("drills = [0.1]", "from 0.3 to 100 mm")]
    [InlineData("drills = [101]", "from 0.3 to 100 mm")]
    [InlineData("drills = \"\"", "neither a series nor a size")]
    public void A_drill_that_is_none_is_told_and_the_rest_is_read(string key, string words)
    {
        var desk = Lampblack.Desks.DeskReader.Read("desk.toml", System.Text.Encoding.UTF8.GetBytes($"lampblack = 1\n[bench]\n{key}\n{Grid}"));
        var finding = Assert.Single(desk.Findings);
        Assert.Equal("drills-form", finding.Code);
        Assert.Contains(words, finding.Message + finding.Hint, StringComparison.Ordinal);
        Assert.Single(desk.Value.Panels);
    }

    [Theory]
    [InlineData(3.175, 3500)]
    [InlineData(6.35, 1800)]
    [InlineData(12.7, 900)]
    [InlineData(25.4, 450)]
    [InlineData(50.8, 250)]
    [InlineData(1, 3500)]
    public void Drills_turn_as_tables_for_acrylic_have_it(double mm, int turns) => Assert.Equal(turns, DrillingOrder.TurnsPerMinute(mm)); // from memory; beyond by the same speed at the edge

    [Fact]
    public void The_steps_follow_the_order_of_work()
    {
        var chart = Fabricated.Chart(Grid.Replace("drilled = [0.3, -0.2]", string.Empty, StringComparison.Ordinal)).Value;
        string Steps(Lampblack.Desks.WorkOrder order) => string.Join('\n', DrillingOrder.Steps(order, chart));
        var (a, b, c) = (Steps(Lampblack.Desks.WorkOrder.GlueThenDrill), Steps(Lampblack.Desks.WorkOrder.DrillThenGlue), Steps(Lampblack.Desks.WorkOrder.PrintBehind));
        Assert.StartsWith("The print is on the plate", a, StringComparison.Ordinal);
        Assert.True(b.IndexOf("Drill from the front", StringComparison.Ordinal) < b.IndexOf("Glue the print on", StringComparison.Ordinal));
        Assert.Contains("drilled.pdf", b, StringComparison.Ordinal);
        Assert.Contains("Punch the print", c, StringComparison.Ordinal);
        Assert.All(new[] { a, b, c }, steps => Assert.Contains("radius 3 mm", steps, StringComparison.Ordinal));
    }

    [Fact]
    public void The_table_for_programs_names_the_punch_that_the_chart_names()
    {
        var chart = Fabricated.Chart(Grid).Value;
        var rows = System.Text.Encoding.UTF8.GetString(HoleCsv.Write([chart]).AsSpan()).Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Select(line => System.Text.RegularExpressions.Regex.Replace(line, "\"[^\"]*\"", "quoted").Split(',')).ToList();
        var column = Array.IndexOf(rows[0], "paper_punch_mm");
        var punches = rows.Skip(1).Select(row => row[column]).ToList();
        Assert.Equal(chart.Holes.Select(hole => hole.HandPunchMm(LengthUnit.Millimetre)?.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? string.Empty), punches);

        // By hand: a toggle's hole of 6.5 mm with a nut of 8 mm or more takes 7 mm; none of the sizes is one that nobody sells.
        Assert.Contains("7", punches);
        Assert.All(punches.Where(punch => punch.Length > 0), punch => Assert.DoesNotContain('.', punch));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(3)]
    [InlineData(8)]
    [InlineData(30)]
    public void The_black_corner_is_as_deep_in_a_round_corner_as_in_a_sharp_one(double cornerMm)
    {
        var chart = Fabricated.Chart($"[[panel]]\nid = \"p\"\nsize = [120, 80]\ncorner = {cornerMm.ToString(System.Globalization.CultureInfo.InvariantCulture)}\n").Value;
        var page = Assert.Single(DrillTemplate.Pages(chart, A4, Ink.FullK, Lampblack.Printers.PrinterProperties.Unmeasured)).Areas;
        var map = Assert.Single(TemplateTiles.Of(120, 80, A4, Lampblack.Printers.PrinterProperties.Unmeasured).Tiles).Map;

        // Along the diagonal it starts (sqrt 2 - 1) r from the corner of the box, the distance of a circle from the corner around it, and goes on for 6 / sqrt 2 mm.
        var startMm = (Math.Sqrt(2) - 1) * cornerMm;
        foreach (var (mm, isBlack) in new[] { (0.3, true), (2, true), (4.1, true), (4.5, false) })
        {
            var place = map.Apply(new((startMm + mm) / Math.Sqrt(2), (startMm + mm) / Math.Sqrt(2)));
            Assert.Equal(isBlack, page.Any(area => area.Region.Contains(new Point<PageSpace>(place.XMm, place.YMm))));
        }
    }

    [Theory]
    [InlineData("the-pump-of-the-lower-orchard-with-a-tap")]
    [InlineData("thepumpofthelowerorchardandofitswell")]
    public void A_long_id_stays_in_its_column(string id)
    {
        var chart = Fabricated.Chart(Grid.Replace("\"high\"", $"\"{id}\"", StringComparison.Ordinal)).Value;
        var pages = ChartPages.Pages(chart, Lampblack.Desks.WorkOrder.GlueThenDrill, A4, Ink.FullK, Lampblack.Printers.PrinterProperties.Unmeasured);

        // The table is 186 mm wide on A4 and starts 12 mm from its edge; the column of items goes from 7 to 34 mm of it.
        var items = pages.SelectMany(page => page.Areas).Select(area => area.Region.Bounds).Where(box => box.LeftMm is > 18.9 and < 19.6 && box.HeightMm < 3).ToList();
        Assert.True(items.Count > chart.Holes.Length);
        Assert.All(items, box => Assert.InRange(box.RightMm, 19, 46));
    }

    /// <summary>A heading is never the last of its page: it stands with the head and three rows of the table it belongs to. Every line of a table ends with a rule over the whole width.</summary>
    [Fact]
    public void A_heading_stands_with_the_first_rows_of_its_table()
    {
        var near = 0;
        foreach (var count in Enumerable.Range(8, 34))
        {
            var holes = string.Concat(Enumerable.Range(0, count).Select(index => $"[[panel.control]]\nid = \"lamp-of-siding-{index}\"\npart = \"{(index % 2 == 0 ? "lamp-3mm" : "lamp-5mm")}\"\nat = [{15 + (25 * (index % 7))}, {15 + (25 * (index / 7))}]\n"));
            var chart = Fabricated.Chart($"[[panel]]\nid = \"yard\"\nsize = [190, 180]\n{holes}").Value;
            var pages = ChartPages.Pages(chart, Lampblack.Desks.WorkOrder.GlueThenDrill, A4, Ink.FullK, Lampblack.Printers.PrinterProperties.Unmeasured);

            // The title of each page is drawn last.
            var lines = pages.Select(page => page.Areas.SkipLast(1).Select(area => area.Region.Bounds).ToList()).ToList();
            foreach (var (page, next) in lines.Zip(lines.Skip(1)))
            {
                if (page.Count > 0 && !IsRule(page[^1]))
                {
                    Assert.DoesNotContain(next.TakeWhile((_, index) => index < 8), IsRule);
                }

                near += next.Exists(IsRule) ? 1 : 0;
            }
        }

        Assert.True(near > 5);

        static bool IsRule(Box<PageSpace> box) => box.WidthMm > 185 && box.HeightMm < 0.35;
    }

    private static PaperSize A4 => PaperSize.All.Single(paper => paper.Name == "A4");
}
