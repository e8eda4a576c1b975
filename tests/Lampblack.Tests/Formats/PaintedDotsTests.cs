using System;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using Lampblack.Bitmaps;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Tests.Bitmaps;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Formats;

/// <summary>Dots in a PDF, drawn by an interpreter that is not ours at the dots' own resolution: what comes out is each dot, just so.</summary>
public sealed class PaintedDotsTests
{
    private const int Dpi = 600;
    private const double MmPerDot = 25.4 / Dpi;

    /// <summary>A page of 1200 x 1500 dots.</summary>
    private const double WidthMm = 50.8;
    private const double HeightMm = 63.5;

    private static readonly PdfOptions Options = new("dots", PdfSides.OneSided);

    private static readonly Affine<DotSpace, PageSpace> At100From200 = new(MmPerDot, 0, 100 * MmPerDot, 0, -MmPerDot, HeightMm - (200 * MmPerDot));

    private static readonly Affine<DotSpace, PageSpace> At150Dpi = new(4 * MmPerDot, 0, 100 * MmPerDot, 0, -4 * MmPerDot, HeightMm - (200 * MmPerDot));

    [Theory]
    [InlineData(0.5)]
    [InlineData(0.03)]
    public void A_stencil_in_k_gives_its_dots_back(double share)
    {
        var dots = Random(1, 700, 900, share);
        CheckBlack(dots, 100, 200, Render(Painted<PageSpace>.Stencil(dots, At100From200, Ink.FullK)));
    }

    [Fact]
    public void A_stencil_of_large_shapes_gives_its_dots_back()
    {
        var dots = Random(2, 701, 903, 0.0003).Grow(20.5);
        var file = Write(Painted<PageSpace>.Stencil(dots, At100From200, Ink.FullK));
        Assert.Contains("/CCITTFaxDecode", Latin(file), StringComparison.Ordinal);
        CheckBlack(dots, 100, 200, Assert.Single(GhostscriptPlates.Render(file.AsSpan(), Dpi)));
    }

    [Fact]
    public void A_repeated_pattern_is_packed_the_smaller_way()
    {
        var builder = new BitRasterBuilder(704, 900);
        for (var row = 0; row < 900; row++)
        {
            builder.Row(row).Fill(row % 2 == 0 ? 0x5555555555555555UL : 0x1111111111111111UL);
        }

        var dots = builder.ToRaster();
        var file = Write(Painted<PageSpace>.Stencil(dots, At100From200, Ink.FullK));
        Assert.DoesNotContain("/CCITTFaxDecode", Latin(file), StringComparison.Ordinal);
        Assert.InRange(file.Length, 0, FaxFile.Write(dots).Length);
        CheckBlack(dots, 100, 200, Assert.Single(GhostscriptPlates.Render(file.AsSpan(), Dpi)));
    }

    /// <summary>All eight ways that a square can lie: turned by quarters, mirrored or not.</summary>
    [Theory]
    [InlineData(1, 0, 0, 1)]
    [InlineData(-1, 0, 0, 1)]
    [InlineData(1, 0, 0, -1)]
    [InlineData(-1, 0, 0, -1)]
    [InlineData(0, 1, 1, 0)]
    [InlineData(0, -1, 1, 0)]
    [InlineData(0, 1, -1, 0)]
    [InlineData(0, -1, -1, 0)]
    public void Mapped_dots_lie_where_the_map_takes_them(int xx, int xy, int yx, int yy)
    {
        var dots = Random(3, 321, 234, 0.2);
        var map = new Affine<SheetSpace, PageSpace>(xx, xy, 600 * MmPerDot, yx, yy, 700 * MmPerDot);
        var placement = new Affine<DotSpace, SheetSpace>(MmPerDot, 0, 20 * MmPerDot, 0, -MmPerDot, 300 * MmPerDot);
        var painted = Painted<SheetSpace>.Stencil(dots, placement, Ink.FullK).Map(map);
        var page = Render(painted);
        var expected = new bool[page.WidthPx, page.HeightPx];
        for (var x = 0; x < dots.WidthDots; x++)
        {
            for (var y = 0; y < dots.HeightDots; y++)
            {
                // In dots from the page's lower left corner, y up; the middle of the dot.
                var (sheetX, sheetY) = (20 + x + 0.5, 300 - (y + 0.5));
                var (pageX, pageY) = ((xx * sheetX) + (xy * sheetY) + 600, (yx * sheetX) + (yy * sheetY) + 700);
                expected[(int)pageX, page.HeightPx - 1 - (int)pageY] = dots[x, y];
            }
        }

        Assert.Equal(Grid.Pack(expected), Plate(page, page.Black));
        Assert.Equal(321 * 234 * MmPerDot * MmPerDot, painted.Region.AreaMm2, 0.01);
        Assert.Equal(dots.Count() * MmPerDot * MmPerDot, painted.AreaMm2, 1e-9);
    }

