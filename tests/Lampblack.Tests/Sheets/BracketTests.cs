using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;
using System.Text.RegularExpressions;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Lampblack.Tests.Formats;
using Lampblack.Tests.Register;
using UglyToad.PdfPig;
using Xunit;

namespace Lampblack.Tests.Sheets;

public sealed partial class BracketTests
{
    private const string Small = """
        lampblack = 1
        title = "Yard"
        [[panel]]
        id = "p"
        size = [100, 60]
        [[panel.legend]]
        text = "WEST"
        at = [50, 30]
        """;

    [Fact]
    public void Whatever_the_offset_up_to_one_and_a_half_steps_some_copy_comes_within_half_a_millimetre()
    {
        var copies = Bracket.Copies(Bracket.UsualStepMm);
        for (var x = -105; x <= 105; x++)
        {
            for (var y = -105; y <= 105; y++)
            {
                var nearest = copies.Min(copy => Math.Sqrt(Math.Pow((x / 100.0) + copy.RightMm, 2) + Math.Pow((y / 100.0) + copy.UpMm, 2)));
                Assert.True(nearest <= 0.495, $"{x / 100.0}, {y / 100.0}: {nearest}");
            }
        }
    }

    [Fact]
    public void Copies_are_numbered_row_by_row_as_one_reads() => Assert.Equal(
        [
            "bracket 1 of 9: mask 0.7 mm left, 0.7 mm up", "bracket 2 of 9: mask 0.7 mm up", "bracket 3 of 9: mask 0.7 mm right, 0.7 mm up",
            "bracket 4 of 9: mask 0.7 mm left", "bracket 5 of 9: mask not moved", "bracket 6 of 9: mask 0.7 mm right",
            "bracket 7 of 9: mask 0.7 mm left, 0.7 mm down", "bracket 8 of 9: mask 0.7 mm down", "bracket 9 of 9: mask 0.7 mm right, 0.7 mm down",
        ],
        Bracket.Copies(0.7).Select(copy => copy.Words));

    [Theory]
    [InlineData(0.19, false)]
    [InlineData(0.2, true)]
    [InlineData(2, true)]
    [InlineData(2.01, false)]
    [InlineData(double.NaN, false)]
    public void A_step_that_helps_nobody_is_refused(double stepMm, bool taken)
    {
        var plan = Bracket.Plan([], PrinterProperties.Unmeasured, stepMm);
        Assert.Equal(!taken, plan.HasStop);
        Assert.Equal(taken ? [] : ["bracket-step"], plan.Findings.Select(finding => finding.Code));
    }

    [Theory]
    [InlineData("A4", false)]
    [InlineData("Letter", true)]
    public void The_mask_of_every_copy_lies_where_its_number_says_and_nothing_else_differs(string paper, bool halfTurn)
    {
        var desk = Desk(Small, paper);
        var printer = desk.Printer with { HalfTurnOfBack = halfTurn };
        var sheet = desk.Sheets[0];
        var plan = Assert.Single(Bracket.Plan(desk.Sheets, printer, 0.7).Value);
        using var document = Open(plan, printer, 0.7);
        Assert.Equal(18, document.NumberOfPages);
        var (front, mask) = (Boxes(document, 9), Boxes(document, 10));
        var maskMap = PageMapping.Back(printer, sheet.Paper);
        foreach (var copy in Bracket.Copies(0.7))
        {
            var (right, up) = Said(copy.Words);
            var (thisFront, thisMask) = (Boxes(document, (2 * copy.Number) - 1), Boxes(document, 2 * copy.Number));
            Assert.Equal(front.Count, thisFront.Count);
            Assert.All(front.Zip(thisFront).SkipLast(1), pair => Assert.Equal(pair.First, pair.Second));

            // In front view a page's x runs the other way on the back; after half a turn its y does instead.
            var (pageRight, pageUp) = halfTurn ? (right, -up) : (-right, up);
            Assert.All(mask.Zip(thisMask).SkipLast(1), pair => Near(pair.First with { LeftMm = pair.First.LeftMm + pageRight, BottomMm = pair.First.BottomMm + pageUp }, pair.Second));
            Near(plan.Label(copy, onMask: false).Map(PageMapping.Front(printer)).Bounds, thisFront[^1]);
            Near(plan.Label(copy, onMask: true).Map(Affine<SheetSpace, SheetSpace>.Shift(right, up)).Map(maskMap).Bounds, thisMask[^1]);
        }
    }

    [Theory]
    [InlineData("A4", 0.7)]
    [InlineData("Letter", 2)]
    [InlineData("A5", 0.2)]
    public void Numbers_stand_where_nothing_else_is_printed_on_either_side(string paper, double stepMm)
    {
        foreach (var text in paper == "A5" ? new[] { Small } : [Small, System.IO.File.ReadAllText(System.IO.Path.Combine(SeparatedDesk.Root, "examples", "kiln", "desk.toml"))])
        {
            var desk = Desk(text, paper);
            foreach (var plan in Bracket.Plan(desk.Sheets, desk.Printer, stepMm).Value)
            {
                var printed = plan.Sheet.Front.Concat(plan.Sheet.Back).Select(area => area.Region).ToList();
                foreach (var copy in Bracket.Copies(stepMm))
                {
                    var labels = new[] { plan.Label(copy, onMask: false), plan.Label(copy, onMask: true) };
                    Assert.True(labels[0].DistanceMm(labels[1]) > 0.3);
                    foreach (var label in labels)
                    {
                        Assert.True(SheetRoom.Of(plan.Sheet.Paper, desk.Printer).Printable.Contains(label.Bounds));
                        Assert.All(printed, region => Assert.True(region.DistanceMm(label) > 0.3));
                    }
                }
            }
        }
    }

