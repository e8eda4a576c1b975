using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Cutting;
using Lampblack.Fabrication;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Jobs;

/// <summary>The drawings of a cut plan: each plate in true size, and pages to take to the bench.</summary>
internal static class CutFiles
{
    private const double TextMm = 2.4;

    /// <summary>What a page gives to the drawing at most.</summary>
    private const double DrawingShare = 0.5;

    private const double LargestScale = 1;

    /// <summary>Letters of the drawing in true size: the plate's longer side divided by this.</summary>
    private const double LettersOnPlate = 55;
    private const double LettersInBook = 34;

    /// <summary>The files; none where nothing is cut.</summary>
    public static IEnumerable<OutputFile> Of(string title, CutSheetPlan sheet, PaperSize paper)
    {
        ImmutableArray<(CutPlate Plate, int Index, int First)> plates = [.. CutWords.Numbered(sheet.Plan)];
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
                Drawing(title, sheet, plate.Plate, plate.Index, plate.First).File())),
        ];
    }

    /// <summary>A plate in true size, with its cuts numbered.</summary>
    public static SvgDrawing<SheetSpace> Drawing(string title, CutSheetPlan sheet, CutPlate plate, int index, int first) => Drawing(title, sheet, plate, index, first, LettersOnPlate);

    /// <summary>The same for a book, where it is shown small: letters are as much larger.</summary>
    public static SvgDrawing<SheetSpace> Shown(CutSheetPlan sheet, CutPlate plate, int index, int first) => Drawing("Plate", sheet, plate, index, first, LettersInBook);

    private static SvgDrawing<SheetSpace> Drawing(string title, CutSheetPlan sheet, CutPlate plate, int index, int first, double letters)
    {
        var (width, height) = (plate.Stock.WidthMm, plate.Stock.HeightMm);
        var textMm = Math.Max(width, height) / letters;
        var margin = 2 * textMm;
        var drawing = CutDrawing.Of(plate, first, sheet.Rules.KerfMm, new(margin, margin), 1, textMm);
        return new(
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

    /// <summary>A plate's pages: drawing and steps.</summary>
    private static ImmutableArray<PdfPage> Pages(string title, CutSheetPlan sheet, CutPlate plate, int index, int first, PaperSize paper)
    {
        var flow = new PageFlow(paper, $"{title}  ·  {CutWords.Head(sheet, plate, index)}", PrinterProperties.Unmeasured.MarginMm, TextMm);
        foreach (var line in new[] { CutWords.Proof(sheet.Plan), CutWords.Caution(sheet.Way) }.Take(index == 0 ? 2 : 0))
        {
            flow.Paragraph(line);
        }

        var scale = Math.Min(LargestScale, Math.Min(flow.WidthMm / plate.Stock.WidthMm, Math.Min(paper.HeightMm * DrawingShare, flow.RoomMm) / plate.Stock.HeightMm));
        flow.Drawing(
            room =>
            {
                var left = room.Centre.XMm - (plate.Stock.WidthMm * scale / 2);
                var drawing = CutDrawing.Of(plate, first, sheet.Rules.KerfMm * scale < 0.3 ? 0 : sheet.Rules.KerfMm, new(left, room.BottomMm), scale, TextMm);
                return [(drawing.Pieces, Ink.Gray(0.9)), (drawing.Lines, null), (drawing.Discs, Ink.Gray(1)), (drawing.Words, null)];
            },
            plate.Stock.HeightMm * scale);
        foreach (var step in CutWords.Steps(sheet, plate, first))
        {
            flow.Paragraph(step);
        }

        return flow.Pages(Ink.FullK, PrinterProperties.Unmeasured);
    }
}
