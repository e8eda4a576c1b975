using System;
using System.Collections.Concurrent;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Lampblack.Tests.Peers;
using Lampblack.Tests.Printers;
using Lampblack.Tests.Register;
using UglyToad.PdfPig;
using Xunit;

namespace Lampblack.Tests.Calibration;

/// <summary>The calibration sheet as an independent rasteriser prints it and an independent reader sees it. The back is turned over here as paper is: right becomes left.</summary>
public sealed class CalibrationSheetOnPaperTests
{
    private const int Dpi = 200;
    private const double DotMm = 25.4 / Dpi;

    private static readonly ConcurrentDictionary<(string Paper, string File), InkPlates> Rendered = new();

    public static TheoryData<string> Papers => new("A4", "Letter", "A3");

    [Theory]
    [MemberData(nameof(Papers))]
    public void Each_mark_is_where_the_plan_says_and_tells_its_number_on_both_sides(string paper)
    {
        var plan = PlanOf(paper);
        var (front, page) = (Page(paper, "front.pdf"), Page(paper, "back.pdf"));
        var back = SheetPlates.Mirrored(page);
        foreach (var mark in plan.Marks)
        {
            Assert.Equal((mark.Number, 0, false), RingCodes.Read(Ring(front, mark.Place, 8, isDark: false)));
            Assert.Equal((mark.Number, 0, false), RingCodes.Read(Ring(back, mark.Place, 2.7, isDark: true)));

            // Seen from its own side the back's code is mirrored, and says so.
            var seen = RingCodes.Read(Ring(page, new(plan.Paper.WidthMm - mark.Place.XMm, mark.Place.YMm), 2.7, isDark: true));
            Assert.Equal((mark.Number, true), (seen!.Value.Number, seen.Value.IsMirrored));

            // In register: the middle of what is clear in the front, and that of what is dark on the back.
            var window = Middle(front, mark.Place, RegisterMark.WindowRadiusMm + 0.5, isDark: false);
            var disc = Middle(back, mark.Place, RegisterMark.DiscRadiusMm + 0.35, isDark: true);
            Assert.True((window - mark.Place).LengthMm < DotMm && (disc - mark.Place).LengthMm < DotMm, $"mark {mark.Number}");
        }

        // The turn mark, and three places without one.
        var turn = plan.TurnPlaces.Select(place => RingCodes.Read(Ring(back, place, 2.7, isDark: true))).ToList();
        Assert.Equal((CalibrationPlan.TurnMarkNumber, 0, false), turn[0]);
        Assert.All(turn.Skip(1), Assert.Null);
        Assert.All(plan.TurnPlaces, place => Assert.Equal(0, Ink(front, new Box<SheetSpace>(place.XMm, place.YMm, 0, 0).Grow(CalibrationPlan.HalfTurnPlaceMm - DotMm))));
    }

    [Theory]
    [MemberData(nameof(Papers))]
    public void Both_sides_say_copy_paper_and_side(string paper)
    {
        var plan = PlanOf(paper);
        var number = PaperSize.All.IndexOf(plan.Paper);
        Assert.Equal(new(1, number, CalibrationPlan.Version, false, false), Row(Page(paper, "front.pdf"), plan.FrontCode, isDark: false));
        Assert.Equal(new(1, number, CalibrationPlan.Version, false, true), Row(SheetPlates.Mirrored(Page(paper, "back.pdf")), plan.BackCode, isDark: true));
    }

