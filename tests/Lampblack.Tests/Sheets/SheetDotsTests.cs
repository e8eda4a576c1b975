using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Bitmaps;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Lampblack.Tests.Bitmaps;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Sheets;

/// <summary>Panels with pictures of dots on sheets: moved, turned and mirrored like all else on them.</summary>
public sealed class SheetDotsTests
{
    private const int Dpi = 254;
    private const double MmPerDot = 0.6;

    private static readonly PaperSize Paper = PaperSize.Find("A4")!;

    private static readonly BitRaster Dots = Grid.Pack(Grid.Random(new Random(11), 100, 60, 0.4));

    [Theory]
    [InlineData(false, 80)]
    [InlineData(true, 80)]
    [InlineData(false, 280)]
    public void Both_pages_print_each_dot_in_its_place_and_the_back_is_mirrored(bool halfTurn, double widthMm)
    {
        var printer = PrinterProperties.Unmeasured with { HalfTurnOfBack = halfTurn };
        var sheet = Compose(printer, widthMm, Dots);
        var placed = sheet.Panels[0];
        Assert.Equal(widthMm > 200 ? 1 : 0, placed.QuarterTurns);
        Check(SheetPdf.FrontPage(sheet, printer), (x, y) => (x, y));
        Check(SheetPdf.MaskPage(sheet, printer), (x, y) => halfTurn ? (x, Paper.HeightMm - y) : (Paper.WidthMm - x, y));

        void Check(PdfPage page, Func<double, double, (double X, double Y)> expected)
        {
            var plates = Assert.Single(GhostscriptPlates.Render(PdfFile.Write([page], new("dots", PdfSides.OneSided)).AsSpan(), Dpi));
            for (var column = 0; column < Dots.WidthDots; column++)
            {
                for (var row = 0; row < Dots.HeightDots; row++)
                {
                    var onSheet = placed.Map.Apply(Placement(widthMm).Apply(new(column + 0.5, row + 0.5)));
                    var (x, y) = expected(onSheet.XMm, onSheet.YMm);
                    Assert.Equal(Dots[column, row] ? 255 : 0, plates.AtMm(x, y, Dpi).Black);
                }
            }
        }
    }

    [Fact]
    public void One_dot_more_or_in_another_place_is_another_pair()
    {
        var builder = new BitRasterBuilder(100, 60);
        builder[99, 59] = true;
        var corner = builder.ToRaster();
        var other = Dots[99, 59] ? Dots.Except(corner) : Dots.Or(corner);
        var printer = PrinterProperties.Unmeasured;
        var codes = new[] { Compose(printer, 80, Dots), Compose(printer, 80, other), Compose(printer, 80.001, Dots), Compose(printer, 80, Dots) }.Select(sheet => sheet.PairCode).ToList();
        Assert.Equal(codes[0], codes[3]);
        Assert.Equal(3, codes.Distinct().Count());
    }

    /// <summary>Pages of the same drawing, one of them moved: the file holds it once.</summary>
    [Fact]
    public void Copies_hold_a_picture_once_and_move_it()
    {
        var printer = PrinterProperties.Unmeasured;
        var sheet = Compose(printer, 80, Dots);
        var page = PackedPage.Of(SheetPdf.FrontPage(sheet, printer));
        var moved = page.With(new(10, 20), []);
        var file = PdfFile.Bind([page, moved, page], new("copies", PdfSides.OneSided));
        Assert.Equal(2, Encoding.Latin1.GetString(file.AsSpan()).Split("/Subtype /Image").Length);
        var plates = GhostscriptPlates.Render(file.AsSpan(), Dpi);
        Assert.Equal(3, plates.Length);
        Assert.True(plates[0].Black.AsSpan().SequenceEqual(plates[2].Black));
        foreach (var (column, row) in new[] { (0, 0), (99, 0), (0, 59), (50, 30) })
        {
            var at = sheet.Panels[0].Map.Apply(Placement(80).Apply(new(column + 0.5, row + 0.5)));
            Assert.Equal(Dots[column, row] ? 255 : 0, plates[1].AtMm(at.XMm + 10, at.YMm + 20, Dpi).Black);
        }
    }

    private static Affine<DotSpace, PanelSpace> Placement(double widthMm) => new(MmPerDot, 0, widthMm - 70, 0, -MmPerDot, 50);

    private static Sheet Compose(PrinterProperties printer, double widthMm, BitRaster dots)
    {
        ImmutableArray<Painted<PanelSpace>> side = [Painted<PanelSpace>.Stencil(dots, Placement(widthMm), Ink.FullK)];
        var panel = new Printable("p", "Panel", widthMm, 60, 3, side, side, Region<PanelSpace>.Empty);
        return SheetsOf.Panels("Dots", [panel], Paper, printer, printer.Builds[0], new(Fill: false)).Value[0];
    }
}
