using System;
using System.Linq;
using Lampblack.Fabrication;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Sheets;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>The back of a panel with its looms and nothing that is too small to be read in a book: the parts carry the numbers of their holes alone.</summary>
internal static class LoomOverview
{
    // Height of figures as they are printed: 7 points, whose figures are 1.8 mm high.
    private const double PrintedMm = 1.8;
    private const double SideMm = 4;
    private const string Ink = "#1d1b16";

    /// <summary>The drawing.</summary>
    /// <param name="chart">The panel's holes.</param>
    /// <param name="loom">Its wires.</param>
    /// <param name="shownMm">How wide it is printed.</param>
    public static SvgDrawing<BackSpace> Of(HoleChart chart, LoomDrawing loom, double shownMm)
    {
        var (widthMm, heightMm) = BackView.Size(chart);
        var map = new Affine<PanelSpace, BackSpace>(-1, 0, chart.Laid.Panel.WidthMm + SideMm, 0, 1, SideMm);
        var figureMm = Math.Max(1.2, PrintedMm * widthMm / shownMm);
        var numbers = chart.Holes.Where(hole => char.IsAsciiDigit(hole.Label[^1])).GroupBy(hole => hole.Origin.Item).Select(hole => hole.First()).ToList();
        var words = numbers.Select(hole => Centred(hole.Label, figureMm, map.Apply(hole.Centre))).ToList();
        var shift = Affine<BackSpace, BackSpace>.Shift(SideMm, SideMm);
        return new(widthMm, heightMm, $"{chart.Laid.Panel.Title}: looms, seen from behind",
        [
            .. BackView.Layers(chart).Where(layer => layer.Id is not ("names" or "holes")),
            .. loom.Layers.Where(layer => layer.Id is "looms" or "plug").Select(layer => layer with { Region = layer.Region.Map(shift) }),
            new("clear", "paper round the numbers", Region<BackSpace>.Union(words.Select(word => Region<BackSpace>.Rectangle(word.Bounds.Grow(figureMm * 0.25)))), "#ffffff"),
            new("numbers", "numbers of the holes", Region<BackSpace>.Union(words), Ink),
        ]);
    }

    private static Region<BackSpace> Centred(string words, double heightMm, Point<BackSpace> middle) =>
        SheetText.Centred(words, heightMm, new(0, 0), Side.Front).Map(Affine<SheetSpace, BackSpace>.Shift(middle.XMm, middle.YMm));
}
