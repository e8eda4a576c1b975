using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text.Json;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Jobs;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Lampblack.Tests.Formats;
using Lampblack.Tests.Peers;
using Lampblack.Tests.Register;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Tokens;
using Xunit;

namespace Lampblack.Tests.Suites;

/// <summary>The sheets of every example on every paper, read again by a library that is not ours (PdfPig, strict) and checked by qpdf.</summary>
public sealed class SheetReadBackTests
{
    private const double ToleranceMm = 0.001;

    /// <summary>How far the print reaches over the trim; README and report agree on it.</summary>
    private const double BleedMm = 3;

    /// <summary>ISO 216 and ASME Y14.1, in mm; Legal is common practice.</summary>
    private static readonly (string Name, double WidthMm, double HeightMm)[] Papers =
        [("A4", 210, 297), ("Letter", 215.9, 279.4), ("Legal", 215.9, 355.6), ("A3", 297, 420), ("Tabloid", 279.4, 431.8)];

    public static TheoryData<string, string, double, double> ExamplesOnPapers
    {
        get
        {
            var data = new TheoryData<string, string, double, double>();
            foreach (var example in ExampleDesks.Names)
            {
                foreach (var (name, width, height) in Papers)
                {
                    data.Add(example, name, width, height);
                }
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(ExamplesOnPapers))]
    public void Sheets_say_to_another_library_what_was_laid_out(string example, string paper, double widthMm, double heightMm)
    {
        var result = Build.Run(ExampleDesks.Source(example), new(paper, "option", Black: "full", SpreadMm: 0.5, Parts: BuildParts.Print), new Progress<string>(), CancellationToken.None);
        var stops = result.Findings.Where(finding => finding.Severity == Severity.Stop).ToList();
        if (stops.Count > 0)
        {
            // An example may need a larger paper than this one; it says so, and says which.
            Assert.All(stops, stop => Assert.Equal("panel-too-large", stop.Code));
            Assert.Empty(result.Files);
            return;
        }

        using var report = JsonDocument.Parse(File(result, "report.json").AsSpan().ToArray());
        var meant = SeparatedDesk.Of(ExampleDesks.Bytes(example), "full", 0.5, PaperSize.Find(paper), coupon: true, ExampleDesks.Source(example).Files).Sheets;
        var sheets = report.RootElement.GetProperty("sheets").EnumerateArray().ToList();
        Assert.Equal(meant.Select(sheet => (sheet.Id, sheet.PairCode)), sheets.Select(sheet => (Text(sheet, "id"), Text(sheet, "pairCode"))));
        using var folder = new ScratchFolder();
        foreach (var (written, sheet) in sheets.Zip(meant))
        {
            var trim = TrimOf(report.RootElement, sheet);
            var page = new Paper(widthMm, heightMm, trim);
            CheckFile(result, Text(written, "front"), "Simplex", [(sheet.Front, false)], page, folder);
            CheckFile(result, Text(written, "mask"), "Simplex", [(sheet.Back, true)], page, folder);
            CheckFile(result, Text(written, "duplex"), "DuplexFlipLongEdge", [(sheet.Front, false), (sheet.Back, true)], page, folder);
        }
    }

    [Fact]
    public void Every_example_fits_on_one_of_the_papers_that_people_have() => Assert.All(ExampleDesks.Names, example => Assert.Contains(Papers, paper => Build.Run(
        ExampleDesks.Source(example), new(paper.Name, "option", Parts: BuildParts.None), new Progress<string>(), CancellationToken.None)
            .Findings.All(finding => finding.Severity != Severity.Stop)));

    private static void CheckFile(
        BuildResult result, string path, string duplex, ImmutableArray<(ImmutableArray<Painted<SheetSpace>> Areas, bool Mirrored)> sides, Paper paper, ScratchFolder folder)
    {
        var bytes = File(result, path);
        using (var document = PdfDocument.Open([.. bytes], new ParsingOptions { UseLenientParsing = false }))
        {
            Assert.Equal(sides.Length, document.NumberOfPages);
            var preferences = Get<DictionaryToken>(document.Structure.Catalog.CatalogDictionary, "ViewerPreferences");
            Assert.Equal("None", Get<NameToken>(preferences, "PrintScaling").Data);
            Assert.Equal(duplex, Get<NameToken>(preferences, "Duplex").Data);
            Assert.True(Get<BooleanToken>(preferences, "PickTrayByPDFSize").Data);
            for (var side = 0; side < sides.Length; side++)
            {
                CheckPage(document.GetPage(side + 1), sides[side].Areas, sides[side].Mirrored, paper, path);
            }
        }

        var run = OutsideProgram.RunWell("qpdf", ["--check", folder.Write("sheet.pdf", bytes.AsSpan())]);
        Assert.Contains("No syntax or stream encoding errors found", run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("WARNING", run.Output + run.Errors, StringComparison.OrdinalIgnoreCase);
    }

    private static void CheckPage(Page page, ImmutableArray<Painted<SheetSpace>> areas, bool mirrored, Paper paper, string path)
    {
        Assert.True(paper.WidthMm < paper.HeightMm);
        Assert.Equal(0, page.Rotation.Value);
        Assert.False(page.Dictionary.ContainsKey(NameToken.Rotate));
        CheckBox(new(0, 0, paper.WidthMm, paper.HeightMm), page.Dictionary, "MediaBox");
        CheckBox(paper.OnPage(paper.Trim, mirrored), page.Dictionary, "TrimBox");
        CheckBox(paper.OnPage(paper.Trim.Grow(BleedMm), mirrored), page.Dictionary, "BleedBox");
        Assert.Empty(page.Letters);
        Assert.Empty(page.GetImages());
        Assert.Empty(Get<DictionaryToken>(page.Dictionary, "Resources").Data);

        var painted = areas.Where(area => !area.Region.IsEmpty).Select(area => paper.OnPage(area.Region.Bounds, mirrored, cut: false)).ToList();
        var read = page.Paths.Select(found => found.GetBoundingRectangle()!.Value).ToList();
        Assert.Equal((path, painted.Count), (path, read.Count));
        foreach (var (box, found) in painted.Zip(read))
        {
            CheckBox(box, found.Left, found.Bottom, found.Right, found.Top, path);
        }

        // All that is printed lies on the paper.
        Assert.True(painted.Min(box => box.LeftMm) >= 0 && painted.Max(box => box.RightMm) <= paper.WidthMm, path);
        Assert.True(painted.Min(box => box.BottomMm) >= 0 && painted.Max(box => box.TopMm) <= paper.HeightMm, path);
    }

    /// <summary>The box around the trim boxes that the report gives for a sheet.</summary>
    /// <summary>The box around the panels of the report and the coupon, which the report leaves out.</summary>
    private static Box<SheetSpace> TrimOf(JsonElement report, Sheet sheet)
    {
        var boxes = report.GetProperty("panels").EnumerateArray().Where(panel => Text(panel, "sheet") == sheet.Id)
            .Select(panel => panel.GetProperty("trimBoxMm").EnumerateArray().Select(value => value.GetDouble()).ToArray()).ToList();
        Assert.NotEmpty(boxes);
        boxes.AddRange(sheet.Panels.Where(panel => panel.Spare).Select(panel => new[] { panel.Trim.LeftMm, panel.Trim.BottomMm, panel.Trim.WidthMm, panel.Trim.HeightMm }));
        return Box<SheetSpace>.Between(
            new(boxes.Min(box => box[0]), boxes.Min(box => box[1])), new(boxes.Max(box => box[0] + box[2]), boxes.Max(box => box[1] + box[3])));
    }

    private static ImmutableArray<byte> File(BuildResult result, string path) => result.Files.Single(file => file.Path == path).Bytes;

    private static string Text(JsonElement element, string name) => element.GetProperty(name).GetString()!;

    private static T Get<T>(DictionaryToken dictionary, string name)
        where T : IToken =>
        Assert.IsType<T>(dictionary.Data[name], exactMatch: false);

    private static void CheckBox(Box<PageSpace> expected, DictionaryToken page, string name)
    {
        var numbers = Get<ArrayToken>(page, name).Data.Cast<NumericToken>().Select(number => number.Double).ToArray();
        CheckBox(expected, numbers[0], numbers[1], numbers[2], numbers[3], name);
    }

    private static void CheckBox(Box<PageSpace> expected, double left, double bottom, double right, double top, string what)
    {
        foreach (var (meant, points) in new List<(double, double)> { (expected.LeftMm, left), (expected.BottomMm, bottom), (expected.RightMm, right), (expected.TopMm, top) })
        {
            var offMm = (points * PdfSamples.MmPerPoint) - meant;
            Assert.True(Math.Abs(offMm) <= ToleranceMm, string.Create(CultureInfo.InvariantCulture, $"{what}: {meant} mm is written {offMm} mm off"));
        }
    }

    /// <summary>A page, and from the sheet in front view to it: for an unmeasured printer nothing but the mirror about the long axis.</summary>
    private sealed record Paper(double WidthMm, double HeightMm, Box<SheetSpace> Trim)
    {
        public Box<PageSpace> OnPage(Box<SheetSpace> box, bool mirrored, bool cut = true)
        {
            var left = mirrored ? WidthMm - box.RightMm : box.LeftMm;
            var right = mirrored ? WidthMm - box.LeftMm : box.RightMm;
            return cut
                ? Box<PageSpace>.Between(new(Math.Max(0, left), Math.Max(0, box.BottomMm)), new(Math.Min(WidthMm, right), Math.Min(HeightMm, box.TopMm)))
                : Box<PageSpace>.Between(new(left, box.BottomMm), new(right, box.TopMm));
        }
    }
}
