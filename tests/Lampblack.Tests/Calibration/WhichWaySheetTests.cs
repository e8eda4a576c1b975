using System;
using System.Collections.Concurrent;
using System.Collections.Generic;
using System.Linq;
using System.Security.Cryptography;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Tests.Peers;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Graphics.Colors;
using Xunit;

namespace Lampblack.Tests.Calibration;

/// <summary>
/// The which-way sheet as an independent rasteriser prints it, turned as printers turn sheets. Where dots come to lie is worked out here from how paper moves,
/// without any map of ours.
/// </summary>
public sealed class WhichWaySheetTests
{
    private const int Dpi = 150;
    private const double DotMm = 25.4 / Dpi;

    /// <summary>On the back only the bar and its number stand in this strip, above it only the tick.</summary>
    private const double BarStripMm = 10;

    private static readonly ConcurrentDictionary<(string Paper, string File), InkPlates> Rendered = new();

    /// <summary>The ways in which a back can come onto a front.</summary>
    public enum Way
    {
        SameEdge,
        OtherEdge,
        WrongFace,
        WrongFaceOtherEdge,
    }

    public static TheoryData<string, Way, double, string> Cases
    {
        get
        {
            var cases = new TheoryData<string, Way, double, string>();
            foreach (var paper in new[] { "A4", "Letter", "A3", "Legal", "A5" })
            {
                cases.Add(paper, Way.SameEdge, 1, "A top left");
                cases.Add(paper, Way.OtherEdge, 1, "B bottom right");
                cases.Add(paper, Way.WrongFace, 1, "F top right");
                cases.Add(paper, Way.WrongFaceOtherEdge, 1, "F bottom left");
                foreach (var way in Enum.GetValues<Way>())
                {
                    cases.Add(paper, way, 0.94, "none");
                }
            }

            return cases;
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void The_tick_of_a_sheet_that_was_turned_some_way_lands_where_the_picture_says(string paper, Way way, double scale, string expected)
    {
        var front = Page(paper, "front.pdf");
        var tick = TickDots(Page(paper, "back.pdf"))
            .Select(dot => Turned(Scaled(dot, front, scale), front, way))
            .ToList();
        Assert.Equal(expected, BoxAround(tick, front));
    }

    [Theory]
    [InlineData("A4")]
    [InlineData("Letter")]
    public void The_back_holds_one_small_tick_away_from_every_axis_and_nothing_that_could_be_taken_for_a_top(string paper)
    {
        var back = Page(paper, "back.pdf");
        var tick = TickDots(back);
        var (width, height) = (tick.Max(dot => dot.XMm) - tick.Min(dot => dot.XMm), tick.Max(dot => dot.YMm) - tick.Min(dot => dot.YMm));
        Assert.InRange(width, 3, 4.5);
        Assert.InRange(height, 3, 4.5);
        Assert.True(Math.Abs(tick.Average(dot => dot.XMm) - (back.WidthPx * DotMm / 2)) > 60);
        Assert.True(Math.Abs(tick.Average(dot => dot.YMm) - (back.HeightPx * DotMm / 2)) > 60);
    }

    [Theory]
    [InlineData("front.pdf")]
    [InlineData("back.pdf")]
    public void A_page_is_printed_in_black_alone_and_with_no_more_of_it_than_a_page_of_text(string file)
    {
        // 5 % is what a page of text is taken to cover (from memory). A dot that is touched counts as a whole one, so the dots are small here.
        var page = Assert.Single(GhostscriptPlates.Render(Bytes("A4", file), 300));
        Assert.All(page.Cyan, amount => Assert.Equal(0, amount));
        Assert.All(page.Magenta, amount => Assert.Equal(0, amount));
        Assert.All(page.Yellow, amount => Assert.Equal(0, amount));
        Assert.InRange(page.Black.Average(amount => amount / 255.0), 0.0002, 0.05);
    }

    [Theory]
    [InlineData("front.pdf")]
    [InlineData("back.pdf")]
    public void A_bar_on_either_side_is_100_mm_long(string file)
    {
        var page = Page("A4", file);

        // The longest run of black dots in any row of the bottom strip.
        var longest = Enumerable.Range(0, (int)(BarStripMm / DotMm)).Max(row => LongestRun(page, page.HeightPx - 1 - row));
        Assert.InRange(longest * DotMm, 100 - (2 * DotMm), 100 + (2 * DotMm));
    }

    [Fact]
    public void The_duplex_file_is_the_front_and_the_back()
    {
        var both = GhostscriptPlates.Render(Bytes("A4", "duplex.pdf").AsSpan(), Dpi);
        Assert.Equal(2, both.Length);
        Assert.Equal(Page("A4", "front.pdf").Black, both[0].Black);
        Assert.Equal(Page("A4", "back.pdf").Black, both[1].Black);
    }

    [Fact]
    public void A_printer_that_was_found_to_need_a_half_turn_gets_the_same_sheet()
    {
        var path = new PrinterPath(true, null, "A4", null, FirstEdge.Short, Turning.ByHand, SideOrder.FrontFirst, null, 5, 10);
        var turned = new PrinterFile("office", path, [new(Tick.B, PrintedFace.Upper)], [], [], []);
        Assert.Equal(WhichWayJob.Run("A4").Value.Select(Hash), WhichWayJob.Run("A4", turned).Value.Select(Hash));
    }

    [Fact]
    public void Wider_margins_move_the_boxes_and_the_tick_together()
    {
        var path = new PrinterPath(true, null, "A4", null, FirstEdge.Short, Turning.ByHand, SideOrder.FrontFirst, null, 9, 16);
        var files = WhichWayJob.Run("A4", new PrinterFile("wide", path, [], [], [], [])).Value;
        var front = GhostscriptPlates.Render(files.Single(file => file.Path == "front.pdf").Bytes.AsSpan(), Dpi)[0];
        var back = GhostscriptPlates.Render(files.Single(file => file.Path == "back.pdf").Bytes.AsSpan(), Dpi)[0];
        var tick = TickDots(back, barStripMm: 14).Select(dot => Turned(dot, front, Way.SameEdge)).ToList();
        Assert.Equal("A top left", BoxAround(tick, front));
        Assert.True(tick.Min(dot => dot.XMm) > 10);
    }

    [Fact]
    public void A_printer_with_black_only_is_sent_its_own_black_and_its_name_stands_in_what_to_type()
    {
        var path = new PrinterPath(false, null, "A4", null, FirstEdge.Short, Turning.ByHand, SideOrder.FrontFirst, null, 5, 10);
        var black = new PrinterFile("attic", path, [], [], [], []);
        foreach (var file in WhichWayJob.Run("A4", black).Value.Where(file => file.Path.EndsWith(".pdf", StringComparison.Ordinal)))
        {
            using var pdf = PdfDocument.Open([.. file.Bytes]);
            var spaces = pdf.GetPages().SelectMany(page => page.Paths).Select(shape => shape.FillColor!.ColorSpace).Distinct();
            Assert.Equal(ColorSpace.DeviceGray, Assert.Single(spaces));
        }

        // The letters are outlines, so that another name is seen as another page.
        Assert.NotEqual(Hash(Front("attic")), Hash(Front("study")));
        Assert.Equal(Hash(Front(null)), Hash(Front("NAME")));
        OutputFile Front(string? word) => WhichWayJob.Run("A4", black, word).Value.Single(file => file.Path == "front.pdf");
    }

    [Fact]
    public void Another_paper_than_the_printer_s_is_refused()
    {
        var made = WhichWayJob.Run("Letter", new PrinterFile("attic", new(true, null, "A4", null, FirstEdge.Short, Turning.ByHand, SideOrder.FrontFirst, null, 5, 10), [], [], [], []));
        Assert.Equal("printer-other-paper", Assert.Single(made.Findings).Code);
        Assert.Empty(made.Value);
    }

    [Fact]
    public void A_paper_that_nobody_knows_is_told_of()
    {
        var made = WhichWayJob.Run("A7");
        Assert.Equal("paper-unknown", Assert.Single(made.Findings).Code);
        Assert.Empty(made.Value);
    }

    private static string Hash(OutputFile file) => Convert.ToHexString(SHA256.HashData(file.Bytes.AsSpan()));

    private static byte[] Bytes(string paper, string file) => [.. WhichWayJob.Run(paper).Value.Single(made => made.Path == file).Bytes];

    /// <summary>A page's plates; each page is rendered once for all cases.</summary>
    private static InkPlates Page(string paper, string file) =>
        Rendered.GetOrAdd((paper, file), page => Assert.Single(GhostscriptPlates.Render(Bytes(page.Paper, page.File), Dpi)));

    private static List<(double XMm, double YMm)> TickDots(InkPlates back, double barStripMm = BarStripMm)
    {
        var dots = new List<(double, double)>();
        for (var row = 0; row < back.HeightPx - (int)(barStripMm / DotMm); row++)
        {
            for (var column = 0; column < back.WidthPx; column++)
            {
                if (back.At(column, row).Black > 127)
                {
                    dots.Add(((column + 0.5) * DotMm, (back.HeightPx - row - 0.5) * DotMm));
                }
            }
        }

        Assert.NotEmpty(dots);
        return dots;
    }

    private static (double XMm, double YMm) Scaled((double XMm, double YMm) dot, InkPlates page, double scale)
    {
        var (middleX, middleY) = (page.WidthPx * DotMm / 2, page.HeightPx * DotMm / 2);
        return (middleX + (scale * (dot.XMm - middleX)), middleY + (scale * (dot.YMm - middleY)));
    }

    /// <summary>
    /// Where a dot of the back page is seen from the front. On the other face with the same edge first, right and left change places. With the other edge first the
    /// sheet lay half a turn round. On the wrong face, the page lies on the front as it is.
    /// </summary>
    private static (double XMm, double YMm) Turned((double XMm, double YMm) dot, InkPlates page, Way way)
    {
        var (width, height) = (page.WidthPx * DotMm, page.HeightPx * DotMm);
        return way switch
        {
            Way.SameEdge => (width - dot.XMm, dot.YMm),
            Way.OtherEdge => (dot.XMm, height - dot.YMm),
            Way.WrongFace => dot,
            _ => (width - dot.XMm, height - dot.YMm),
        };
    }

    /// <summary>The box of the front that the dots lie in: a frame of 5 mm, found by its own ink, in one corner of the sheet.</summary>
    private static string BoxAround(List<(double XMm, double YMm)> tick, InkPlates front)
    {
        var (width, height) = (front.WidthPx * DotMm, front.HeightPx * DotMm);
        var (left, right, bottom, top) = (tick.Min(dot => dot.XMm), tick.Max(dot => dot.XMm), tick.Min(dot => dot.YMm), tick.Max(dot => dot.YMm));
        var (x, y) = ((left + right) / 2, (bottom + top) / 2);
        double[] walls = [Wall(x, y, -1, 0), Wall(x, y, 1, 0), Wall(x, y, 0, -1), Wall(x, y, 0, 1)];
        var isInside = walls.All(wall => wall < 5) && Math.Abs(walls[0] + walls[1] - 4.5) < 0.5 && Math.Abs(walls[2] + walls[3] - 4.5) < 0.5
            && left > x - walls[0] && right < x + walls[1] && bottom > y - walls[2] && top < y + walls[3];
        var (isLeft, isTop) = (x < width / 2, y > height / 2);
        return !isInside ? "none" : (isLeft, isTop) switch { (true, true) => "A top left", (false, false) => "B bottom right", (false, true) => "F top right", _ => "F bottom left" };

        // How far it is from a place to the first ink of the front.
        double Wall(double fromX, double fromY, int towardsX, int towardsY)
        {
            var far = 0.0;
            while (far < 6 && Ink(fromX + (far * towardsX), fromY + (far * towardsY)) < 128)
            {
                far += DotMm / 2;
            }

            return far;
        }

        byte Ink(double atX, double atY) => atX < 0 || atY < 0 || atX >= width || atY >= height ? (byte)0 : front.AtMm(atX, atY, Dpi).Black;
    }

    private static int LongestRun(InkPlates page, int row)
    {
        var (longest, run) = (0, 0);
        for (var column = 0; column < page.WidthPx; column++)
        {
            run = page.At(column, row).Black > 127 ? run + 1 : 0;
            longest = Math.Max(longest, run);
        }

        return longest;
    }
}
