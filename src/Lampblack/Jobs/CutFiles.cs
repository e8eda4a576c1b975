using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Cutting;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>The drawings of a cut plan: each plate in true size, and pages to take to the bench.</summary>
internal static class CutFiles
{
    private const double MarginMm = 14;
    private const double TextMm = 2.4;
    private const double TitleMm = 3.4;
    private const double LineStepMm = 4.6;

    /// <summary>What a page gives to the drawing at most.</summary>
    private const double DrawingShare = 0.5;

    private const double LargestScale = 1;

    /// <summary>Letters of the drawing in true size: the plate's longer side divided by this.</summary>
    private const double LettersOnPlate = 55;

    /// <summary>The files; none where nothing is cut.</summary>
    public static IEnumerable<OutputFile> Of(string title, CutSheetPlan sheet, PaperSize paper)
    {
        var plates = Numbered(sheet.Plan);
        if (plates.IsEmpty)
        {
            return [];
        }

        var pages = plates.SelectMany(plate => Pages(title, sheet, plate.Plate, plate.Index, plate.First, paper)).ToImmutableArray();
        return
        [
            new("cut-plan.pdf", "how the plates are cut, step by step, for the bench; plain paper", PdfFile.Write(pages, new($"{title} cut plan", PdfSides.OneSided))),
            .. plates.Select(plate => new OutputFile(
                string.Create(CultureInfo.InvariantCulture, $"cut-plan-{plate.Index + 1}.svg"),
                string.Create(CultureInfo.InvariantCulture, $"plate {plate.Index + 1} and its cuts, numbered, in true size"),
                Drawing(title, sheet, plate.Plate, plate.Index, plate.First))),
        ];
    }

    private static ImmutableArray<(CutPlate Plate, int Index, int First)> Numbered(CutPlan plan)
    {
        var first = 1;
        var plates = ImmutableArray.CreateBuilder<(CutPlate, int, int)>();
        foreach (var plate in plan.Plates)
        {
            plates.Add((plate, plates.Count, first));
            first += plate.Cuts.Length;
        }

        return plates.ToImmutable();
    }

    private static ImmutableArray<byte> Drawing(string title, CutSheetPlan sheet, CutPlate plate, int index, int first)
    {
        var (width, height) = (plate.Stock.WidthMm, plate.Stock.HeightMm);
        var textMm = Math.Max(width, height) / LettersOnPlate;
        var margin = 2 * textMm;
        var drawing = CutDrawing.Of(plate, first, sheet.Rules.KerfMm, new(margin, margin), 1, textMm);
        return SvgFile.Write<SheetSpace>(
            width + (2 * margin),
            height + (2 * margin),
            $"{title}: {CutWords.Head(sheet, plate, index)}",
            [
                new("plate", "The plate", drawing.Plate, "#d9d9d9"),
                new("left-over", "What is left over", drawing.Offcuts, "#ffffff"),
                new("pieces", "The pieces", drawing.Pieces, "#f2e6b8"),
                new("cuts", "The cuts", drawing.Lines, "#202020"),
                new("discs", "Where the numbers stand", drawing.Discs, "#ffffff"),
                new("words", "Names, sizes and numbers", drawing.Words, "#202020"),
            ]);
    }

    /// <summary>A plate's page: title, drawing, steps; more pages where the steps are many.</summary>
    private static IEnumerable<PdfPage> Pages(string title, CutSheetPlan sheet, CutPlate plate, int index, int first, PaperSize paper)
    {
        var widthMm = paper.WidthMm - (2 * MarginMm);
        var top = paper.HeightMm - MarginMm;
        List<Region<SheetSpace>> black = [Line($"{title}  ·  {CutWords.Head(sheet, plate, index)}", TitleMm, widthMm, top)];
        top -= TitleMm + LineStepMm;
        foreach (var line in new[] { CutWords.Proof(sheet.Plan), CutWords.Caution(sheet.Way) }.Take(index == 0 ? 2 : 0).SelectMany(text => TrialDrawing.Wrapped(text, TextMm, widthMm)))
        {
            black.Add(Line(line, TextMm, widthMm, top));
            top -= LineStepMm;
        }

        var scale = Math.Min(LargestScale, Math.Min(widthMm / plate.Stock.WidthMm, Math.Min(paper.HeightMm * DrawingShare, top - MarginMm) / plate.Stock.HeightMm));
        top -= plate.Stock.HeightMm * scale;
        var left = (paper.WidthMm - (plate.Stock.WidthMm * scale)) / 2;
        var drawing = CutDrawing.Of(plate, first, sheet.Rules.KerfMm * scale < 0.3 ? 0 : sheet.Rules.KerfMm, new(left, top), scale, TextMm);
        top -= 2 * LineStepMm;
        foreach (var line in CutWords.Steps(sheet, plate, first).SelectMany(step => TrialDrawing.Wrapped(step, TextMm, widthMm)))
        {
            if (top < MarginMm)
            {
                yield return Page(paper, drawing, black);
                (drawing, black, top) = (null, [], paper.HeightMm - MarginMm);
            }

            black.Add(Line(line, TextMm, widthMm, top));
            top -= LineStepMm;
        }

        yield return Page(paper, drawing, black);
    }

    private static Region<SheetSpace> Line(string text, double heightMm, double widthMm, double topMm) =>
        SheetText.Starting(SheetText.Fitting(text, heightMm, widthMm), heightMm, new(MarginMm, topMm - heightMm, widthMm, heightMm), Side.Front);

    private static PdfPage Page(PaperSize paper, CutDrawing? drawing, List<Region<SheetSpace>> black)
    {
        var whole = new Box<PageSpace>(0, 0, paper.WidthMm, paper.HeightMm);
        var map = PageMapping.Front(PrinterProperties.Unmeasured);
        var areas = drawing is null ? [] : new List<(Region<SheetSpace> Region, Ink Ink)>
        {
            (drawing.Pieces, Ink.Gray(0.9)),
            (drawing.Lines, Ink.FullK),
            (drawing.Discs, Ink.Gray(1)),
            (drawing.Words, Ink.FullK),
        };
        areas.Add((Region<SheetSpace>.Union(black), Ink.FullK));
        return new(paper.WidthMm, paper.HeightMm, whole, whole, [.. areas.Select(area => new Painted<PageSpace>(area.Region.Map(map), area.Ink))]);
    }
}
