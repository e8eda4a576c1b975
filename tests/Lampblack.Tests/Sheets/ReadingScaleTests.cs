using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Lampblack.Tests.Register;
using Xunit;

namespace Lampblack.Tests.Sheets;

/// <summary>What a maker reads from the scales, the pass band and the toner gauges of a sheet.</summary>
public sealed class ReadingScaleTests
{
    [Theory]
    [InlineData("NE", 0, 0)]
    [InlineData("NE", 1.5, -0.5)]
    [InlineData("NW", -3.5, 3.5)]
    [InlineData("SE", 0.5, 2)]
    [InlineData("SW", -1, -3)]
    public void The_backs_line_stands_at_the_mark_of_its_shift(string name, double right, double up)
    {
        var sheet = Sheet("safe", 0.5);
        var middle = Room(sheet).ReadingScales.Single(scale => scale.Name == name).Middle;
        var place = Region<SheetSpace>.Rectangle(new(middle.XMm - 7, middle.YMm - 3.6, 14.5, 7.2));
        var ticks = Black(sheet.Front).Intersect(place).Pieces.Where(piece => piece.Bounds is { WidthMm: > 5 } or { HeightMm: > 5 }).ToList();
        Assert.Equal(2, ticks.Count);
        var across = ticks.Single(piece => piece.Bounds.WidthMm > piece.Bounds.HeightMm);
        var upright = ticks.Single(piece => piece.Bounds.WidthMm < piece.Bounds.HeightMm);
        var lines = Black(sheet.Back).Intersect(place).Pieces.Select(piece => piece.Map(Affine<SheetSpace, SheetSpace>.Shift(right, up))).ToList();

        // Counted as a maker counts: marks from the longest one, in steps of half a millimetre.
        var standing = lines.Single(line => line.Bounds.HeightMm > line.Bounds.WidthMm).Bounds.Centre.XMm;
        var lying = lines.Single(line => line.Bounds.HeightMm < line.Bounds.WidthMm).Bounds.Centre.YMm;
        Assert.Equal(right, standing - across.Bounds.Centre.XMm, 6);
        Assert.Equal(up, lying - upright.Bounds.Centre.YMm, 6);
        Assert.Equal(7.12, across.Bounds.WidthMm, 6);
        Assert.Equal(7.12, upright.Bounds.HeightMm, 6);
    }

    [Theory]
    [InlineData(0.5, 2, 0.3)]
    [InlineData(0.3, 1, 0.2)]
    [InlineData(0.15, 0, 0.1)]
    [InlineData(0.1, -1, 0)]
    [InlineData(1, 6, 0.7)]
    public void The_pass_band_keeps_the_worst_shift_it_lets_pass_within_the_spread(double spreadMm, int most, double readingMm)
    {
        Assert.Equal(most, PassLimits.MostDots(spreadMm));
        Assert.Equal(readingMm, PassLimits.MostReadingMm(spreadMm), 9);

        // A count of n stands for less than n + 1 tenths, each way.
        Assert.True(most < 0 || Math.Sqrt(2) * (most + 1) * 0.1 <= spreadMm + 1e-9);
        Assert.True(Math.Sqrt(2) * (most + 2) * 0.1 > spreadMm);
        Assert.True(Math.Sqrt(2) * readingMm <= spreadMm + 1e-9);
    }

    [Theory]
    [InlineData("safe", true, true)]
    [InlineData("full", true, true)]
    [InlineData("K", false, true)]
    [InlineData("gray", false, false)]
    public void Gauges_that_mean_nothing_for_a_black_are_left_out(string black, bool patches, bool coverage)
    {
        var names = Sheet(black, 0.5).Gauges.Select(gauge => gauge.Name).ToList();
        Assert.Equal(patches, names.Contains("patches"));
        Assert.Equal(coverage, names.Contains("coverage"));
    }

    [Fact]
    public void The_patches_of_the_coverage_row_carry_what_is_written_under_them_with_full_K()
    {
        var sheet = Sheet("safe", 0.5);
        var box = sheet.Gauges.Single(gauge => gauge.Name == "coverage").Box;
        var patches = sheet.Front.Where(area => box.Contains(area.Region.Bounds) && area.Region.AreaMm2 is > 30 and < 40).ToList();
        Assert.Equal([1.6, 2, 2.4, 2.6, 2.8, 3, 3.2, 3.6, 4], patches.Select(area => Math.Round(area.Ink.TotalCoverage, 6)).Order());
        Assert.All(patches, area => Assert.Equal(1, area.Ink.Amounts[3]));
    }

