using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Parts;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Fabrication;

/// <summary>The hole chart of one panel for the bench: a small drawing with numbers, the table, the drills in their order, the steps.</summary>
public static class ChartPages
{
    private const double TextMm = 1.7;
    private const double AroundMm = 2;
    private const double SmallCornerMm = 5;

    // How much of a page's height the drawing takes.
    private const double UsualShare = 0.25;

    // A page that is filled less than that is better shared out: what one needs at the drill begins it, and the drawing grows into the room that this leaves.
    private const double NearlyEmptyShare = 0.33;
    private static readonly ImmutableArray<double> LargerShares = [0.45, 0.35, UsualShare];

    private static readonly ImmutableArray<(string Head, double Share)> Columns =
    [
        ("No", 7), ("Item", 27), ("x mm", 11), ("y mm", 11), ("Opening, mm", 25), ("Drills, one after the other", 36), ("Off mm", 11), ("Paper mm", 13), ("Then", 45),
    ];

    /// <summary>The pages as the printer gets them.</summary>
    /// <param name="chart">The panel's chart.</param>
    /// <param name="order">The desk's order of work.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="ink">The one ink.</param>
    /// <param name="printer">What is known of the printer.</param>
    public static ImmutableArray<PdfPage> Pages(HoleChart chart, WorkOrder order, PaperSize paper, Ink ink, PrinterProperties printer)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(paper);
        ArgumentNullException.ThrowIfNull(printer);
        var flow = Flow(chart, order, paper, printer, UsualShare, isShared: false);
        if (flow.PageCount > 1 && flow.LastShare < NearlyEmptyShare)
        {
            var count = flow.PageCount;
            flow = LargerShares.Select(share => Flow(chart, order, paper, printer, share, isShared: true)).FirstOrDefault(one => one.PageCount == count) ?? flow;
        }

        return flow.Pages(ink, printer);
    }

    private static PageFlow Flow(HoleChart chart, WorkOrder order, PaperSize paper, PrinterProperties printer, double drawingShare, bool isShared)
    {
        var panel = chart.Laid.Panel;
        var flow = new PageFlow(paper, $"{PrintableText.Clean(panel.Title)}  ·  hole chart", printer.MarginMm);
        flow.Paragraph(
            $"All places are mm from the black corner, the lower left one seen from the front. Drills: {DrillWords(chart.Drills)}. Off: how much larger (+) or smaller (-) the last drill is than the opening. Paper: the punch that opens it, in whole mm as they are sold, no smaller than the hole and still under the nut; a knife where none is named, to that size.");
        flow.Drawing(room => Small(chart, room).Select(shape => (shape, (Ink?)null)), Math.Min(drawingShare * paper.HeightMm, panel.HeightMm * Math.Min(1, flow.WidthMm / panel.WidthMm)));
        flow.Table(Columns, [.. chart.Holes.Select(Row)]);
        if (isShared)
        {
            flow.NextPage();
        }

        flow.Heading("Drill in hand");
        flow.Table(
            [("Drill", 24), ("About turns a minute", 26), ("Holes", 136)],
            [.. DrillingOrder.Of(chart).Select(turn => new[] { turn.Drill.Name, turn.TurnsPerMinute.ToString(CultureInfo.InvariantCulture), string.Join(", ", turn.Labels) })]);
        flow.Heading("Steps");
        foreach (var (index, step) in DrillingOrder.Steps(order, chart).Index())
        {
            flow.Paragraph(string.Create(CultureInfo.InvariantCulture, $"{index + 1}.  {step}"));
        }

        flow.Paragraph("Caution: " + DrillingOrder.Caution);
        return flow;
    }

    /// <summary>The plate with its openings and their numbers, in true size.</summary>
    /// <param name="chart">The panel's chart.</param>
    public static SvgDrawing<SheetSpace> Drawing(HoleChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var panel = chart.Laid.Panel;
        var room = new Box<SheetSpace>(AroundMm, AroundMm, panel.WidthMm, panel.HeightMm);
        return new(panel.WidthMm + (2 * AroundMm), panel.HeightMm + (2 * AroundMm), $"{panel.Title}: holes, seen from the front", [new("holes", "the plate, its openings and their numbers", Region<SheetSpace>.Union(Small(chart, room)), "#1d1b16")]);
    }

    /// <summary>Which drills a chart was matched to, in words.</summary>
    internal static string DrillWords(DrillSet drills) => drills.IsStated
        ? string.Create(CultureInfo.InvariantCulture, $"{drills.Drills.Length} that you own, {drills.Drills[0].Name} to {drills.Largest.Name}")
        : "a box of 1 to 13 mm in steps of 0.5, as the desk names none ([bench] drills)";

    private static string[] Row(ChartHole hole)
    {
        var drills = hole.Drills.Select(drill => drill.Name.Replace(" mm", string.Empty, StringComparison.Ordinal));
        return
        [
            hole.Label,
            hole.Origin.Name,
            Place(hole.Centre.XMm),
            Place(hole.Centre.YMm),
            hole.SizeText.Replace(" mm", string.Empty, StringComparison.Ordinal) + (hole.TolerancePlusMm is { } plus and > 0 ? $" +{Cutout.Text(plus)}" : string.Empty),
            string.Join(", ", drills),
            hole is { Way: HoleWay.Drill, Choice: { } choice } ? choice.ErrorMm.ToString("+0.00;-0.00;0", CultureInfo.InvariantCulture) : string.Empty,
            hole.HandPunchMm(LengthUnit.Millimetre) is { } punch ? Cutout.Text(punch) : hole.PunchMm is { } wanted ? $"knife, {Cutout.Text(wanted)}" : "knife",
            hole.IsDrilled ? "drilled already" : hole.Then,
        ];
    }

    private static string Place(double mm) => mm.ToString("0.0#", CultureInfo.InvariantCulture);

    /// <summary>The plate made small, its openings with their numbers.</summary>
    private static IEnumerable<Region<SheetSpace>> Small(HoleChart chart, Box<SheetSpace> room)
    {
        var panel = chart.Laid.Panel;
        var scale = Math.Min(room.WidthMm / panel.WidthMm, room.HeightMm / panel.HeightMm);
        var map = Affine<PanelSpace, PanelSpace>.Scale(scale, scale).Then(Affine<PanelSpace, SheetSpace>.Shift(room.Centre.XMm - (panel.WidthMm * scale / 2), room.BottomMm));
        yield return TrialDrawing.Lines(chart.Plate.ToRegion().Map(map), 0.25);
        yield return TemplateDrawing.CornerMark(chart.Plate.ToRegion(), panel.CornerMm, SmallCornerMm / scale).Map(map);
        foreach (var line in Region<SheetSpace>.OfAlike(chart.Holes.Select(hole => hole.Shape.Map(map)), shape => TrialDrawing.Lines(shape, 0.15)))
        {
            yield return line;
        }

        foreach (var label in HoleLabels.Of(chart, [TextMm / scale, TextMm * 0.8 / scale], withSizes: false))
        {
            yield return label.Map(map);
        }
    }
}
