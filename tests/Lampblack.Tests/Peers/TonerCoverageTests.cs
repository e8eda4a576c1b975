using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Bitmaps;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Peers;

/// <summary>Toner of pages against Ghostscript's own count (device ink_cov) and against areas worked out by hand.</summary>
public sealed class TonerCoverageTests
{
    private static readonly Box<PageSpace> Whole = new(0, 0, 100, 150);

    [Fact]
    public void Later_inks_take_the_place_of_earlier_ones()
    {
        var toner = TonerCoverage.Of(Page(
            new(Rectangle(10, 10, 80, 100), Ink.Cmyk(0.6, 0.4, 0.4, 1)),
            new(Rectangle(20, 20, 30, 40), Ink.None),
            new(Rectangle(60, 20, 20, 30), Ink.Cmyk(0, 0.5, 1, 0)),
            new(Rectangle(0, 130, 100, 40), Ink.Gray(0.25))));

        // Of 15,000 mm2: 8,000 less 1,200 less 600 in the build; 600 in orange; 2,000 on the page in three quarters of black.
        Assert.Equal(6200 * 0.6 / 15000, toner.CyanCoverage, 1e-3);
        Assert.Equal(((6200 * 0.4) + 300) / 15000, toner.MagentaCoverage, 1e-3);
        Assert.Equal(((6200 * 0.4) + 600) / 15000, toner.YellowCoverage, 1e-3);
        Assert.Equal((6200 + 1500.0) / 15000, toner.BlackCoverage, 1e-3);
    }

    // A disc of radius 20 is 1,256.6 mm2, a checkerboard of dots is half of its 30 x 30 mm.
    [Fact]
    public void Round_shapes_and_dots_count_by_their_area()
    {
        var dots = new BitRasterBuilder(60, 60);
        for (var row = 0; row < 60; row++)
        {
            for (var column = row % 2; column < 60; column += 2)
            {
                dots.SetRun(row, column, column + 1);
            }
        }

        var toner = TonerCoverage.Of(Page(
            new(Region<PageSpace>.Disc(new(50, 100), 20), Ink.FullK),
            Painted<PageSpace>.Stencil(dots.ToRaster(), new(0.5, 0, 10, 0, -0.5, 40), Ink.Cmyk(0, 0, 1, 0))));
        Assert.Equal(Math.PI * 400 / 15000, toner.BlackCoverage, 1e-3);
        Assert.Equal(450.0 / 15000, toner.YellowCoverage, 1e-3);
    }

    [Fact]
    public void Ghostscript_counts_the_same_toner()
    {
        var page = Page(
            new(Region<PageSpace>.Rectangle(new(5, 5, 90, 140)), Ink.Cmyk(0.6, 0.4, 0.4, 1)),
            new(Region<PageSpace>.Disc(new(40, 60), 22.5), Ink.None),
            new(Region<PageSpace>.Disc(new(60, 90), 10), Ink.Cmyk(0, 0.38, 1, 0)),
            new(Rectangle(8, 8, 0.3, 130), Ink.None),
            new(Rectangle(9, 8, 60, 0.4), Ink.None));
        var ours = TonerCoverage.Of(page);
        var theirs = Ghostscript(PdfFile.Write([page], new("toner", PdfSides.OneSided)).AsSpan());
        foreach (var (mine, other) in new[] { ours.CyanCoverage, ours.MagentaCoverage, ours.YellowCoverage, ours.BlackCoverage }.Zip(theirs))
        {
            Assert.InRange(mine / other, 0.98, 1.02);
        }
    }

    private static IEnumerable<double> Ghostscript(ReadOnlySpan<byte> pdf)
    {
        OutsideProgram.Need("gs");
        using var folder = new ScratchFolder();
        folder.Write("in.pdf", pdf);
        var run = OutsideProgram.RunWell("gs", ["-q", "-dSAFER", "-dBATCH", "-dNOPAUSE", "-r600", "-sDEVICE=ink_cov", "-o", "-", "-f", "in.pdf"], folder.FullPath, TimeSpan.FromSeconds(60));
        return [.. run.Output.Split(' ', StringSplitOptions.RemoveEmptyEntries).Take(4).Select(number => double.Parse(number, CultureInfo.InvariantCulture) / 100)];
    }

    private static Region<PageSpace> Rectangle(double left, double bottom, double width, double height) => Region<PageSpace>.Rectangle(new(left, bottom, width, height));

    private static PdfPage Page(params ReadOnlySpan<Painted<PageSpace>> areas) => new(100, 150, Whole, Whole, [.. areas]);
}
