using System;
using System.Collections.Generic;
using System.Linq;
using System.Text;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Separations;
using Lampblack.Sheets;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Register;

public sealed class SecondPassTests
{
    private const double ChokeMm = 0.5;

    private const string Small = """
        lampblack = 1
        [[panel]]
        id = "p"
        size = [60, 40]
        [[panel.legend]]
        text = "SHUTTER"
        at = [30, 28]
        height = 4
        [[panel.legend]]
        text = "HOT"
        at = [30, 12]
        height = 4
        role = "hidden"
        [[panel.area]]
        box = [45, 5, 10, 8]
        role = "lit"
        ink = "red"
        [[panel.control]]
        part = "toggle-mini-on-on"
        at = [10, 20]
        """;

    public static TheoryData<string> Blacks => ["gray", "safe"];

    [Theory]
    [InlineData(0.5, 0.5)]
    [InlineData(0.15, 0.5)]
    [InlineData(0.8, 0.8)]
    public void The_choke_is_the_spread_and_never_less_than_the_usual_one(double spreadMm, double chokeMm) =>
        Assert.Equal(chokeMm, SecondPassAreas.ChokeMm(spreadMm, PrinterProperties.Unmeasured.SpreadMm));

    [Theory]
    [MemberData(nameof(Blacks))]
    public void A_second_pass_that_lies_off_by_up_to_the_choke_covers_no_opening_of_the_first(string black)
    {
        var panel = Desk(black).Panels[0];
        var sheet = Region<PanelSpace>.Rectangle(panel.Bleed);
        var openInFront = sheet.Except(panel.Shapes.FrontBlack).Union(Region<PanelSpace>.Union(panel.Shapes.Covers.Select(cover => cover.Region)));
        foreach (var (again, open) in new[]
        {
            (SecondPassAreas.Front(panel, ChokeMm), openInFront),
            (SecondPassAreas.Mask(panel, ChokeMm), sheet.Except(panel.Shapes.MaskBlack)),
        })
        {
            // Neither empty nor little: what is left out is the openings, their borders and the sheet's edge.
            Assert.True(again[0].Region.AreaMm2 > 0.9 * sheet.Except(open.Grow(ChokeMm + 0.02)).Intersect(Region<PanelSpace>.Rectangle(panel.Bleed.Grow(-ChokeMm))).AreaMm2);
            foreach (var area in again)
            {
                Assert.All(Moves(ChokeMm), move => Assert.InRange(area.Region.Map(move).Intersect(open).AreaMm2, 0, 1e-6));
            }

            Assert.Contains(Moves(ChokeMm + 0.1), move => again[0].Region.Map(move).Intersect(open).AreaMm2 > 0.1);
        }
    }

    [Fact]
    public void K_carries_the_edge_of_a_second_pass_too()
    {
        var again = SecondPassAreas.Mask(Desk("safe").Panels[0], ChokeMm);
        Assert.Equal([Ink.FullK, Ink.Cmyk(0.6, 0.4, 0.4, 1)], again.Select(area => area.Ink));
        Assert.InRange(again[1].Region.Grow(0.08).Except(again[0].Region).AreaMm2, 0, 1e-6);
        Assert.Equal([Ink.Gray(0)], SecondPassAreas.Mask(Desk("gray").Panels[0], ChokeMm).Select(area => area.Ink));
    }

