using System;
using System.Collections.Immutable;
using System.Linq;
using CsCheck;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Xunit;

namespace Lampblack.Tests.Sheets;

public sealed class ImpositionTests
{
    private static readonly PrinterProperties Printer = PrinterProperties.Unmeasured;

    [Theory]
    [InlineData("A4", "180x110 180x80", 1)]
    [InlineData("Letter", "180x110 180x80", 1)]
    [InlineData("A4", "240x120", 1)]
    [InlineData("A3", "180x110 180x80 240x120", 1)]
    [InlineData("A4", "180x110 180x110 180x110", 2)]
    [InlineData("A4", "100x180 100x180", 1)]
    [InlineData("A4", "100x180 85x120 85x120", 1)]
    [InlineData("A4", "90x60 90x60 90x60 90x60", 1)]
    public void Panels_go_on_as_few_sheets_as_fit(string paper, string sizes, int sheets) => Assert.Equal(sheets, Compose(paper, sizes).Value.Length);

    [Fact]
    public void Nothing_overlaps_and_everything_stays_inside_the_printable_room() => Gen.Int[20, 190].Select(Gen.Int[20, 190]).Array[1, 7].Sample(
        panels =>
        {
            var sizes = string.Join(' ', panels.Select(panel => $"{panel.Item1}x{panel.Item2}"));
            foreach (var sheet in Compose("A4", sizes, fill: true).Value)
            {
                Box<SheetSpace>[] boxes = [.. sheet.Panels.Select(panel => panel.Block), .. sheet.Gauges.Select(gauge => gauge.Box)];
                var room = new Box<SheetSpace>(5, 12, 200, 273).Grow(1e-6);
                for (var first = 0; first < boxes.Length; first++)
                {
                    Assert.True(room.Contains(boxes[first]), $"{boxes[first]} leaves the room ({sizes})");
                    for (var second = first + 1; second < boxes.Length; second++)
                    {
                        Assert.False(boxes[first].Overlaps(boxes[second], 1e-6), $"{boxes[first]} and {boxes[second]} overlap ({sizes})");
                    }
                }
            }
        }, iter: 60);

    [Fact]
    public void Every_panel_is_placed_exactly_once_beside_its_spares()
    {
        var sheets = Compose("A4", "90x60 60x40 30x30", fill: true);
        foreach (var id in new[] { "p0", "p1", "p2" })
        {
            Assert.Single(sheets.Value.SelectMany(sheet => sheet.Panels), panel => panel.Panel.Id == id && !panel.Spare);
        }

        Assert.Contains(sheets.Value.SelectMany(sheet => sheet.Panels), panel => panel.Spare);
    }

    [Fact]
    public void A_panel_wider_than_the_page_is_turned_and_the_page_stays_upright()
    {
        var sheet = Assert.Single(Compose("A4", "240x120").Value);
        var placed = Assert.Single(sheet.Panels);
        Assert.Equal(1, placed.QuarterTurns);

        // Counter-clockwise: the panel's upper edge stands on the left.
        var top = placed.Map.Apply(new(120, 120));
        Assert.Equal(placed.Trim.LeftMm, top.XMm, 9);
        Assert.True(sheet.Paper.WidthMm < sheet.Paper.HeightMm);
    }

    [Theory]
    [InlineData("A4", "285x180", "A3")]
    [InlineData("Letter", "270x180", "A3")]
    public void A_panel_too_large_for_the_paper_is_told_which_paper_would_do(string paper, string size, string larger)
    {
        var stop = Assert.Single(Compose(paper, size).Findings, finding => finding.Severity == Severity.Stop);
        Assert.Equal("panel-too-large", stop.Code);
        Assert.Contains(larger, stop.Hint, StringComparison.Ordinal);
    }

    [Fact]
    public void A_panel_too_large_for_any_paper_is_told_how_to_split_so_that_the_pieces_fit()
    {
        Assert.Contains("split it into 3 panels of 233.3 x 100 mm", Hint("700x100"), StringComparison.Ordinal);
        Assert.Contains("split it into 4 panels of 250 x 150 mm", Hint("500x300"), StringComparison.Ordinal);
        Assert.DoesNotContain(Compose("A4", "250x150").Findings, finding => finding.Severity == Severity.Stop);

        static string Hint(string size) => Assert.Single(Compose("A4", size).Findings, finding => finding.Severity == Severity.Stop).Hint;
    }

    [Fact]
    public void A_panel_that_needs_the_leading_edge_is_reported()
    {
        // 195 mm fills A4's width only without trim marks; 280 mm its height only with toner near the leading edge.
        Assert.Contains(Compose("A4", "190x275").Findings, finding => finding.Code == "leading-edge-toner");
        Assert.DoesNotContain(Compose("A4", "180x110").Findings, finding => finding.Code == "leading-edge-toner");
    }