    [Fact]
    public void Sheets_say_which_register_they_were_made_with_and_ask_no_more_what_toner_holds()
    {
        var file = PrinterFile.New("p", new(true, null, "A4", null, FirstEdge.Short, Turning.ByHand, SideOrder.FrontFirst, null, 5, 10)) with
        {
            Register = [new("dots", [new(0, 0, 0.2, 0, 0.1)])],
            Coverage = [new([3], [2.6])],
        };
        var before = Composed(PrinterProperties.Of(PrinterFile.New("p", file.Path), PaperSize.Find("A4")!));
        var after = Composed(PrinterProperties.Of(file, PaperSize.Find("A4")!));
        Assert.Equal("learned", PrinterProperties.Of(file, PaperSize.Find("A4")!).Builds[0].Name);
        Assert.True(after.Front[^1].Region.Bounds.WidthMm > before.Front[^1].Region.Bounds.WidthMm + 5, "no room is taken by `register 1`");
        Assert.Contains(before.Gauges, gauge => gauge.Name == "coverage");
        Assert.DoesNotContain(after.Gauges, gauge => gauge.Name == "coverage");
    }

    [Theory]
    [InlineData("A4")]
    [InlineData("Letter")]
    [InlineData("Legal")]
    [InlineData("A3")]
    [InlineData("Tabloid")]
    public void Nothing_in_the_end_strips_stands_on_anything_else(string paper)
    {
        var sheet = Sheet("safe", 0.5, paper, new string('W', 120));
        var title = sheet.Front[^1].Region;
        var rest = Region<SheetSpace>.Union(sheet.Front[..^1].Select(area => area.Region));
        Assert.True(title.Bounds.WidthMm > 100);
        Assert.True(title.Grow(0.3).Intersect(rest).IsEmpty);
        foreach (var (name, middle) in Room(sheet).ReadingScales)
        {
            // Every shape lies within the scale's room or keeps off it; a register mark may stand at its border, 0.9 mm below the scale.
            var room = Region<SheetSpace>.Rectangle(new(middle.XMm - 6.8, middle.YMm - 4.4, 14, 8.4));
            Assert.All(rest.Union(title).Pieces.Where(piece => piece.Touches(room.Grow(-1e-6))), piece => Assert.True(room.Contains(piece), $"{name}: {piece.Bounds}"));
        }
    }

    [Fact]
    public void Sheets_made_before_and_after_a_lesson_have_other_pair_codes()
    {
        var printer = PrinterProperties.Unmeasured;
        var codes = new[]
        {
            printer,
            printer with { SideTwo = Affine<SheetSpace, SheetSpace>.Shift(0.1, 0) },
            printer with { SideOne = Affine<SheetSpace, SheetSpace>.Scale(0.999, 1) },
            printer with { HalfTurnOfBack = true },
        }.Select(known => Composed(known).PairCode).ToList();
        Assert.Equal(4, codes.Distinct().Count());
        Assert.Equal(codes[0], Composed(printer).PairCode);
    }

    private static Sheet Composed(PrinterProperties printer) => Assert.Single(SheetsOf.Panels(
        "T", [new("p", "P", 100, 60, 3, [], [], Region<PanelSpace>.Empty)], PaperSize.Find("A4")!, printer, printer.Builds[0], new(false)).Value);

    private static SheetRoom Room(Sheet sheet) => SheetRoom.Of(sheet.Paper, PrinterProperties.Unmeasured);

    private static Sheet Sheet(string black, double spreadMm, string paper = "A4", string title = "T") => SeparatedDesk.Of(
        Encoding.UTF8.GetBytes($"lampblack = 1\ntitle = \"{title}\"\n[[panel]]\nid = \"p\"\nsize = [100, 60]\n[[panel.legend]]\ntext = \"A\"\nat = [50, 30]\n"),
        black, spreadMm, PaperSize.Find(paper)).Sheets[0];

    private static Region<SheetSpace> Black(ImmutableArray<Painted<SheetSpace>> areas) => Region<SheetSpace>.Union(areas.Select(area => area.Region));
}
