using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Separations;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>The sheets once more for plain paper, one-sided, in thin lines: to be cut out, laid under the real parts and read from the chair.</summary>
internal static class TrialSheet
{
    public const string Path = "trial.pdf";

    private const string HowTo =
        "Plain paper, one side, actual size (100 %): cut out, lay the real parts on, read it from your chair. Dashed lines lie behind the panel; numbers beside holes are their sizes in mm.";

    private const double TitleMm = 2.4;
    private const double HowToMm = 1.9;
    private const double LabelMm = 2.2;
    private const int MostTitleRunes = 80;

    /// <summary>One page for each sheet, every panel in its place; spare copies are left out.</summary>
    public static OutputFile Of(string title, WorkOrder order, ImmutableArray<PanelSeparation> panels, ImmutableArray<Sheet> sheets, PrintSetup setup)
    {
        var drawn = panels.Select(panel => (panel.Artwork.Laid.Panel.Id, Shapes: TrialPanel.Draw(panel, setup.Black.Edge)))
            .ToImmutableSortedDictionary(pair => pair.Id, pair => pair.Shapes, StringComparer.Ordinal);
        var pages = sheets.Index().AsParallel().AsOrdered().Select(numbered =>
        {
            var (index, sheet) = numbered;
            var name = string.Create(CultureInfo.InvariantCulture, $"{Short(title)}  ·  trial sheet {index + 1} of {sheets.Length}  ·  order {OrderText(order)}");
            return PackedPage.Of(Page(sheet, name, drawn, setup));
        });
        return new(Path, "panels in thin lines at true size, to lay the real parts on; plain paper, one side", PdfFile.Bind([.. pages], new($"{title} trial", PdfSides.OneSided)));
    }

    /// <summary>The order of work in a few words.</summary>
    internal static string OrderText(WorkOrder order) => order switch
    {
        WorkOrder.GlueThenDrill => "A: glue, snap, drill through",
        WorkOrder.DrillThenGlue => "B: drill, glue, open from behind",
        _ => "C: print behind the plate",
    };

    /// <summary>A line of text that is made smaller where it would not fit.</summary>
    internal static Region<SheetSpace> Fitted(string text, double heightMm, Point<SheetSpace> middle, double widthMm, int quarterTurns = 0) =>
        SheetText.Centred(text, SheetText.FittingMm(text, heightMm, widthMm), middle, Side.Front, quarterTurns);

    /// <summary>At most so many characters of a text.</summary>
    internal static string Short(string text)
    {
        var runes = text.EnumerateRunes().Take(MostTitleRunes + 1).ToList();
        return runes.Count <= MostTitleRunes ? text : string.Concat(runes.Take(MostTitleRunes)) + "…";
    }

    private static PdfPage Page(Sheet sheet, string name, ImmutableSortedDictionary<string, ImmutableArray<Painted<PanelSpace>>> drawn, PrintSetup setup)
    {
        var paper = sheet.Paper;
        var panels = sheet.Panels.Where(panel => !panel.Spare).ToList();
        var taken = panels.Select(panel => panel.Trim.Grow(1)).ToList();
        var shapes = new List<Painted<SheetSpace>>();
        foreach (var panel in panels)
        {
            shapes.AddRange(drawn[panel.Panel.Id].Select(shape => shape.Map(panel.Map)));
            Add(Fitted(
                $"{Short(panel.Panel.Title)}, this edge up",
                LabelMm,
                panel.Map.Apply(new(panel.Panel.WidthMm / 2, panel.Panel.HeightMm + LabelMm + 0.6)),
                panel.Panel.WidthMm,
                panel.QuarterTurns));
        }

        var margin = setup.Printer.MarginMm;
        Add(Fitted(name, TitleMm, new(paper.WidthMm / 2, paper.HeightMm - margin - 1.6), paper.WidthMm - (2 * margin)));
        Add(Fitted(HowTo, HowToMm, new(paper.WidthMm / 2, paper.HeightMm - margin - 5.2), paper.WidthMm - (2 * margin)));
        Add(TrialDrawing.Bar(paper.WidthMm / 2, margin + 1, Side.Front));
        var map = PageMapping.Front(setup.Printer);
        var whole = new Box<PageSpace>(0, 0, paper.WidthMm, paper.HeightMm);
        return new(paper.WidthMm, paper.HeightMm, whole, whole, [.. shapes.Select(shape => shape.Map(map))]);

        // Words never stand on a panel that reaches into the strips.
        void Add(Region<SheetSpace> words)
        {
            if (!taken.Any(box => box.Overlaps(words.Bounds)))
            {
                shapes.Add(new(words, setup.Black.Edge));
            }
        }
    }
}