    [Fact]
    public void Copies_have_their_own_numbers_and_a_half_turned_back_says_so_and_is_turned()
    {
        var turned = PrinterSamples.New() with { Turns = [new(Tick.B, PrintedFace.Unknown)] };
        var plan = PlanOf("A4");
        var files = CalibrationSheetJob.Run("A4", turned, "study", 3).Value;
        var fronts = GhostscriptPlates.Render(Bytes(files, "front.pdf"), 100);
        var backs = GhostscriptPlates.Render(Bytes(files, "back.pdf"), 100).Select(HalfTurned).Select(SheetPlates.Mirrored).ToList();
        Assert.Equal(3, fronts.Length);
        for (var copy = 1; copy <= 3; copy++)
        {
            Assert.Equal(new(copy, 0, CalibrationPlan.Version, false, false), Row(fronts[copy - 1], plan.FrontCode, isDark: false, 100));
            Assert.Equal(new(copy, 0, CalibrationPlan.Version, true, true), Row(backs[copy - 1], plan.BackCode, isDark: true, 100));
        }

        using var duplex = PdfDocument.Open(Bytes(files, "duplex.pdf"));
        Assert.Equal(6, duplex.NumberOfPages);
    }

    [Theory]
    [MemberData(nameof(Papers))]
    public void Nothing_is_printed_outside_the_margins_and_heavy_toner_stays_off_both_ends(string paper)
    {
        foreach (var page in new[] { Page(paper, "front.pdf"), Page(paper, "back.pdf") })
        {
            for (var dot = 0; dot < page.Black.Length; dot++)
            {
                var (x, y) = ((dot % page.WidthPx) + 0.5, page.HeightPx - (dot / page.WidthPx) - 0.5);
                var inks = page.Cyan[dot] + page.Magenta[dot] + page.Yellow[dot];
                var edgeMm = DotMm * new[] { x, y, page.WidthPx - x, page.HeightPx - y }.Min();
                var endMm = DotMm * Math.Min(y, page.HeightPx - y);
                Assert.False(edgeMm < 8 - DotMm && page.Black[dot] + inks > 0, $"ink {edgeMm:0.0} mm from an edge");
                Assert.False(endMm < 10 && inks > 0, $"heavy toner {endMm:0.0} mm from an end");
            }
        }
    }

    [Fact]
    public void Each_patch_has_its_inks_on_its_sides_and_is_an_image_or_not()
    {
        var plan = PlanOf("A4");
        var (front, back) = (Page("A4", "front.pdf"), SheetPlates.Mirrored(Page("A4", "back.pdf")));
        var (frontImages, backImages) = (Images("front.pdf", isBack: false), Images("back.pdf", isBack: true));
        foreach (var patch in CalibrationPatches.Of(plan))
        {
            AssertInk(patch.Front, front, patch);
            AssertInk(patch.Back, back, patch);
            Assert.Equal(patch.IsImage && patch.Front is not null, frontImages.Any(image => (image - patch.Box.Centre).LengthMm < 0.02));
            Assert.Equal(patch.IsImage && patch.Back is not null, backImages.Any(image => (image - patch.Box.Centre).LengthMm < 0.02));
        }

        List<Point<SheetSpace>> Images(string file, bool isBack)
        {
            using var pdf = PdfDocument.Open(Bytes(Files("A4", PrinterSamples.New()), file));
            return [.. pdf.GetPage(1).GetImages().Select(image =>
            {
                var (x, y) = (image.BoundingBox.Centroid.X * 25.4 / 72, image.BoundingBox.Centroid.Y * 25.4 / 72);
                return new Point<SheetSpace>(isBack ? plan.Paper.WidthMm - x : x, y);
            })];
        }
    }

    [Fact]
    public void A_sheet_for_a_printer_with_black_only_has_no_other_ink()
    {
        var files = Files("A4", PrinterSamples.New(PrinterSamples.Colour with { Colour = false }));
        foreach (var name in new[] { "front.pdf", "back.pdf" })
        {
            var page = GhostscriptPlates.Render(Bytes(files, name), 100)[0];
            Assert.Equal((0, 0, 0), (page.Cyan.Max(), page.Magenta.Max(), page.Yellow.Max()));
            Assert.True(page.Black.Average(amount => amount / 255.0) > 0.3);
        }
    }

