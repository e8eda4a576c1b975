using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Fabrication;

/// <summary>What stands above a drawing in true size.</summary>
/// <param name="Head">What it is; which page of how many is told behind it.</param>
/// <param name="OnOne">What to do with it where it has room on one page: two lines, or three.</param>
/// <param name="OnSeveral">The same where it is spread over several.</param>
internal sealed record TemplateWords(string Head, ImmutableArray<string> OnOne, ImmutableArray<string> OnSeveral);

/// <summary>A drawing of a panel as pages in true size: spread over several where one has no room, with marks to lay one over the other, words above and a bar below.</summary>
internal static class TemplatePages
{
    private const double TitleMm = 2.4;
    private const double WordsMm = 1.9;
    private const double SeamMm = 4;

    /// <summary>The pages as the printer gets them.</summary>
    /// <param name="widthMm">The panel's width.</param>
    /// <param name="heightMm">The panel's height.</param>
    /// <param name="shapes">What is drawn of it.</param>
    /// <param name="words">What is said above.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="ink">The one ink.</param>
    /// <param name="printer">What is known of the printer; what it does to side 1 is undone, as on a front.</param>
    public static ImmutableArray<PdfPage> Of(double widthMm, double heightMm, IEnumerable<Region<PanelSpace>> shapes, TemplateWords words, PaperSize paper, Ink ink, PrinterProperties printer)
    {
        var tiles = TemplateTiles.Of(widthMm, heightMm, paper, printer);
        ImmutableArray<Region<PanelSpace>> drawn = [.. shapes, .. Seams(tiles)];
        var whole = new Box<PageSpace>(0, 0, paper.WidthMm, paper.HeightMm);
        var map = PageMapping.Front(printer);
        return
        [
            .. tiles.Tiles.Select(tile =>
            {
                var window = Region<SheetSpace>.Rectangle(tile.Window);
                var inWindow = drawn.Select(shape => shape.Map(tile.Map)).Where(shape => shape.Bounds.Overlaps(tile.Window))
                    .Select(shape => tile.Window.Contains(shape.Bounds) ? shape : shape.Intersect(window)).Where(shape => !shape.IsEmpty);
                return new PdfPage(paper.WidthMm, paper.HeightMm, whole, whole, [.. inWindow.Concat(Words(words, tiles, tile, paper)).Select(shape => new Painted<PageSpace>(shape.Map(map), ink))]);
            }),
        ];
    }

    /// <summary>A cross in a ring on every overlap, with a letter, for laying one page over the other.</summary>
    private static IEnumerable<Region<PanelSpace>> Seams(TemplateTiles tiles) => tiles.Crosses.Select((place, index) =>
        TrialDrawing.Cross(place, SeamMm)
            .Union(Region<PanelSpace>.Disc(place, SeamMm * 0.6).Except(Region<PanelSpace>.Disc(place, (SeamMm * 0.6) - TrialDrawing.LineMm)))
            .Union(TemplateDrawing.Text(((char)('A' + (index % 26))).ToString(), WordsMm, new(place.XMm + SeamMm - 0.6, place.YMm + SeamMm - 0.6))));

    private static IEnumerable<Region<SheetSpace>> Words(TemplateWords words, TemplateTiles tiles, TemplateTile tile, PaperSize paper)
    {
        var (window, isAside) = (tile.Window, tiles.HasWordsAside);
        var widthMm = isAside ? window.HeightMm : window.WidthMm;
        var outMm = TemplateTiles.HeadMm - TitleMm;
        var page = tiles.Tiles.Length == 1 ? string.Empty : string.Create(
            CultureInfo.InvariantCulture, $"  ·  page {tiles.Tiles.IndexOf(tile) + 1} of {tiles.Tiles.Length}: column {tile.Column} of {tiles.Columns} from the left, row {tile.Row} of {tiles.Rows} from below");
        string[] lines = [SheetText.Fitting($"{words.Head}{page}", TitleMm, widthMm), .. tiles.Tiles.Length == 1 ? words.OnOne : words.OnSeveral];
        foreach (var (index, line) in lines.Index())
        {
            var heightMm = SheetText.FittingMm(line, index == 0 ? TitleMm : WordsMm, widthMm);
            yield return isAside
                ? SheetText.Centred(line, heightMm, new(window.LeftMm - outMm, window.Centre.YMm), Side.Front, quarterTurns: 1)
                : SheetText.Centred(line, heightMm, new(window.Centre.XMm, window.TopMm + outMm), Side.Front);
            outMm -= 4;
        }

        yield return TrialDrawing.Bar(paper.WidthMm / 2, tile.Window.BottomMm - TemplateTiles.FootMm + 1.5, Side.Front);
    }
}
