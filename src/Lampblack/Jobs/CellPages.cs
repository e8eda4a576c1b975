using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Fabrication;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>Pages with the walls of cells in true size, to be cut out of card and folded.</summary>
internal static class CellPages
{
    private const double TextMm = 1.9;
    private const double NameMm = 2.2;
    private const double SmallMm = 1.6;
    private const double FoldMm = 2;
    private const double GapMm = 1.2;
    private const double AirMm = 5;

    /// <summary>The pages; none where no item has a light of its own.</summary>
    public static ImmutableArray<PdfPage> Of(string title, ImmutableArray<CellWalls> walls, PrintSetup setup)
    {
        if (walls.IsEmpty)
        {
            return [];
        }

        var flow = new PageFlow(setup.Paper, $"{title}  ·  walls of the cells", setup.Printer.MarginMm, TextMm);
        flow.Paragraph("Print at actual size (100 %) and measure a strip: its length stands beside it. Cut it out of card that lets no light through, black outside and white inside, half a millimetre thick. Score the dashed lines and fold them with the print outside; glue the tab behind the first side. Fold lines are inner sizes.");
        flow.Paragraph("Glue each cell on the lamp board, the box's white floor, around the places that emitters.pdf shows, and let it just touch the back of the panel: what stays open there lets its neighbours' light in. Wires leave through that board.");
        flow.Paragraph(LightFiles.Caution);
        foreach (var wall in walls)
        {
            Add(flow, wall, setup.Paper);
        }

        return flow.Pages(setup.Black.Edge, setup.Printer);
    }

    private static void Add(PageFlow flow, CellWalls wall, PaperSize paper)
    {
        var size = $"{Mm(wall.WidthMm)} x {Mm(wall.HeightMm)} x {Mm(wall.DepthMm)} mm";
        var strips = wall.DepthMm + AirMm > paper.HeightMm * 0.6 ? [] : wall.Strips(flow.WidthMm);
        var names = Shown.List(wall.Names);
        if (strips.IsEmpty)
        {
            flow.Paragraph($"{names}: {Count(wall.Names.Length)} of {size} inside. The paper has no room for its wall in true size: cut two sides of {Mm(wall.WidthMm)} mm and two of {Mm(wall.HeightMm)} mm, {Mm(wall.DepthMm)} mm high.");
            return;
        }

        foreach (var (index, sides) in strips.Index())
        {
            var part = strips.Length == 1 ? string.Empty : FormattableString.Invariant($", strip {index + 1} of {strips.Length}");
            flow.Paragraph($"{names}: {Count(wall.Names.Length)} of {size} inside{part}; {Mm(sides.Sum() + CellWalls.TabMm)} mm long with its tab.");
            flow.Drawing(room => Strip(room, sides, wall, index).Select(shape => (shape, (Ink?)null)), wall.DepthMm);
        }
    }

    private static IEnumerable<Region<SheetSpace>> Strip(Box<SheetSpace> room, ImmutableArray<double> sides, CellWalls wall, int part)
    {
        yield return TrialDrawing.Lines(Region<SheetSpace>.Rectangle(new(room.LeftMm, room.BottomMm, sides.Sum() + CellWalls.TabMm, wall.DepthMm)));
        var left = room.LeftMm;
        foreach (var (index, side) in sides.Index())
        {
            var says = index == 0 && part == 0 ? (wall.Names.Length == 1 ? wall.Names[0] : FormattableString.Invariant($"{wall.Names.Length} cells")) : string.Empty;
            if (says.Length > 0 && SheetText.Fitting(says, NameMm, side - 2) is { Length: > 0 } fitting)
            {
                yield return SheetText.Centred(fitting, NameMm, new(left + (side / 2), room.Centre.YMm + NameMm), Side.Front);
            }

            var mm = Mm(side);
            yield return SheetText.Centred(mm, SheetText.FittingMm(mm, SmallMm, side - 1), new(left + (side / 2), room.Centre.YMm - NameMm), Side.Front);
            left += side;
            yield return Fold(left, room.BottomMm, wall.DepthMm);
        }

        yield return SheetText.Centred("tab", SmallMm, new(left + (CellWalls.TabMm / 2), room.Centre.YMm), Side.Front);
    }

    /// <summary>A line in dashes from edge to edge.</summary>
    private static Region<SheetSpace> Fold(double xMm, double bottomMm, double heightMm) => Region<SheetSpace>.Union(
        Enumerable.Range(0, Math.Max(1, (int)(heightMm / (FoldMm + GapMm)))).Select(dash => Region<SheetSpace>.Rectangle(
            new(xMm - (TrialDrawing.LineMm / 2), bottomMm + (GapMm / 2) + (dash * (FoldMm + GapMm)), TrialDrawing.LineMm, FoldMm))));

    private static string Count(int count) => count == 1 ? "1 cell" : FormattableString.Invariant($"{count} cells");

    private static string Mm(double mm) => FormattableString.Invariant($"{mm:0.#}");
}
