using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Parts;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Fabrication;

/// <summary>The drill template of a plate at true size: its edge and score lines, every opening with its cross and number. It is stuck on the acrylic's film.</summary>
public static class DrillTemplate
{
    private const double TitleMm = 2.4;
    private const double WordsMm = 1.9;
    private const double SeamMm = 4;

    /// <summary>The pages as the printer gets them.</summary>
    /// <param name="chart">The panel's chart.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="ink">The one ink.</param>
    /// <param name="printer">What is known of the printer; what it does to side 1 is undone, as on a front.</param>
    public static ImmutableArray<PdfPage> Pages(HoleChart chart, PaperSize paper, Ink ink, PrinterProperties printer)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(paper);
        ArgumentNullException.ThrowIfNull(printer);
        var panel = chart.Laid.Panel;
        var tiles = TemplateTiles.Of(panel.WidthMm, panel.HeightMm, paper, printer);
        ImmutableArray<Region<PanelSpace>> drawn = [.. TemplateDrawing.Shapes(chart), .. Seams(tiles)];
        var whole = new Box<PageSpace>(0, 0, paper.WidthMm, paper.HeightMm);
        var map = PageMapping.Front(printer);
        return
        [
            .. tiles.Tiles.Select(tile =>
            {
                var window = Region<SheetSpace>.Rectangle(tile.Window);
                var shapes = drawn.Select(shape => shape.Map(tile.Map)).Where(shape => shape.Bounds.Overlaps(tile.Window))
                    .Select(shape => tile.Window.Contains(shape.Bounds) ? shape : shape.Intersect(window)).Where(shape => !shape.IsEmpty);
                return new PdfPage(paper.WidthMm, paper.HeightMm, whole, whole, [.. shapes.Concat(Words(chart, tiles, tile, paper)).Select(shape => new Painted<PageSpace>(shape.Map(map), ink))]);
            }),
        ];
    }

    /// <summary>A cross in a ring on every overlap, with a letter, for laying one page over the other.</summary>
    private static IEnumerable<Region<PanelSpace>> Seams(TemplateTiles tiles) => tiles.Crosses.Select((place, index) =>
        TrialDrawing.Cross(place, SeamMm)
            .Union(Region<PanelSpace>.Disc(place, SeamMm * 0.6).Except(Region<PanelSpace>.Disc(place, (SeamMm * 0.6) - TrialDrawing.LineMm)))
            .Union(TemplateDrawing.Text(((char)('A' + (index % 26))).ToString(), WordsMm, new(place.XMm + SeamMm - 0.6, place.YMm + SeamMm - 0.6))));

    private static IEnumerable<Region<SheetSpace>> Words(HoleChart chart, TemplateTiles tiles, TemplateTile tile, PaperSize paper)
    {
        var panel = chart.Laid.Panel;
        var widthMm = tile.Window.WidthMm;
        var top = tile.Window.TopMm + TemplateTiles.HeadMm - TitleMm;
        var page = tiles.Tiles.Length == 1 ? string.Empty : string.Create(
            CultureInfo.InvariantCulture, $"  ·  page {tiles.Tiles.IndexOf(tile) + 1} of {tiles.Tiles.Length}: column {tile.Column} of {tiles.Columns} from the left, row {tile.Row} of {tiles.Rows} from below");
        string[] lines =
        [
            SheetText.Fitting($"{PrintableText.Clean(panel.Title)}  ·  drill template {Cutout.Text(panel.WidthMm)} x {Cutout.Text(panel.HeightMm)} mm, seen from the front{page}", TitleMm, widthMm),
            "Plain paper, actual size (100 %), one side: measure the bar below. Stick it on the plate's film, the black corner on the lower left corner.",
            tiles.Tiles.Length == 1
                ? "Beside each hole: its number in the hole chart, and its size in mm. Long lines are score lines, edge to edge; the corners are filed."
                : "Cut along one page's edge and lay cross on cross, letter on letter; tape. Numbers are those of the hole chart, with sizes in mm.",
        ];
        foreach (var (index, line) in lines.Index())
        {
            var heightMm = SheetText.FittingMm(line, index == 0 ? TitleMm : WordsMm, widthMm);
            yield return SheetText.Centred(line, heightMm, new(tile.Window.Centre.XMm, top), Side.Front);
            top -= 4;
        }

        yield return TrialDrawing.Bar(paper.WidthMm / 2, tile.Window.BottomMm - TemplateTiles.FootMm + 1.5, Side.Front);
    }
}