    [Fact]
    public void Its_toner_is_two_thirds_of_a_production_sheet_s_and_its_back_s_three_quarters()
    {
        // A sheet full of panels (examples/dome-desk on A4), by the same program: 1.43 layers over the whole front, 1.30 over its mask; 1.29 and 1.17 for yard-board.
        Assert.InRange(Load(Page("A4", "front.pdf")), 0.66 * 1.43, 1.43);
        Assert.InRange(Load(Page("A4", "back.pdf")), 0.75 * 1.3, 1.3);
        Assert.InRange(Load(Page("Letter", "back.pdf")), 0.74 * 1.3, 1.3);

        static double Load(InkPlates page) => new[] { page.Cyan, page.Magenta, page.Yellow, page.Black }.Sum(plate => plate.Average(amount => amount / 255.0));
    }

    [Fact]
    public void The_bars_are_180_and_250_mm_long()
    {
        var page = Page("A4", "front.pdf");
        var across = Enumerable.Range(0, (int)(12 / DotMm)).Max(row => Longest(Enumerable.Range(0, page.WidthPx).Select(column => page.At(column, page.HeightPx - 1 - row).Black)));
        var along = Enumerable.Range(0, (int)(12 / DotMm)).Max(column => Longest(Enumerable.Range(0, page.HeightPx).Select(row => page.At(column, row).Black)));
        Assert.InRange(across * DotMm, 180 - (2 * DotMm), 180 + (2 * DotMm));
        Assert.InRange(along * DotMm, 250 - (2 * DotMm), 250 + (2 * DotMm));

        static int Longest(IEnumerable<byte> amounts)
        {
            var (longest, run) = (0, 0);
            foreach (var amount in amounts)
            {
                run = amount > 127 ? run + 1 : 0;
                longest = Math.Max(longest, run);
            }

            return longest;
        }
    }

    [Fact]
    public void The_same_sheet_has_the_same_bytes_whatever_was_learned_of_the_register()
    {
        var plain = Files("A4", PrinterSamples.New());
        var learned = PrinterSamples.New() with { Register = [PrinterSamples.Entry((_, _) => (0.4, -0.3))] };
        Assert.Equal(plain.Select(file => file.Bytes), Files("A4", learned).Select(file => file.Bytes));
    }

    [Theory]
    [InlineData("A7", 5, 1, "paper-unknown")]
    [InlineData("Letter", 5, 1, "printer-other-paper")]
    [InlineData("A4", 8.5, 1, "sheet-no-room")]
    [InlineData("A4", 5, 0, "copies-range")]
    [InlineData("A4", 5, 256, "copies-range")]
    public void What_cannot_be_made_says_why(string paper, double marginMm, int copies, string code)
    {
        var made = CalibrationSheetJob.Run(paper, PrinterSamples.New(PrinterSamples.Colour with { MarginMm = marginMm }), "study", copies);
        Assert.Equal(code, Assert.Single(made.Findings).Code);
        Assert.Empty(made.Value);
    }

    [Fact]
    public void A_small_paper_has_no_room() =>
        Assert.Equal("sheet-no-room", Assert.Single(CalibrationSheetJob.Run("A5", PrinterSamples.New(PrinterSamples.Colour with { Paper = "A5" }), "study", 1).Findings).Code);

    private static CalibrationPlan PlanOf(string paper) => CalibrationPlan.Of(PaperSize.Find(paper)!)!;

    private static ImmutableArray<OutputFile> Files(string paper, PrinterFile printer) =>
        CalibrationSheetJob.Run(paper, printer with { Path = printer.Path with { Paper = paper } }, "study", 1).Value;

    private static byte[] Bytes(IEnumerable<OutputFile> files, string name) => [.. files.Single(file => file.Path == name).Bytes];

    private static InkPlates Page(string paper, string file) =>
        Rendered.GetOrAdd((paper, file), page => Assert.Single(GhostscriptPlates.Render(Bytes(Files(page.Paper, PrinterSamples.New()), page.File), Dpi)));

