using System;
using System.Linq;
using System.Text;
using Lampblack.Artwork;
using Lampblack.Bitmaps;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Layout;
using Lampblack.Printers;
using Lampblack.Separations;
using Lampblack.Tests.Peers;
using Lampblack.Tests.Photos;
using Lampblack.Tests.Printers;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Separations;

/// <summary>
/// Panels on a printer whose toner grows: the sides as Ghostscript lays them down, and every black dot spread by as much as toner grows, by this file's own few lines.
/// </summary>
public sealed class PullBackTests
{
    private const int Dpi = 1200;
    private const double DotMm = 25.4 / Dpi;
    private const double GrowthMm = 0.06;

    // Two edges, each rounded up to a whole dot.
    private const double WithinMm = 2.1 * DotMm;

    private const string Lines = """
        lampblack = 1
        [[panel]]
        id = "p"
        size = [40, 24]
        [[panel.area]]
        box = [4, 4, 0.3, 12]
        role = "lit"
        [[panel.area]]
        box = [10, 4, 0.5, 12]
        role = "lit"
        [[panel.area]]
        box = [16, 4, 1, 12]
        role = "lit"
        [[panel.area]]
        box = [22, 4, 14, 12]
        role = "lit"
        [[panel.area]]
        box = [26, 6, 0.4, 8]
        ink = "black"
        [[panel.area]]
        box = [30, 6, 3, 8]
        role = "lit"
        ink = "amber"

        """;

