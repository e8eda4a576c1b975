using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Threading;
using Lampblack.Fabrication;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Tests.Books;
using Lampblack.Tests.Checks;
using Lampblack.Tests.Suites;
using UglyToad.PdfPig;
using Xunit;

namespace Lampblack.Tests.Fabrication;

/// <summary>No page of a hole chart or a part card is left nearly empty where what stands on the others could be shared out.</summary>
public sealed class FullPagesTests
{
    private const double LeastShare = 0.25;
    private const double ChartShare = 0.36;

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Charts_of_the_examples_fill_their_pages(string name)
    {
        foreach (var paper in new[] { "A4", "Letter" })
        {
            Assert.All(ExampleBooks.Of(name).Facts.Charts, chart => Assert.All(Filled(chart, paper), share => Assert.InRange(share, ChartShare, 1)));
        }
    }

    /// <summary>Panels of 4 to 60 holes in rows of 10: a fifth of every page is filled, the last included.</summary>
    [Fact]
    public void Charts_of_any_length_leave_no_page_nearly_empty()
    {
        var shared = 0;
        foreach (var count in Enumerable.Range(4, 57).Where(count => count % 3 == 1))
        {
            var laid = CheckedDesk.Laid("lampblack = 1\ntitle = \"t\"\n[[panel]]\nid = \"p\"\nsize = [200, 120]\n" + string.Concat(Enumerable.Range(0, count).Select(index =>
                string.Create(CultureInfo.InvariantCulture, $"[[panel.control]]\nid = \"c{index}\"\npart = \"lamp-3mm-clip\"\nat = [{12 + (index % 10 * 18)}, {10 + (index / 10 * 18)}]\n"))));
            var chart = HoleChart.Of(laid.Panels[0], laid.Desk.Bench).Value;
            var pages = Filled(chart, "A4");
            shared += pages.Count > 1 ? 1 : 0;
            Assert.All(pages, share => Assert.InRange(share, 0.2, 1));
        }

        Assert.True(shared > 3, $"{shared} charts of several pages");
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public void Part_cards_of_the_examples_fill_their_pages(string name)
    {
        foreach (var paper in new[] { "A4", "Letter" })
        {
            var file = Build.Run(ExampleDesks.Source(name), new(paper, "option", Parts: BuildParts.Print), new Progress<string>(), CancellationToken.None).Files.Single(one => one.Path == "parts.pdf");
            using var pdf = PdfDocument.Open(file.Bytes.ToArray());
            Assert.All(pdf.GetPages(), page => Assert.InRange(Filled([.. page.Paths.Select(path => path.GetBoundingRectangle()).OfType<UglyToad.PdfPig.Core.PdfRectangle>().Select(box => (box.Bottom, box.Top))], page.Height, 60), LeastShare, 1));
        }
    }

    private static List<double> Filled(HoleChart chart, string paper)
    {
        var size = PaperSize.Find(paper)!;
        var printer = PrinterProperties.Unmeasured;
        return [.. ChartPages.Pages(chart, Lampblack.Desks.WorkOrder.GlueThenDrill, size, printer.Builds[0].Edge, printer).Select(page => Filled([.. page.Areas.Select(one => one.Region.Bounds).Select(box => (box.BottomMm, box.TopMm))], size.HeightMm, 0))];
    }

    /// <summary>How much of a page lies above its lowest line; a foot that every page has is left out.</summary>
    private static double Filled(List<(double Low, double High)> lines, double highMm, double foot) => 1 - (lines.Where(line => line.Low > foot).Min(line => line.Low) / highMm);
}
