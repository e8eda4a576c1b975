using System;
using System.Collections.Generic;
using System.Linq;
using System.Text;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Register;

/// <summary>
/// Every way of printing the second side, on plates of an independent rasteriser: what should register does, and every wrong way is told apart by the turn
/// boxes and the bar. Which ways need a half-turn of the page: a table worked by hand and by small programs, the same for all printers.
/// </summary>
public sealed class TurningTests
{
    private const int Dpi = 150;

    private const string Tall = "size = [100, 190]\n[[panel.legend]]\ntext = \"TALL\"\nat = [30, 150]\nheight = 8";
    private const string Wide = "size = [190, 100]\n[[panel.legend]]\ntext = \"WIDE\"\nat = [40, 80]\nheight = 8";

    private static readonly PaperSize Paper = PaperSize.Find("A4")!;

    private static readonly Dictionary<(string Panel, bool HalfTurn), Prints> Known = [];

    /// <summary>Each way, whether it needs the half-turn, and where the tick is seen without it.</summary>
    public static TheoryData<string, string, bool, bool> Ways
    {
        get
        {
            var ways = new TheoryData<string, string, bool, bool>();
            foreach (var panel in new[] { "tall", "wide" })
            {
                foreach (var halfTurn in new[] { false, true })
                {
                    ways.Add(panel, "automatic, long edge", false, halfTurn);
                    ways.Add(panel, "automatic, short edge", true, halfTurn);
                    ways.Add(panel, "by hand, short edge first, same edge", false, halfTurn);
                    ways.Add(panel, "by hand, short edge first, other edge", true, halfTurn);
                    ways.Add(panel, "by hand, long edge first, other edge", false, halfTurn);
                    ways.Add(panel, "by hand, long edge first, same edge", true, halfTurn);
                }
            }

            return ways;
        }
    }

    [Theory]
    [MemberData(nameof(Ways))]
    public void The_right_page_registers_and_the_wrong_one_shows_its_tick_in_B(string panel, string way, bool needsHalfTurn, bool halfTurn)
    {
        var prints = Printed(panel, halfTurn);
        var path = Path(way, otherFace: true);
        Assert.True(path.PrintsTheOtherFace);
        var back = path.SecondOnSheet(prints.Back);
        var right = needsHalfTurn == halfTurn;
        Assert.Equal(right ? "A" : "B", prints.TickIn(back));
        Assert.Equal(right, prints.IsInRegister(back));
    }

    [Theory]
    [InlineData("tall", false)]
    [InlineData("tall", true)]
    [InlineData("wide", false)]
    [InlineData("wide", true)]
    public void A_print_on_the_wrong_face_shows_its_tick_on_that_face_in_F(string panel, bool halfTurn)
    {
        foreach (var way in new[]
        {
            "by hand, short edge first, same edge", "by hand, short edge first, other edge",
            "by hand, long edge first, same edge", "by hand, long edge first, other edge",
        })
        {
            var path = Path(way, otherFace: false);
            Assert.False(path.PrintsTheOtherFace);
            Assert.Equal("F", Printed(panel, halfTurn).TickIn(path.SecondOnSheet(Printed(panel, halfTurn).Back)));
        }
    }

    [Theory]
    [InlineData(0.94, 0.5, 0.5)]
    [InlineData(0.94, 0, 0)]
    [InlineData(0.94, 0, 1)]
    [InlineData(0.97, 0.5, 0.5)]
    public void A_back_that_was_scaled_shows_its_tick_in_no_box(double scale, double aboutX, double aboutY)
    {
        foreach (var panel in new[] { "tall", "wide" })
        {
            var prints = Printed(panel, false);
            Assert.Equal("none", prints.TickIn(Path("automatic, long edge", otherFace: true).SecondOnSheet(prints.Back, scale, (aboutX, aboutY))));
        }
    }

    [Theory]
    [InlineData(1, true)]
    [InlineData(0.94, false)]
    [InlineData(0.97, false)]
    public void A_sheet_scaled_on_both_sides_is_told_by_its_bars(double scale, bool passes)
    {
        // Shrunk about the middle on both sides, everything still meets; only a ruler tells.
        var prints = Printed("tall", false);
        var path = Path("automatic, long edge", otherFace: true);
        var sides = new[] { PaperPath.ByHand(false, true, false).SecondOnSheet(prints.Front, scale, (0.5, 0.5)), path.SecondOnSheet(prints.Back, scale, (0.5, 0.5)) };
        Assert.All(sides, side => Assert.Equal(passes, prints.BarMm(side, scale) is >= 99.4 and <= 100.6));
    }

    [Fact]
    public void With_cyan_magenta_and_yellow_missing_the_boxes_still_tell_and_the_two_patches_become_alike()
    {
        var prints = Printed("tall", false);
        var back = Path("automatic, long edge", otherFace: true).SecondOnSheet(prints.Back);
        Assert.Equal("A", prints.TickIn(back));
        Assert.True(prints.IsInRegister(back));
        var (k, field) = prints.Patches();
        Assert.Equal((0, 0, 0, 255), (k.Cyan, k.Magenta, k.Yellow, k.Black));
        Assert.True(field is { Cyan: > 100, Magenta: > 80, Yellow: > 80, Black: 255 });

        // What is left of both without the three inks.
        Assert.Equal(k.Black, field.Black);
    }