    [Fact]
    public void A_printer_whose_toner_grows_is_learned_from_a_photo_and_prints_a_panel_as_it_is_drawn()
    {
        var plan = TrialPhoto.Plans.Single(plan => plan.Paper.Name == "A4");
        var photo = new DrawnCamera { TiltDegrees = 6, TurnDegrees = 93, BlurPx = 1.4, Seed = 5 }.Jpeg(new DrawnSheet(plan, 3) { HasGauges = true, GainMm = GrowthMm });
        var read = PhotosOfSheets.Read([("copy-3.jpg", photo)], new Progress<string>(), TestContext.Current.CancellationToken);
        var learned = Learn.Run(PrinterSamples.New(), LearnAnswers.Nothing with { Photos = read });
        Assert.False(learned.HasStop);
        var printer = PrinterProperties.Of(learned.Value.File, PaperSize.Find("A4")!);
        Assert.Equal(GrowthMm, printer.PullBackMm, 0.012);

        var (drawn, plain, sent) = (Side(Of(Lines, 0).Value, onMask: false, 0), Side(Of(Lines, 0).Value, onMask: false, GrowthMm), Side(Of(Lines, printer.PullBackMm).Value, onMask: false, GrowthMm));
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"pulled back by {printer.PullBackMm:0.000} mm"));
        foreach (var (x, widthMm, isOpen) in new[] { (4.15, 0.3, true), (10.25, 0.5, true), (16.5, 1.0, true), (26.2, 0.4, false) })
        {
            var widths = new[] { drawn, plain, sent }.Select(side => side.WidthMm(x, 9.5, isOpen)).ToArray();
            TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"{widthMm}: as drawn {widths[0]:0.000}, printed {widths[1]:0.000}, pulled back and printed {widths[2]:0.000}"));

            // Ghostscript blackens every dot that black touches: up to a dot at either edge.
            Assert.InRange(widths[0], widthMm - (2 * DotMm) - 0.001, widthMm + (2 * DotMm) + 0.001);
            Assert.Equal(widths[0], widths[2], WithinMm + (2 * Math.Abs(printer.PullBackMm - GrowthMm)));
            Assert.True((isOpen ? 1 : -1) * (widths[0] - widths[1]) > 2 * GrowthMm - WithinMm, "a printer whose toner does not grow proves nothing");
        }

        // The colour meets black without a rim of bare paper, whether its own toner grows or not.
        Assert.Equal(0, sent.BareMm2(new(29.6, 5.6, 3.8, 8.8), Of(Lines, 0).Value));
    }

    [Fact]
    public void Openings_of_the_mask_come_out_as_wide_as_they_are_meant()
    {
        var (drawn, plain, sent) = (Side(Of(Lines, 0).Value, onMask: true, 0), Side(Of(Lines, 0).Value, onMask: true, GrowthMm), Side(Of(Lines, GrowthMm).Value, onMask: true, GrowthMm));
        Assert.Equal(1, drawn.WidthMm(10.25, 9.5, isOpen: true), 0.75);
        Assert.True(drawn.OpenMm2 - plain.OpenMm2 > 0.03 * drawn.OpenMm2, $"{drawn.OpenMm2} {plain.OpenMm2}");
        Assert.Equal(drawn.OpenMm2, sent.OpenMm2, 0.01 * drawn.OpenMm2);
    }

    [Fact]
    public void Black_between_lit_shapes_that_would_vanish_is_pulled_back_less_and_told()
    {
        const string Narrow = """
            lampblack = 1
            [[panel]]
            id = "p"
            size = [40, 24]
            [[panel.area]]
            id = "left"
            box = [5, 5, 5, 10]
            role = "lit"
            [[panel.area]]
            box = [10.15, 5, 5, 10]
            role = "lit"
            [[panel.area]]
            box = [15.65, 5, 5, 10]
            role = "lit"

            """;
        var separated = Of(Narrow, GrowthMm);
        var finding = Assert.Single(separated.Findings, finding => finding.Code == "growth-strokes");
        Assert.Equal((Severity.Warn, "p/left"), (finding.Severity, finding.Item));
        Assert.StartsWith("panel `p`: 1 stroke of black on the front", finding.Message, StringComparison.Ordinal);
        var page = Side(separated.Value, onMask: false, 0);

        // 0.1 mm stay on the page, and at most half the growth more; on paper that is still less than the 0.27 mm of a stroke that is not pulled back.
        Assert.InRange(page.WidthMm(10.075, 10, isOpen: false), 0.1, 0.13 + WithinMm);
        var paper = Side(separated.Value, onMask: false, GrowthMm);
        Assert.InRange(paper.WidthMm(10.075, 10, isOpen: false), 0.22, 0.25 + WithinMm);
        Assert.Equal(0.5, paper.WidthMm(15.4, 10, isOpen: false), WithinMm);

        // Without growth nothing is told, and nothing is where strokes are wide enough.
        Assert.DoesNotContain(Of(Narrow, 0).Findings, finding => finding.Code == "growth-strokes");
        Assert.DoesNotContain(Of(Narrow.Replace("10.15, 5, 5, 10", "10.25, 5, 4.9, 10", StringComparison.Ordinal), GrowthMm).Findings, finding => finding.Code == "growth-strokes");
    }

    [Fact]
    public void Letters_come_out_with_the_area_that_they_are_drawn_with()
    {
        const string Words = "lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [60, 24]\n[[panel.legend]]\ntext = \"PUMP 4 AMPS\"\nat = [30, 12]\nheight = 4\n";
        var lit = Side(Of(Words, 0).Value, onMask: false, 0).OpenMm2;
        var (plain, sent) = (Side(Of(Words, 0).Value, onMask: false, GrowthMm).OpenMm2, Side(Of(Words, GrowthMm).Value, onMask: false, GrowthMm).OpenMm2);
        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"{lit:0.00} mm2 drawn, {plain:0.00} printed, {sent:0.00} pulled back and printed"));
        Assert.True(plain < 0.85 * lit);
        Assert.Equal(lit, sent, 0.03 * lit);
    }

    [Fact]
    public void A_picture_s_dots_are_pulled_back_too_as_far_as_its_dots_can_say_and_narrow_black_in_it_stays()
    {
        // Dots of 0.04 mm: two slits 10 and 50 dots wide, and beside the second, past 4 dots of black, a third.
        const double DrawnDotMm = 0.04;
        var dots = new BitRasterBuilder(500, 200);
        for (var row = 0; row < 200; row++)
        {
            dots.SetRun(row, 50, 60);
            dots.SetRun(row, 100, 150);
            dots.SetRun(row, 154, 204);
        }

        var picture = new DotMark(
            new("p/picture", new("desk.toml", 0, 0, 1, 1)), "picture", new(LightRole.Lit, Ink.None, false), dots.ToRaster(), new(DrawnDotMm, 0, 5, 0, -DrawnDotMm, 18), null, 0);
        PanelSeparation With(double pullBackMm) => Of("lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [40, 24]\n", pullBackMm, picture).Value;
        var (drawn, plain, sent) = (Side(With(0), onMask: false, 0), Side(With(0), onMask: false, GrowthMm), Side(With(GrowthMm), onMask: false, GrowthMm));
        var widths = new[] { drawn, plain, sent }.Select(side => side.WidthMm(5 + (55 * DrawnDotMm), 14, isOpen: true)).ToArray();
        TestContext.Current.TestOutputHelper?.WriteLine(string.Join(" ", widths.Select(mm => FormattableString.Invariant($"{mm:0.000}"))));
        Assert.Equal(widths[0], widths[2], (2 * (GrowthMm - DrawnDotMm)) + WithinMm);
        Assert.True(widths[2] > widths[1] + DrawnDotMm);

        var page = Side(With(GrowthMm), onMask: false, 0);
        Assert.True(page.WidthMm(5 + (152 * DrawnDotMm), 14, isOpen: false) >= (4 * DrawnDotMm) - (2 * DotMm));
        Assert.Equal(With(0).Shapes.Dots[0].ShownDots, With(GrowthMm).Shapes.Dots[0].ShownDots);
    }

    [Fact]
    public void Nothing_learned_changes_nothing()
    {
        var (before, after) = (Of(Lines, 0).Value, Of(Lines, 0).Value);
        Assert.Equal(before.Front.Select(area => (area.Ink, area.Region.AreaMm2)), after.Front.Select(area => (area.Ink, area.Region.AreaMm2)));
        Assert.Equal(before.Shapes.FrontBlack.AreaMm2, Of(Lines, GrowthMm).Value.Shapes.FrontBlack.AreaMm2, 9);
        Assert.Equal(before.Shapes.Openings.AreaMm2, Of(Lines, GrowthMm).Value.Shapes.Openings.AreaMm2, 9);
    }

    private static Checked<PanelSeparation> Of(string toml, double pullBackMm, params DotMark[] pictures)
    {
        var desk = DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes(toml));
        Assert.Empty(desk.Findings);
        var laid = DeskLayout.Place(desk.Value, FontShelf.Bundled);
        var printer = PrinterProperties.Unmeasured with { PullBackMm = pullBackMm };
        return Separator.Separate(PanelArtwork.Draw(laid.Value.Panels[0]) with { Dots = [.. pictures] }, printer, printer.Builds[0], 0.3);
    }

    private static Printed Side(PanelSeparation separation, bool onMask, double growthMm)
    {
        var box = separation.Bleed;
        var map = Affine<PanelSpace, PageSpace>.Shift(-box.LeftMm, -box.BottomMm);

        // Pages stand upright.
        var whole = new Box<PageSpace>(0, 0, box.WidthMm, Math.Max(box.WidthMm, box.HeightMm));
        var page = new PdfPage(whole.WidthMm, whole.HeightMm, whole, whole, [.. (onMask ? separation.Mask : separation.Front).Select(area => area.Map(map))]);
        return new(Assert.Single(GhostscriptPlates.Render(PdfFile.Write([page], new("side", PdfSides.OneSided)).AsSpan(), Dpi)), growthMm, box);
    }

    /// <summary>A side on paper: black, spread by as much as it grows.</summary>
    private sealed class Printed
    {
        private readonly InkPlates _plates;
        private readonly bool[] _black;
        private readonly Box<PanelSpace> _box;

        public Printed(InkPlates plates, double growthMm, Box<PanelSpace> box)
        {
            (_plates, _box) = (plates, box);
            _black = new bool[plates.Black.Length];
            var reach = (int)Math.Round(growthMm / DotMm, MidpointRounding.AwayFromZero);
            var disc = (from y in Enumerable.Range(-reach, (2 * reach) + 1)
                        from x in Enumerable.Range(-reach, (2 * reach) + 1)
                        where Math.Sqrt((x * x) + (y * y)) * DotMm <= growthMm + (DotMm / 4)
                        select (x, y)).ToArray();
            for (var row = 0; row < plates.HeightPx; row++)
            {
                for (var column = 0; column < plates.WidthPx; column++)
                {
                    if (plates.Black[(row * plates.WidthPx) + column] < 128)
                    {
                        continue;
                    }

                    foreach (var (x, y) in disc)
                    {
                        if (row + y >= 0 && row + y < plates.HeightPx && column + x >= 0 && column + x < plates.WidthPx)
                        {
                            _black[((row + y) * plates.WidthPx) + column + x] = true;
                        }
                    }
                }
            }
        }

        /// <summary>What black leaves open.</summary>
        public double OpenMm2 => _black.Skip(_plates.WidthPx * (_plates.HeightPx - (int)(_box.HeightMm / DotMm))).Count(dot => !dot) * DotMm * DotMm;

        /// <summary>How wide it is open, or black, from a place to the left and to the right.</summary>
        public double WidthMm(double xMm, double yMm, bool isOpen)
        {
            var at = At(xMm, yMm);
            Assert.Equal(!isOpen, _black[at]);
            var (left, right) = (0, 0);
            while (_black[at - left - 1] != isOpen)
            {
                left++;
            }

            while (_black[at + right + 1] != isOpen)
            {
                right++;
            }

            return (left + right + 1) * DotMm;
        }

        /// <summary>Bare paper in a box, where neither black nor a colour is, and where something lit without a colour is not meant.</summary>
        public double BareMm2(Box<PanelSpace> box, PanelSeparation meant)
        {
            var bare = Region<PanelSpace>.Union(meant.Shapes.Visible.Where(mark => mark.Style.Ink == Ink.None).Select(mark => mark.Shape)).Grow(2 * DotMm);
            var count = 0;
            for (var x = box.LeftMm; x < box.RightMm; x += DotMm)
            {
                for (var y = box.BottomMm; y < box.TopMm; y += DotMm)
                {
                    var at = At(x, y);
                    count += !_black[at] && _plates.Cyan[at] + _plates.Magenta[at] + _plates.Yellow[at] < 20 && !bare.Contains(new Point<PanelSpace>(x, y)) ? 1 : 0;
                }
            }

            return count * DotMm * DotMm;
        }

        private int At(double xMm, double yMm) =>
            ((_plates.HeightPx - 1 - (int)((yMm - _box.BottomMm) / DotMm)) * _plates.WidthPx) + (int)((xMm - _box.LeftMm) / DotMm);
    }
}