    [Fact]
    public void A_field_that_is_not_black_is_not_printed_twice_and_its_maker_is_told()
    {
        var panel = SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small.Replace("size = [60, 40]", "size = [60, 40]\nfield = \"gray\"", StringComparison.Ordinal)), "gray").Panels[0];
        Assert.Empty(SecondPassAreas.Front(panel, ChokeMm));
        Assert.Equal("second-pass-field", Assert.Single(SecondPassAreas.CheckFront(panel)).Code);
        Assert.NotEmpty(SecondPassAreas.Mask(panel, ChokeMm));
        Assert.Empty(SecondPassAreas.CheckFront(Desk("gray").Panels[0]));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Fed_other_edge_first_the_second_pass_falls_on_the_black_of_the_first(bool ofMask)
    {
        var desk = Desk("gray");
        var sheet = Twice(desk);
        var first = Render(ofMask ? SheetPdf.MaskPage(sheet, desk.Printer) : SheetPdf.FrontPage(sheet, desk.Printer));
        var second = Render((ofMask ? SheetPdf.MaskAgainPage(sheet, desk.Printer) : SheetPdf.FrontAgainPage(sheet, desk.Printer))!);
        var trim = sheet.Panels[0].Trim;
        var map = ofMask ? PageMapping.Back(desk.Printer, sheet.Paper) : PageMapping.Front(desk.Printer);
        var box = Box<PageSpace>.Between(map.Apply(new(trim.LeftMm, trim.BottomMm)), map.Apply(new(trim.RightMm, trim.TopMm)));
        var (beside, on, sameEdge) = (0, 0, 0);
        for (var dot = 0; dot < first.Length; dot++)
        {
            // Page 0,0 is below on the left; plates begin above. A half-turn is the plate read backwards.
            var (x, y) = (dot % Width * 25.4 / SeparatedDesk.Dpi, (Height - (dot / Width)) * 25.4 / SeparatedDesk.Dpi);
            if (!box.Grow(-0.1).Contains(new Point<PageSpace>(x, y)))
            {
                continue;
            }

            beside += second[^(dot + 1)] > 0 && first[dot] == 0 ? 1 : 0;
            on += second[^(dot + 1)] > 0 && first[dot] > 0 ? 1 : 0;
            sameEdge += second[dot] > 0 ? 1 : 0;
        }

        Assert.Equal(0, beside);
        Assert.True(on > 500_000);
        Assert.True(sameEdge < on / 2, "the page is not turned by half");
    }

    [Theory]
    [InlineData(false, false)]
    [InlineData(true, false)]
    [InlineData(true, true)]
    public void It_says_what_it_is_and_how_to_feed_it_in_a_line_that_reads_right_as_it_comes_out(bool ofMask, bool halfTurn)
    {
        var desk = Desk("gray");
        var sheet = Twice(desk);
        var printer = desk.Printer with { HalfTurnOfBack = halfTurn };
        var page = (ofMask ? SheetPdf.MaskAgainPage(sheet, printer) : SheetPdf.FrontAgainPage(sheet, printer))!;
        var note = page.Areas[^1].Region;
        var words = $"SECOND PASS OF THE {(ofMask ? "MASK" : "FRONT")}, pair {sheet.PairCode}: lay the printed sheet in once more, other edge first, this side to be printed";
        var line = SmallLetters.Centred(words, 3, new(0, 0));
        var (have, want) = (note.Bounds, line.Bounds);
        Assert.Equal(want.WidthMm, have.WidthMm, 0.001);
        Assert.Equal(want.HeightMm, have.HeightMm, 0.001);
        var there = line.Map(Affine<PageSpace, PageSpace>.Shift(have.LeftMm - want.LeftMm, have.BottomMm - want.BottomMm));
        Assert.InRange(there.Except(note).AreaMm2 + note.Except(there).AreaMm2, 0, 0.01);
    }

    [Fact]
    public void Of_what_the_printer_does_turn_and_scale_are_undone_for_the_other_edge_and_a_shift_is_not()
    {
        var paper = PaperSize.Find("A4")!;
        var middle = new Point<SheetSpace>(105, 148.5);
        var turn = Affine<SheetSpace, SheetSpace>.Shift(-105, -148.5).Then(Affine<SheetSpace, SheetSpace>.Scale(1.002, 0.999)).Then(Affine<SheetSpace, SheetSpace>.Turn(0.4)).Then(Affine<SheetSpace, SheetSpace>.Shift(106.5, 147));
        var printer = PrinterProperties.Unmeasured with { SideTwo = turn };
        var page = PageMapping.BackAgain(printer, paper).Apply(middle);
        Assert.Equal((105, 148.5), (Math.Round(page.XMm, 9), Math.Round(page.YMm, 9)));

        // What the same turn and scale then do to the page, seen from the front after half a turn, brings a corner home.
        var corner = new Point<SheetSpace>(20, 30);
        var printed = PageMapping.BackAgain(printer, paper).Apply(corner);
        var seen = new Point<SheetSpace>(printed.XMm, paper.HeightMm - printed.YMm);
        var landed = turn.Then(Affine<SheetSpace, SheetSpace>.Shift(-1.5, 1.5)).Apply(seen);
        Assert.InRange(landed.DistanceMm(corner), 0, 1e-9);
        Assert.Equal(0, PageMapping.FrontAgain(printer, paper).Apply(middle).DistanceMm(new(105, 148.5)), 9);
    }

    private static int Width => 4960;

    private static int Height => 7015;

    private static SeparatedDesk Desk(string black) => SeparatedDesk.Of(Encoding.UTF8.GetBytes(Small), black);

    private static Sheet Twice(SeparatedDesk desk)
    {
        var sheet = desk.Sheets[0];
        return sheet with
        {
            Panels = [.. sheet.Panels.Select(placed => placed with
            {
                Panel = placed.Panel with { FrontAgain = SecondPassAreas.Front(desk.Panels[0], ChokeMm), MaskAgain = SecondPassAreas.Mask(desk.Panels[0], ChokeMm) },
            })],
        };
    }

    private static byte[] Render(PdfPage page)
    {
        var plates = GhostscriptPlates.Render(PdfFile.Write([page], new("pass", PdfSides.OneSided)).AsSpan(), SeparatedDesk.Dpi)[0];
        Assert.Equal((Width, Height), (plates.WidthPx, plates.HeightPx));
        return plates.Black;
    }

    private static IEnumerable<Affine<PanelSpace, PanelSpace>> Moves(double byMm) => Enumerable.Range(0, 16)
        .Select(step => new Point<PanelSpace>(0, 0).Polar(byMm, step * 22.5)).Select(to => Affine<PanelSpace, PanelSpace>.Shift(to.XMm, to.YMm));
}