    private static PaperPath Path(string way, bool otherFace) => way.StartsWith("automatic", StringComparison.Ordinal)
        ? PaperPath.Automatic(way.EndsWith("long edge", StringComparison.Ordinal))
        : PaperPath.ByHand(way.Contains("long edge first", StringComparison.Ordinal), way.EndsWith("same edge", StringComparison.Ordinal), otherFace);

    private static Prints Printed(string panel, bool halfTurn)
    {
        lock (Known)
        {
            return Known.TryGetValue((panel, halfTurn), out var known) ? known : Known[(panel, halfTurn)] = Prints.Of(panel == "tall" ? Tall : Wide, halfTurn);
        }
    }

    /// <summary>Both pages of a sheet as printed, and what a maker looks for on them.</summary>
    private sealed record Prints(Sheet Sheet, SheetRoom Room, InkPlates Front, InkPlates Back)
    {
        public static Prints Of(string panel, bool halfTurn)
        {
            var toml = $"lampblack = 1\n[[panel]]\nid = \"p\"\n{panel}\n";
            var sheet = SeparatedDesk.Of(Encoding.UTF8.GetBytes(toml), "safe", paper: Paper).Sheets[0];
            var printer = PrinterProperties.Unmeasured with { HalfTurnOfBack = halfTurn };
            var pdf = PdfFile.Write([SheetPdf.FrontPage(sheet, printer), SheetPdf.MaskPage(sheet, printer)], new("turning", PdfSides.TwoSidedLongEdge));
            var pages = GhostscriptPlates.Render(pdf.AsSpan(), Dpi);
            return new(sheet, SheetRoom.Of(Paper, printer), pages[0], pages[1]);
        }

        /// <summary>The box that holds most of the tick: A, B, F or none.</summary>
        public string TickIn(bool[] second)
        {
            var boxes = new List<(string Name, Point<SheetSpace> Middle)> { ("A", Room.TurnBoxA), ("B", Room.TurnBoxB) };
            boxes.AddRange(Room.TurnBoxesFront.Select(middle => ("F", middle)));
            var inked = boxes.Select(box => (box.Name, Mm2: Share(second, new(box.Middle.XMm - 2.5, box.Middle.YMm - 2.5, 5, 5)) * 25)).ToList();

            // The tick has an area of some 4 mm2.
            var holders = inked.Where(box => box.Mm2 > 2).Select(box => box.Name).ToList();
            return holders.Count == 1 ? holders[0] : holders.Count == 0 ? "none" : string.Join('+', holders);
        }

        /// <summary>Whether the second print leaves every dot of the legend open and backs the field around it.</summary>
        public bool IsInRegister(bool[] second)
        {
            var (bright, covered, black, backed) = (0, 0, 0, 0);
            foreach (var dot in Dots(Sheet.Panels[0].Trim.Grow(-2)))
            {
                if (Front.Black[dot] < 128)
                {
                    bright++;
                    covered += second[dot] ? 1 : 0;
                }
                else
                {
                    black++;
                    backed += second[dot] ? 1 : 0;
                }
            }

            Assert.True(bright > 500 && black > bright);
            return covered == 0 && backed > 0.9 * black;
        }

        /// <summary>The bar's length as a ruler gives it: from its first dot to its last, along its line.</summary>
        public double BarMm(bool[] side, double scale)
        {
            // The line lies where scaling about the middle has put it.
            var y = (Paper.HeightMm / 2) + (scale * (Room.MarginMm + 1.1 - (Paper.HeightMm / 2)));
            var row = Front.HeightPx - 1 - (int)(y / 25.4 * Dpi);
            var longest = 0;
            foreach (var near in new[] { row - 1, row, row + 1 })
            {
                var run = 0;
                for (var column = 0; column < Front.WidthPx; column++)
                {
                    run = side[(near * Front.WidthPx) + column] ? run + 1 : 0;
                    longest = Math.Max(longest, run);
                }
            }

            return longest * 25.4 / Dpi;
        }

        public ((int Cyan, int Magenta, int Yellow, int Black) K, (int Cyan, int Magenta, int Yellow, int Black) Field) Patches()
        {
            var box = Sheet.Gauges.Single(gauge => gauge.Name == "patches").Box;
            var flat = box.WidthMm > box.HeightMm;
            return (At(flat ? box.Centre.XMm - 5 : box.Centre.XMm, flat ? box.TopMm - 5 : box.TopMm - 5), At(flat ? box.Centre.XMm + 5 : box.Centre.XMm, flat ? box.TopMm - 5 : box.TopMm - 18));
        }

        private (int Cyan, int Magenta, int Yellow, int Black) At(double xMm, double yMm) => Front.AtMm(xMm, yMm, Dpi);

        private double Share(bool[] side, Box<SheetSpace> box)
        {
            var dots = Dots(box).ToList();
            return (double)dots.Count(dot => side[dot]) / dots.Count;
        }

        /// <summary>The dots whose middles lie in a box.</summary>
        private IEnumerable<int> Dots(Box<SheetSpace> box)
        {
            const double DotMm = 25.4 / Dpi;
            for (var row = (int)Math.Ceiling(Front.HeightPx - (box.TopMm / DotMm) - 0.5); row <= Front.HeightPx - (box.BottomMm / DotMm) - 0.5; row++)
            {
                for (var column = (int)Math.Ceiling((box.LeftMm / DotMm) - 0.5); column <= (box.RightMm / DotMm) - 0.5; column++)
                {
                    yield return (row * Front.WidthPx) + column;
                }
            }
        }
    }
}