    /// <summary>As a field is built: the full build, its edges in K alone, and the legend bare; each plate has its own dots.</summary>
    [Fact]
    public void A_legend_bared_in_a_field_that_stands_back_leaves_each_plate_its_dots()
    {
        var legend = Random(4, 700, 900, 0.0002).Grow(9.2);
        var edge = legend.Grow(0.1 / MmPerDot);
        var field = Region<PageSpace>.Rectangle(new(100 * MmPerDot, HeightMm - (1100 * MmPerDot), 700 * MmPerDot, 900 * MmPerDot));
        var page = Render(
            new(field, Ink.Cmyk(0.6, 0.4, 0.4, 1)),
            Painted<PageSpace>.Stencil(edge, At100From200, Ink.FullK),
            Painted<PageSpace>.Stencil(legend, At100From200, Ink.None));
        CheckPlate(legend.Complement(), page, page.Black, 255);
        CheckPlate(edge.Complement(), page, page.Cyan, 153);
        CheckPlate(edge.Complement(), page, page.Magenta, 102);
        CheckPlate(edge.Complement(), page, page.Yellow, 102);
    }

    [Fact]
    public void A_gray_field_is_bared_in_gray_and_no_colour_is_sent()
    {
        var legend = Random(5, 700, 900, 0.01);
        var field = Region<PageSpace>.Rectangle(new(100 * MmPerDot, HeightMm - (1100 * MmPerDot), 700 * MmPerDot, 900 * MmPerDot));
        var file = Write(new(field, Ink.Gray(0)), Painted<PageSpace>.Stencil(legend, At100From200, Ink.Bare(InkSpace.Gray)));
        var operators = PdfSamples.Contents(file)[0].Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(["0 g", "1 g"], operators.Where(line => line.EndsWith('g') || line.EndsWith('k')));
        var page = Assert.Single(GhostscriptPlates.Render(file.AsSpan(), Dpi));
        CheckPlate(legend.Complement(), page, page.Black, 255);
        Assert.All(page.Cyan.Concat(page.Magenta).Concat(page.Yellow), ink => Assert.Equal(0, ink));
    }

    /// <summary>A gray picture of 150 dpi under a mask of 600 dpi: each of its dots is four of the mask's wide.</summary>
    [Fact]
    public void A_gray_picture_is_printed_in_k_where_its_mask_is_set()
    {
        var mask = Random(6, 320, 240, 0.5);
        var codes = Codes(80 * 60);
        var page = Render(Painted<PageSpace>.Picture(new ColourDots(InkSpace.Gray, 80, 60, codes, mask), At150Dpi));
        var expected = new byte[page.Black.Length];
        for (var x = 0; x < 320; x++)
        {
            for (var y = 0; y < 240; y++)
            {
                expected[((y + 200) * page.WidthPx) + x + 100] = mask[x, y] ? (byte)(255 - codes[(y / 4 * 80) + (x / 4)]) : (byte)0;
            }
        }

        Assert.Equal(expected, page.Black);
        Assert.All(page.Cyan.Concat(page.Magenta).Concat(page.Yellow), ink => Assert.Equal(0, ink));
    }

    /// <summary>A dot for each of the mask's, as the second program smooths pictures that it enlarges. (Poppler draws pictures a dot too wide and too high.)</summary>
    [Theory]
    [InlineData("gs", "-q", "-dSAFER", "-dBATCH", "-dNOPAUSE", "-dPDFSTOPONERROR", "-sDEVICE=ppmraw", "-r600", "-o", "out-1.ppm", "in.pdf")]
    [InlineData("mutool", "draw", "-q", "-A", "0", "-r", "600", "-o", "out-1.ppm", "in.pdf")]
    public void A_colour_picture_is_seen_where_its_mask_is_set_and_what_lies_below_elsewhere(string program, params string[] arguments)
    {
        OutsideProgram.Need(program);
        var mask = Random(7, 320, 240, 0.5).Grow(1);
        var codes = Codes(320 * 240 * 3);
        using var folder = new ScratchFolder();
        folder.Write("in.pdf", Write(
            new(PdfSamples.Rectangle(0, 0, WidthMm, HeightMm), Ink.Rgb(0, 1, 0)),
            Painted<PageSpace>.Picture(new ColourDots(InkSpace.Rgb, 320, 240, codes, mask), At100From200)).AsSpan());
        OutsideProgram.RunWell(program, arguments, folder.FullPath);
        var picture = File.ReadAllBytes(folder.PathOf("out-1.ppm"));
        var (width, height) = (1200, 1500);
        var head = picture.Length - (width * height * 3);
        Assert.StartsWith("P6", System.Text.Encoding.ASCII.GetString(picture, 0, head), StringComparison.Ordinal);
        var wrong = 0;
        for (var x = 0; x < width; x++)
        {
            for (var y = 0; y < height; y++)
            {
                var seen = picture.AsSpan(head + (((y * width) + x) * 3), 3);
                var (column, row) = (x - 100, y - 200);
                var painted = column is >= 0 and < 320 && row is >= 0 and < 240 && mask[column, row];
                wrong += seen.SequenceEqual(painted ? codes.AsSpan(((row * 320) + column) * 3, 3) : [0, 255, 0]) ? 0 : 1;
            }
        }

        Assert.Equal(0, wrong);
    }