    private static InkPlates HalfTurned(InkPlates page)
    {
        return page with { Cyan = Turned(page.Cyan), Magenta = Turned(page.Magenta), Yellow = Turned(page.Yellow), Black = Turned(page.Black) };

        static byte[] Turned(byte[] plate) => [.. plate.Reverse()];
    }

    /// <summary>The twelve cells around a place, each looked at in its middle.</summary>
    private static int Ring(InkPlates page, Point<SheetSpace> middle, double radiusMm, bool isDark)
    {
        var cells = 0;
        for (var cell = 0; cell < 12; cell++)
        {
            var angle = (cell + 0.5) * Math.PI / 6;
            var black = page.AtMm(middle.XMm + (radiusMm * Math.Cos(angle)), middle.YMm + (radiusMm * Math.Sin(angle)), Dpi).Black > 127;
            cells |= black == isDark ? 1 << cell : 0;
        }

        return cells;
    }

    private static SheetCode? Row(InkPlates page, Box<SheetSpace> row, bool isDark, int dpi = Dpi) => SheetCode.Read(Enumerable.Range(0, SheetCode.Cells)
        .Where(cell => page.AtMm(row.LeftMm + ((cell + 0.5) * SheetCode.CellLengthMm), row.Centre.YMm, dpi).Black > 127 == isDark).Sum(cell => 1 << cell));

    /// <summary>The middle of the dots around a place that are dark, or clear.</summary>
    private static Point<SheetSpace> Middle(InkPlates page, Point<SheetSpace> about, double withinMm, bool isDark)
    {
        var dots = new List<Point<SheetSpace>>();
        for (var x = about.XMm - withinMm; x < about.XMm + withinMm; x += DotMm)
        {
            for (var y = about.YMm - withinMm; y < about.YMm + withinMm; y += DotMm)
            {
                var place = new Point<SheetSpace>((Math.Floor(x / DotMm) + 0.5) * DotMm, (Math.Floor(y / DotMm) + 0.5) * DotMm);
                if ((place - about).LengthMm < withinMm && page.AtMm(place.XMm, place.YMm, Dpi).Black > 127 == isDark)
                {
                    dots.Add(place);
                }
            }
        }

        return new(dots.Average(dot => dot.XMm), dots.Average(dot => dot.YMm));
    }

    private static int Ink(InkPlates page, Box<SheetSpace> box)
    {
        var most = 0;
        for (var x = box.LeftMm; x < box.RightMm; x += DotMm)
        {
            for (var y = box.BottomMm; y < box.TopMm; y += DotMm)
            {
                var (cyan, magenta, yellow, black) = page.AtMm(x, y, Dpi);
                most = Math.Max(most, cyan + magenta + yellow + black);
            }
        }

        return most;
    }

    private static void AssertInk(Ink? ink, InkPlates page, CalibrationPatch patch)
    {
        foreach (var (x, y) in new[] { (patch.Core.LeftMm, patch.Core.BottomMm), (patch.Box.Centre.XMm, patch.Box.Centre.YMm), (patch.Core.RightMm, patch.Core.TopMm) })
        {
            var (cyan, magenta, yellow, black) = page.AtMm(x, y, Dpi);
            if (ink?.Space == InkSpace.Rgb)
            {
                // What Ghostscript makes of RGB black is its own affair, but it is not K alone.
                Assert.True(cyan + magenta + yellow + black > 2.5 * 255 && cyan > 0 && magenta > 0 && yellow > 0, patch.Id);
                continue;
            }

            double[] wanted = ink is null ? [0, 0, 0, 0] : ink.Space == InkSpace.Gray ? [0, 0, 0, 1 - ink.Amounts[0]] : [.. ink.Amounts];
            Assert.All(wanted.Zip(new[] { cyan, magenta, yellow, black }), pair => Assert.True(Math.Abs((pair.First * 255) - pair.Second) < 2, patch.Id));
        }
    }
}