    [Fact]
    public void A_panel_that_only_lacks_room_for_trim_marks_stays_off_the_end_strips()
    {
        var composed = Compose("A4", "100x265 80x60");
        Assert.Equal("trim-marks-no-room p0", string.Join(' ', composed.Findings.Where(finding => finding.Code is "trim-marks-no-room" or "leading-edge-toner").Select(finding => $"{finding.Code} {finding.Item}")));
        Assert.All(composed.Value.SelectMany(sheet => sheet.Panels), panel => Assert.InRange(panel.Block.BottomMm, 12, 285));
        Assert.All(composed.Value.SelectMany(sheet => sheet.Panels), panel => Assert.InRange(panel.Block.TopMm, 12, 285 + 1e-6));
    }

    [Fact]
    public void Beside_a_panel_that_needs_the_end_strips_no_other_one_uses_them()
    {
        var composed = Compose("A4", "100x275 60x40");
        var small = composed.Value.SelectMany(sheet => sheet.Panels).Single(panel => panel.Panel.Id == "p1");
        Assert.InRange(small.Block.BottomMm, 12, 285);
    }

    [Fact]
    public void Nothing_of_the_end_strips_covers_a_panel_that_reaches_into_them()
    {
        foreach (var size in new[] { "190x275", "194x281", "100x275" })
        {
            var sheet = Assert.Single(Compose("A4", size).Value);
            var panel = Region<SheetSpace>.Rectangle(sheet.Panels[0].Trim.Grow(3));
            Assert.All(sheet.Front.Skip(1).Concat(sheet.Back.Skip(1)), area => Assert.True(area.Region.Intersect(panel).AreaMm2 < 1e-6, size));
        }
    }

    [Fact]
    public void A_long_title_stays_between_the_turn_boxes()
    {
        var title = string.Concat(Enumerable.Repeat("Kiln monitor 🔥 with every control there is ", 3000));
        var sheet = Assert.Single(SheetsOf.Panels(title, [Blank("p", 100, 60)], PaperSize.Find("A4")!, Printer, Printer.Builds[0], new(false)).Value);
        foreach (var line in new[] { sheet.Front[^1].Region, sheet.Back[^1].Region })
        {
            Assert.InRange(line.Bounds.LeftMm, 15, 60);
            Assert.InRange(line.Bounds.RightMm, 150, 195);
        }
    }

    [Theory]
    [InlineData(45, 120, 30)]
    [InlineData(0, 120, 30)]
    [InlineData(0, 60, 60)]
    public void Gauges_in_holes_lie_wholly_inside_them(double turn, double width, double height)
    {
        var shape = Region<ItemSpace>.RoundedRectangle(new(-width / 2, -height / 2, width, height), 15);
        var hole = shape.Map(Affine<ItemSpace, ItemSpace>.Turn(turn).Then(Affine<ItemSpace, PanelSpace>.Shift(93, 129)));
        var panel = Blank("p", 186, 258) with { Holes = hole };
        var sheet = Assert.Single(SheetsOf.Panels("T", [panel], PaperSize.Find("A4")!, Printer, Printer.Builds[0], new(false)).Value);
        var there = hole.Map(sheet.Panels[0].Map);
        Assert.All(sheet.Gauges, gauge => Assert.True(there.Contains(Region<SheetSpace>.Rectangle(gauge.Box)), gauge.Name));
        Assert.Equal(turn == 0, !sheet.Gauges.IsEmpty);
    }

    [Fact]
    public void A_tape_hinge_of_twelve_millimetres_stays_on_one_long_side_where_there_is_room()
    {
        var placed = Assert.Single(Assert.Single(Compose("A4", "180x110").Value).Panels);
        Assert.Equal(12, placed.Hinge!.Value.HeightMm, 9);
        Assert.Equal(180, placed.Hinge!.Value.WidthMm, 9);
    }

    [Fact]
    public void A_sheet_without_room_for_a_gauge_says_so() =>
        Assert.Contains(Compose("A4", "186x258").Findings, finding => finding.Code == "gauge-no-room");

    [Fact]
    public void Both_sides_carry_the_same_pair_code_and_another_content_another_one()
    {
        var one = Assert.Single(Compose("A4", "100x60").Value);
        var other = Assert.Single(Compose("A4", "100x61").Value);
        Assert.Matches("^[2-9A-HJ-NP-Z]{6}$", one.PairCode);
        Assert.NotEqual(one.PairCode, other.PairCode);
        Assert.Equal(one.PairCode, Assert.Single(Compose("A4", "100x60").Value).PairCode);
    }

    private static Checked<ImmutableArray<Sheet>> Compose(string paper, string sizes, bool fill = false)
    {
        var panels = sizes.Split(' ').Select((size, index) =>
        {
            var numbers = size.Split('x').Select(number => double.Parse(number, System.Globalization.CultureInfo.InvariantCulture)).ToArray();
            return Blank($"p{index}", numbers[0], numbers[1]);
        });
        return SheetsOf.Panels("Test", [.. panels], PaperSize.Find(paper)!, Printer, Printer.Builds[0], new(fill));
    }

    private static Printable Blank(string id, double widthMm, double heightMm)
    {
        var area = Region<PanelSpace>.Rectangle(new Box<PanelSpace>(0, 0, widthMm, heightMm).Grow(3));
        return new(id, id.ToUpperInvariant(), widthMm, heightMm, 3, [new(area, Ink.FullK)], [new(area, Ink.FullK)], Region<PanelSpace>.Empty);
    }
}