    [Fact]
    public void A_picture_knows_its_mean_and_refuses_what_is_none()
    {
        Assert.Equal(Ink.Rgb(0, 51 / 255.0, 1), new ColourDots(InkSpace.Rgb, 2, 1, [0, 102, 255, 0, 0, 255], null).MeanInk);
        Assert.Equal(Ink.Gray(1), new ColourDots(InkSpace.Gray, 2, 1, [255, 0], Grid.Pack(Grid.Of("##..", "##.."))).MeanInk);
        Assert.Equal(1, new ColourDots(InkSpace.Gray, 2, 1, [255, 0], Grid.Pack(Grid.Of("##..", "##.."))).PrintedDots);
        Assert.Equal(Ink.Bare(InkSpace.Rgb), new ColourDots(InkSpace.Rgb, 1, 1, [7, 7, 7], BitRaster.Clear(1, 1)).MeanInk);
        Assert.Throws<ArgumentException>(() => new ColourDots(InkSpace.Cmyk, 1, 1, [0, 0, 0, 0], null));
        Assert.Throws<ArgumentException>(() => new ColourDots(InkSpace.Rgb, 1, 1, [0, 0], null));
    }

    [Fact]
    public void Images_are_written_so_that_qpdf_has_nothing_to_complain_of()
    {
        using var folder = new ScratchFolder();
        var picture = new ColourDots(InkSpace.Rgb, 80, 60, Codes(80 * 60 * 3), Random(8, 320, 240, 0.5));
        var stencil = Random(9, 320, 240, 0.001).Grow(9);
        var file = Write(Painted<PageSpace>.Stencil(stencil, At100From200, Ink.None), Painted<PageSpace>.Picture(picture, At150Dpi), Painted<PageSpace>.Stencil(stencil, At150Dpi, Ink.FullK));
        var run = OutsideProgram.RunWell("qpdf", ["--check", folder.Write("a.pdf", file.AsSpan())]);
        Assert.Contains("No syntax or stream encoding errors found", run.Output, StringComparison.Ordinal);

        // The stencil stands in the file once, the picture and its mask beside it.
        Assert.Equal(3 + 1, Latin(file).Split("/Subtype /Image").Length);
    }

    private static ImmutableArray<byte> Codes(int count)
    {
        var codes = new byte[count];
        new Random(count).NextBytes(codes);
        return [.. codes];
    }

    private static BitRaster Random(int seed, int width, int height, double share) => Grid.Pack(Grid.Random(new Random(seed), width, height, share));

    private static ImmutableArray<byte> Write(params ReadOnlySpan<Painted<PageSpace>> areas) =>
        PdfFile.Write([new(WidthMm, HeightMm, new(1, 1, 40, 40), new(1, 1, 40, 40), [.. areas])], Options);

    private static InkPlates Render(params ReadOnlySpan<Painted<PageSpace>> areas) => Assert.Single(GhostscriptPlates.Render(Write(areas).AsSpan(), Dpi));

    private static string Latin(ImmutableArray<byte> file) => System.Text.Encoding.Latin1.GetString(file.AsSpan());

    private static BitRaster Plate(InkPlates page, byte[] plate)
    {
        var builder = new BitRasterBuilder(page.WidthPx, page.HeightPx);
        for (var index = 0; index < plate.Length; index++)
        {
            builder[index % page.WidthPx, index / page.WidthPx] = plate[index] > 0;
        }

        return builder.ToRaster();
    }

    private static void CheckBlack(BitRaster dots, int left, int top, InkPlates page)
    {
        Assert.Equal(dots.Crop(-left, -top, page.WidthPx, page.HeightPx), Plate(page, page.Black));
        Assert.All(page.Cyan.Concat(page.Magenta).Concat(page.Yellow), ink => Assert.Equal(0, ink));
    }

    private static void CheckPlate(BitRaster dots, InkPlates page, byte[] plate, byte amount)
    {
        Assert.Equal(dots.Crop(-100, -200, page.WidthPx, page.HeightPx), Plate(page, plate));
        Assert.All(plate, ink => Assert.True(ink == 0 || ink == amount, $"{ink} instead of {amount}"));
    }
}
