using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>Every part of the desk once, at true size, to lay the real ones on and to write down what the caliper says.</summary>
internal static class PartCard
{
    public const string Path = "parts.pdf";

    private const string HowTo =
        "Plain paper, actual size (100 %). Lay each real part on its outlines, write down what your caliper says, and put what differs into the desk file: [[caliper]].";

    private const double SideMm = 12;
    private const double StripMm = 14;

    /// <summary>The card; null for a desk without parts.</summary>
    public static OutputFile? Of(string title, ImmutableArray<LaidPanel> panels, PrintSetup setup)
    {
        var paper = setup.Paper;
        var (widthMm, heightMm) = (paper.WidthMm - (2 * SideMm), paper.HeightMm - (2 * StripMm) - setup.Printer.MarginMm);
        var blocks = panels.SelectMany(panel => panel.Parts).GroupBy(placed => (placed.Part.Id, placed.Part.DrillText))
            .Select(group => PartCardBlock.Of(group.First().Part, group.Count(), widthMm, heightMm)).ToList();
        if (blocks.Count == 0)
        {
            return null;
        }

        var pages = Pages(blocks, heightMm);
        var made = pages.Select((page, index) => PackedPage.Of(Page(
            page, string.Create(CultureInfo.InvariantCulture, $"{TrialSheet.Short(title)}  ·  part card {index + 1} of {pages.Count}"), paper, setup)));
        return new(Path, "outlines of all parts at true size, to lay the real ones on; plain paper, one side", PdfFile.Bind([.. made], new($"{title} parts", PdfSides.OneSided)));
    }

    /// <summary>As few pages as do, and those filled alike: no part stands alone on a last page that it leaves nearly empty.</summary>
    private static List<List<PartCardBlock>> Pages(List<PartCardBlock> blocks, double heightMm)
    {
        var fewest = Filled(blocks, heightMm);

        // The least height to which all pages can be filled: it is that of some run of parts.
        var runs = blocks.SelectMany((_, first) => Enumerable.Range(1, blocks.Count - first).Select(count => blocks.Skip(first).Take(count).Sum(block => block.HeightMm)));
        return runs.Where(mm => mm < heightMm).Distinct().Order().Select(mm => Filled(blocks, mm + 1e-6)).FirstOrDefault(pages => pages.Count == fewest.Count) ?? fewest;
    }

    private static List<List<PartCardBlock>> Filled(List<PartCardBlock> blocks, double heightMm)
    {
        var pages = new List<List<PartCardBlock>>();
        var leftMm = 0.0;
        foreach (var block in blocks)
        {
            if (pages.Count == 0 || block.HeightMm > leftMm)
            {
                pages.Add([]);
                leftMm = heightMm;
            }

            pages[^1].Add(block);
            leftMm -= block.HeightMm;
        }

        return pages;
    }

    private static PdfPage Page(List<PartCardBlock> blocks, string name, PaperSize paper, PrintSetup setup)
    {
        var margin = setup.Printer.MarginMm;
        var shapes = new List<Region<SheetSpace>>
        {
            TrialSheet.Fitted(name, 2.4, new(paper.WidthMm / 2, paper.HeightMm - margin - 1.6), paper.WidthMm - (2 * margin)),
            TrialSheet.Fitted(HowTo, 1.9, new(paper.WidthMm / 2, paper.HeightMm - margin - 5.2), paper.WidthMm - (2 * margin)),
            TrialDrawing.Bar(paper.WidthMm / 2, margin + 1, Side.Front),
        };
        var top = paper.HeightMm - margin - (StripMm - 4);
        foreach (var block in blocks)
        {
            var place = Affine<SheetSpace, SheetSpace>.Shift(SideMm, top);
            shapes.AddRange(block.Shapes.Select(shape => shape.Map(place)));
            top -= block.HeightMm;
        }

        var whole = new Box<PageSpace>(0, 0, paper.WidthMm, paper.HeightMm);
        var map = PageMapping.Front(setup.Printer);
        return new(paper.WidthMm, paper.HeightMm, whole, whole, [.. shapes.Select(shape => new Painted<PageSpace>(shape.Map(map), setup.Black.Edge))]);
    }
}
