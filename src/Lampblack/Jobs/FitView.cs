using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Fabrication;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Jobs;

/// <summary>One shape of a drawing: path data in mm from its upper left corner, and what it is.</summary>
/// <param name="What">What it is, one word: <c>plate</c>, <c>holes</c>, <c>numbers</c>, <c>bodies</c>, <c>found</c>.</param>
/// <param name="Path">SVG path data.</param>
public sealed record DrawnShape(string What, string Path);

/// <summary>A drawing in true size; both sides of a panel are drawn in the same size of window.</summary>
/// <param name="LeftMm">Left edge of the window that shows it.</param>
/// <param name="TopMm">Its upper edge, counted downwards.</param>
/// <param name="WidthMm">Its width.</param>
/// <param name="HeightMm">Its height.</param>
/// <param name="Shapes">Its shapes, the lowest first.</param>
public sealed record DrawnView(double LeftMm, double TopMm, double WidthMm, double HeightMm, ImmutableArray<DrawnShape> Shapes);

/// <summary>An opening as the bench is told of it.</summary>
/// <param name="Label">Its number.</param>
/// <param name="Item">Panel and item, as findings name it.</param>
/// <param name="Name">The item alone.</param>
/// <param name="Place">Its middle from the marked corner: "31.0, 63.0".</param>
/// <param name="Size">Its size.</param>
/// <param name="Drills">The drills, one after the other.</param>
/// <param name="Error">How much larger or smaller than the opening the last drill is, with its sign; empty where it fits or none does.</param>
/// <param name="Then">What is left to do.</param>
/// <param name="Found">How many findings there are of its item, notes left out.</param>
public sealed record FitHole(string Label, string Item, string Name, string Place, string Size, string Drills, string Error, string Then, int Found);

/// <summary>A panel as the bench sees it.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Title">Its title.</param>
/// <param name="Front">The plate with numbered openings; rings around what findings are about.</param>
/// <param name="Back">The same from behind, with the bodies of the parts.</param>
/// <param name="Holes">The openings.</param>
/// <param name="Turns">Each drill with its holes: "6.5 mm, about 1750 turns a minute: 3, 4".</param>
/// <param name="Steps">What to do, one after the other.</param>
public sealed record PanelFit(
    string Id, string Title, DrawnView Front, DrawnView Back, ImmutableArray<FitHole> Holes, ImmutableArray<string> Turns, ImmutableArray<string> Steps);

/// <summary>A desk as it is cut and drilled: what the station for it shows.</summary>
/// <param name="Panels">Its panels.</param>
/// <param name="DrillWords">Which drills the openings are matched to.</param>
/// <param name="Caution">What to mind.</param>
public sealed record FitView(ImmutableArray<PanelFit> Panels, string DrillWords, string Caution)
{
    /// <summary>The view of a desk.</summary>
    /// <param name="laid">The desk.</param>
    /// <param name="findings">All that was found.</param>
    internal static FitView Of(LaidDesk laid, IEnumerable<Finding> findings)
    {
        var found = findings.Where(finding => finding.Severity != Severity.Note && finding.Item is not null).ToLookup(finding => finding.Item!, StringComparer.Ordinal);
        var charts = BenchFiles.Charts(laid).Value;
        return new(
            [.. charts.AsParallel().AsOrdered().Select(chart => Panel(chart, laid, item => found[item].Count()))],
            ChartPages.DrillWords(laid.Desk.Bench.Drills),
            DrillingOrder.Caution);
    }

    private static PanelFit Panel(HoleChart chart, LaidDesk laid, Func<string, int> found)
    {
        var panel = chart.Laid.Panel;
        return new(
            panel.Id,
            panel.Title,
            Front(chart, found),
            Back(chart),
            [.. chart.Holes.Select(hole => Hole(hole, found(hole.Origin.Item)))],
            [.. DrillingOrder.Of(chart).Select(turn => string.Create(CultureInfo.InvariantCulture, $"{turn.Drill.Name}, about {turn.TurnsPerMinute} turns a minute: {string.Join(", ", turn.Labels)}"))],
            DrillingOrder.Steps(laid.Desk.Order, chart));
    }

    private static FitHole Hole(ChartHole hole, int found) => new(
        hole.Label,
        hole.Origin.Item,
        hole.Origin.Name,
        string.Create(CultureInfo.InvariantCulture, $"{hole.Centre.XMm:0.0#}, {hole.Centre.YMm:0.0#}"),
        hole.SizeText,
        string.Join(", ", hole.Drills.Select(drill => drill.Name)),
        hole is { Way: HoleWay.Drill, Choice: { } choice } && Math.Abs(choice.ErrorMm) >= 0.005 ? choice.ErrorMm.ToString("+0.00;-0.00", CultureInfo.InvariantCulture) : string.Empty,
        hole.IsDrilled ? "drilled already" : hole.Then,
        found);

    private static DrawnView Front(HoleChart chart, Func<string, int> found)
    {
        var panel = chart.Laid.Panel;
        var about = chart.Laid.Parts.Where(part => found(part.Origin.Item) > 0).Select(part => (part.Centre, Mm: Reach(part) + 1.5));
        var rings = Region<PanelSpace>.Union(about.Select(ring => Region<PanelSpace>.Disc(ring.Centre, ring.Mm + 0.8).Except(Region<PanelSpace>.Disc(ring.Centre, ring.Mm))));
        var (widthMm, heightMm) = BackView.Size(chart);
        var plate = chart.Plate.ToRegion();
        return new(-(widthMm - panel.WidthMm) / 2, -(heightMm - panel.HeightMm) / 2, widthMm, heightMm,
        [
            Shape("plate", plate),
            Shape("corner", TemplateDrawing.CornerMark(plate, panel.CornerMm)),
            Shape("found", rings),
            Shape("holes", Region<PanelSpace>.Union(chart.Holes.Select(hole => hole.Shape))),
            Shape("numbers", Region<PanelSpace>.Union(HoleLabels.Of(chart, [2.6, 1.8], withSizes: false))),
        ]);

        DrawnShape Shape(string what, Region<PanelSpace> region) => new(what, SvgPath.Of(region, panel.HeightMm));
    }

    private static double Reach(PlacedPart part) => part.Holes.Append(part.Covered).Where(shape => !shape.IsEmpty)
        .Max(shape => Math.Max(Math.Max(shape.Bounds.RightMm - part.Centre.XMm, part.Centre.XMm - shape.Bounds.LeftMm), Math.Max(shape.Bounds.TopMm - part.Centre.YMm, part.Centre.YMm - shape.Bounds.BottomMm)));

    private static DrawnView Back(HoleChart chart)
    {
        var (widthMm, heightMm) = BackView.Size(chart);
        return new(0, 0, widthMm, heightMm, [.. BackView.Layers(chart).Where(layer => layer.Id != "paper").Select(layer => new DrawnShape(layer.Id, SvgPath.Of(layer.Region, heightMm)))]);
    }
}
