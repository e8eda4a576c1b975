using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text.RegularExpressions;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Tests.Peers;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Core;
using UglyToad.PdfPig.Tokens;
using Xunit;

namespace Lampblack.Tests.Formats;

/// <summary>What readers that are not ours find in the file: PdfPig, strict; qpdf; Poppler's pdfinfo; MuPDF.</summary>
public sealed partial class PdfReadBackTests
{
    private static readonly PdfOptions Options = new("Dome desk", PdfSides.TwoSidedLongEdge);

    [Fact]
    public void Boxes_are_exact_in_millimetres()
    {
        using var document = Open(PdfFile.Write([PdfSamples.A4()], Options));
        var page = document.GetPage(1);
        CheckBox(new(0, 0, 210, 297), page.Dictionary, "MediaBox");
        CheckBox(new(15.1234, 20, 180, 110.5), page.Dictionary, "TrimBox");
        CheckBox(new(12.1234, 17, 186, 116.5), page.Dictionary, "BleedBox");
        Assert.Equal(0, page.Rotation.Value);
    }

    [Fact]
    public void A_bleed_that_leaves_the_paper_ends_at_its_edge()
    {
        using var document = Open(PdfFile.Write([PdfSamples.A4() with { Bleed = new(-3, 5, 300, 400) }], Options));
        CheckBox(new(0, 5, 210, 292), document.GetPage(1).Dictionary, "BleedBox");
    }

    [Theory]
    [InlineData("cmyk")]
    [InlineData("gray")]
    [InlineData("rgb")]
    public void Paths_keep_their_extents_borders_and_ink(string space)
    {
        var ink = space switch { "cmyk" => Ink.Cmyk(0.6, 0.4, 0.4, 1), "gray" => Ink.Gray(0.2), _ => Ink.Rgb(0.1, 0.2, 0.3) };
        var region = PdfSamples.Holed();
        using var document = Open(PdfFile.Write([PdfSamples.A4(new(region, ink), new(region, ink))], Options));
        Assert.Equal(2, document.GetPage(1).Paths.Count);
        foreach (var path in document.GetPage(1).Paths)
        {
            Assert.True(path.IsFilled);
            Assert.False(path.IsStroked);
            Assert.Equal(FillingRule.NonZeroWinding, path.FillingRule);
            Assert.Equal(5, path.Count);
            Assert.Equal(2, path.Count(border => border.IsCounterClockwise));
            var bounds = Assert.NotNull(path.GetBoundingRectangle());
            CheckBox(region.Bounds, bounds.Left, bounds.Bottom, bounds.Right, bounds.Top);
            Assert.Equal(ink.Amounts, Amounts(path.FillColor));
        }
    }

    [Theory]
    [InlineData(PdfSides.OneSided, "Simplex")]
    [InlineData(PdfSides.TwoSidedLongEdge, "DuplexFlipLongEdge")]
    public void The_print_dialog_is_preset_to_true_size_and_sides(PdfSides sides, string duplex)
    {
        using var document = Open(PdfFile.Write([PdfSamples.A4(), PdfSamples.A4()], Options with { Sides = sides }));
        Assert.Equal(2, document.NumberOfPages);
        var preferences = Get<DictionaryToken>(document.Structure.Catalog.CatalogDictionary, "ViewerPreferences");
        Assert.Equal("None", Get<NameToken>(preferences, "PrintScaling").Data);
        Assert.Equal(duplex, Get<NameToken>(preferences, "Duplex").Data);
        Assert.True(Get<BooleanToken>(preferences, "PickTrayByPDFSize").Data);
    }

    [Theory]
    [InlineData("Dome desk")]
    [InlineData("")]
    [InlineData(@"Yard (north) \ board) (((")]
    [InlineData("Öfen & Kuppeln – 25 Ω")]
    [InlineData("窯 🔥")]
    public void The_title_is_read_as_it_was_written(string title)
    {
        var file = PdfFile.Write([PdfSamples.A4()], Options with { Title = title });
        using (var document = Open(file))
        {
            Assert.Equal(title, document.Information.Title);
            Assert.Equal("Lampblack", document.Information.Producer);
            Assert.Null(document.Information.CreationDate);
        }

        using var folder = new ScratchFolder();
        var info = OutsideProgram.RunWell("pdfinfo", ["-enc", "UTF-8", folder.Write("a.pdf", file.AsSpan())]).Output;
        Assert.Contains(title.Length == 0 ? "Title:" : $" {title}\n", info, StringComparison.Ordinal);
    }

    [Fact]
    public void A_title_loses_control_characters_and_keeps_one_line()
    {
        using var document = Open(PdfFile.Write([PdfSamples.A4()], Options with { Title = "a\0b\u001Bc\nd\u0085e" }));
        Assert.Equal("abc de", document.Information.Title);
    }