    [Fact]
    public void A_sheet_without_room_for_numbers_says_so_and_is_made_all_the_same()
    {
        var desk = Desk("lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [193, 280]\n", "A4");
        var plan = Bracket.Plan(desk.Sheets, desk.Printer, 0.7);
        Assert.Equal(["bracket-number-no-room"], plan.Findings.Select(finding => finding.Code));
        Assert.Equal(Severity.Warn, plan.Findings[0].Severity);
        using var document = Open(plan.Value[0], desk.Printer, 0.7);
        Assert.Equal(18, document.NumberOfPages);
    }

    [Fact]
    public void Nine_copies_hold_the_drawing_of_the_sheet_once()
    {
        var desk = Desk(Small, "A4");
        var plan = Bracket.Plan(desk.Sheets, desk.Printer, 0.7).Value[0];
        var (front, mask) = Packed(plan, desk.Printer);
        var one = PdfFile.Bind([front, mask], new("one", PdfSides.TwoSidedLongEdge)).Length;
        var numbers = BracketPages.Of(plan, PackedPage.Of(SheetPdf.FrontPage(plan.Sheet with { Front = [] }, desk.Printer)), PackedPage.Of(SheetPdf.MaskPage(plan.Sheet with { Back = [] }, desk.Printer)), desk.Printer, 0.7, Ink.FullK);
        var empty = PdfFile.Bind([.. numbers], new("empty", PdfSides.TwoSidedLongEdge)).Length;
        Assert.InRange(File(plan, desk.Printer, 0.7).Length, one, one + empty);
    }

    [Fact]
    public void The_page_for_the_operator_fills_the_upper_half_and_its_back_is_blank()
    {
        var pages = BracketPages.Cover(string.Concat(Enumerable.Repeat("A very long title ", 20)), PaperSize.Find("A5")!, 18, "heavy", Ink.FullK, 5);
        var bounds = Assert.Single(pages[0].Areas).Region.Bounds;
        Assert.True(new Box<PageSpace>(5, 210 / 2.0, 138, 100).Contains(bounds), $"{bounds}");
        Assert.Empty(pages[1].Areas);
    }

    private static SeparatedDesk Desk(string toml, string paper) => SeparatedDesk.Of(Encoding.UTF8.GetBytes(toml), "gray", paper: PaperSize.Find(paper));

    private static (PackedPage Front, PackedPage Mask) Packed(BracketSheet plan, PrinterProperties printer) =>
        (PackedPage.Of(SheetPdf.FrontPage(plan.Sheet, printer)), PackedPage.Of(SheetPdf.MaskPage(plan.Sheet, printer)));

    private static ImmutableArray<byte> File(BracketSheet plan, PrinterProperties printer, double stepMm)
    {
        var (front, mask) = Packed(plan, printer);
        return PdfFile.Bind([.. BracketPages.Of(plan, front, mask, printer, stepMm, Ink.FullK)], new("bracket", PdfSides.TwoSidedLongEdge));
    }

    private static PdfDocument Open(BracketSheet plan, PrinterProperties printer, double stepMm) =>
        PdfDocument.Open([.. File(plan, printer, stepMm)], new ParsingOptions { UseLenientParsing = false });

    private static List<Box<PageSpace>> Boxes(PdfDocument document, int page) =>
    [
        .. document.GetPage(page).Paths.Select(path => path.GetBoundingRectangle()!.Value)
            .Select(box => new Box<PageSpace>(box.Left * PdfSamples.MmPerPoint, box.Bottom * PdfSamples.MmPerPoint, box.Width * PdfSamples.MmPerPoint, box.Height * PdfSamples.MmPerPoint)),
    ];

    /// <summary>What a number says of its mask, read from its words.</summary>
    private static (double RightMm, double UpMm) Said(string words)
    {
        return (Sum("right") - Sum("left"), Sum("up") - Sum("down"));

        double Sum(string way) => Moves().Matches(words).Where(match => match.Groups[2].Value == way).Sum(match => double.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture));
    }

    private static void Near(Box<PageSpace> expected, Box<PageSpace> found)
    {
        foreach (var (meant, read) in new[] { (expected.LeftMm, found.LeftMm), (expected.BottomMm, found.BottomMm), (expected.RightMm, found.RightMm), (expected.TopMm, found.TopMm) })
        {
            Assert.True(Math.Abs(meant - read) < 0.002, $"{expected} is printed at {found}");
        }
    }

    [GeneratedRegex(@"([\d.]+) mm (\w+)")]
    private static partial Regex Moves();
}