    [Fact]
    public void Qpdf_finds_nothing_to_complain_of()
    {
        using var folder = new ScratchFolder();
        var file = PdfFile.Write([PdfSamples.A4(new Painted<PageSpace>(PdfSamples.Holed(), Ink.FullK)), PdfSamples.A4()], Options);
        var run = OutsideProgram.RunWell("qpdf", ["--check", folder.Write("a.pdf", file.AsSpan())]);
        Assert.Contains("No syntax or stream encoding errors found", run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("WARNING", run.Output + run.Errors, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void Qpdf_inflates_a_long_path_to_the_same_bytes_as_the_platform()
    {
        using var folder = new ScratchFolder();
        var file = PdfFile.Write([PdfSamples.A4(Letters(400))], Options);
        var run = OutsideProgram.RunWell("qpdf", ["--show-object=5", "--filtered-stream-data", folder.Write("a.pdf", file.AsSpan())]);
        Assert.Equal(PdfSamples.Contents(file)[0], run.Output);
    }

    [Fact]
    public void Pdfinfo_finds_the_boxes_and_the_upright_page()
    {
        using var folder = new ScratchFolder();
        var file = PdfFile.Write([PdfSamples.A4()], Options);
        var info = OutsideProgram.RunWell("pdfinfo", ["-box", folder.Write("a.pdf", file.AsSpan())]).Output;
        Assert.Matches(@"Page size:\s+595\.276 x 841\.89 pts \(A4\)", info);
        Assert.Matches(@"Page rot:\s+0\n", info);
        Assert.Matches(@"TrimBox:\s+42\.87\s+56\.69\s+553\.11\s+369\.92\n", info);
        Assert.Matches(@"BleedBox:\s+34\.37\s+48\.19\s+561\.61\s+378\.43\n", info);
        Assert.Matches(@"PDF version:\s+1\.7\n", info);
    }

    [Fact]
    public void Mupdf_traces_the_same_corners_and_inks()
    {
        using var folder = new ScratchFolder();
        var region = PdfSamples.Holed();
        var file = PdfFile.Write([PdfSamples.A4(new(region, Ink.Cmyk(0.6, 0.4, 0.4, 1)), new(region, Ink.Gray(0)))], Options);
        var trace = OutsideProgram.RunWell("mutool", ["trace", folder.Write("a.pdf", file.AsSpan())]).Output;
        var fills = trace.Split("<fill_path ").Skip(1).ToArray();
        Assert.Equal(2, fills.Length);
        Assert.Contains("""winding="nonzero" colorspace="DeviceCMYK" color=".6 .4 .4 1" """, fills[0], StringComparison.Ordinal);
        Assert.Contains("""colorspace="DeviceGray" color="0" """, fills[1], StringComparison.Ordinal);
        var expected = region.Borders().SelectMany(border => border.Points).ToArray();
        foreach (var fill in fills)
        {
            var corners = TracedCorner().Matches(fill).Select(match => (X: Mm(match.Groups[1].Value), Y: Mm(match.Groups[2].Value))).ToArray();
            Assert.Equal(expected.Length, corners.Length);
            for (var index = 0; index < corners.Length; index++)
            {
                Assert.InRange(corners[index].X - expected[index].XMm, -0.001, 0.001);
                Assert.InRange(corners[index].Y - expected[index].YMm, -0.001, 0.001);
            }
        }

        static double Mm(string points) => double.Parse(points, CultureInfo.InvariantCulture) * PdfSamples.MmPerPoint;
    }

    /// <summary>Shapes of 96 corners each, about as letters have.</summary>
    private static Painted<PageSpace>[] Letters(int count)
    {
        var letters = new List<Painted<PageSpace>>();
        for (var index = 0; index < count; index++)
        {
            var centre = new Point<PageSpace>(10 + (index % 40 * 4.7), 10 + (index / 40 * 6.1));
            var corners = Enumerable.Range(0, 96)
                .Select(corner => centre.Polar(1.5 + (0.4 * Math.Sin((corner * 0.2) + index)), corner * 3.75))
                .ToImmutableArray();
            letters.Add(new(Region<PageSpace>.FromCorners(corners), Ink.FullK));
        }

        return [.. letters];
    }

    private static PdfDocument Open(ImmutableArray<byte> file) =>
        PdfDocument.Open([.. file], new ParsingOptions { UseLenientParsing = false });

    private static T Get<T>(DictionaryToken dictionary, string name)
        where T : IToken =>
        Assert.IsType<T>(dictionary.Data[name], exactMatch: false);

    private static ImmutableArray<double> Amounts(UglyToad.PdfPig.Graphics.Colors.IColor? color) => color switch
    {
        UglyToad.PdfPig.Graphics.Colors.CMYKColor cmyk => [cmyk.C, cmyk.M, cmyk.Y, cmyk.K],
        UglyToad.PdfPig.Graphics.Colors.GrayColor gray => [gray.Gray],
        UglyToad.PdfPig.Graphics.Colors.RGBColor rgb => [rgb.R, rgb.G, rgb.B],
        _ => [],
    };

    private static void CheckBox(Box<PageSpace> expected, DictionaryToken page, string name)
    {
        var numbers = Get<ArrayToken>(page, name).Data.Cast<NumericToken>().Select(number => number.Double).ToArray();
        CheckBox(expected, numbers[0], numbers[1], numbers[2], numbers[3]);
    }

    private static void CheckBox(Box<PageSpace> expected, double left, double bottom, double right, double top)
    {
        Assert.InRange((left * PdfSamples.MmPerPoint) - expected.LeftMm, -0.001, 0.001);
        Assert.InRange((bottom * PdfSamples.MmPerPoint) - expected.BottomMm, -0.001, 0.001);
        Assert.InRange((right * PdfSamples.MmPerPoint) - expected.RightMm, -0.001, 0.001);
        Assert.InRange((top * PdfSamples.MmPerPoint) - expected.TopMm, -0.001, 0.001);
    }

    [GeneratedRegex("""<(?:move|line)to x="([^"]+)" y="([^"]+)"/>""")]
    private static partial Regex TracedCorner();
}
