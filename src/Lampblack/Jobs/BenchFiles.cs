using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Desks;
using Lampblack.Fabrication;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Layout;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Jobs;

/// <summary>What is needed at the bench: hole charts, drill templates, drawings for a cutter, the backs of the panels.</summary>
public static class BenchFiles
{
    /// <summary>Charts and files of a desk that is laid out, as a build makes them.</summary>
    /// <param name="laid">The desk.</param>
    /// <param name="paper">The paper of charts and templates.</param>
    /// <param name="ink">Their one ink.</param>
    /// <param name="printer">What is known of the printer.</param>
    /// <param name="cancellation">Stops the work between two pages.</param>
    public static Checked<ImmutableArray<OutputFile>> Of(LaidDesk laid, PaperSize paper, Ink ink, PrinterProperties printer, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(laid);
        var charts = Charts(laid);
        return new([.. Of(laid.Desk, charts.Value, paper, ink, printer, cancellation)], charts.Findings);
    }

    /// <summary>The charts of all panels.</summary>
    /// <param name="laid">The desk.</param>
    internal static Checked<ImmutableArray<HoleChart>> Charts(LaidDesk laid)
    {
        var charts = laid.Panels.AsParallel().AsOrdered().Select(panel => HoleChart.Of(panel, laid.Desk.Bench)).ToImmutableArray();
        return new([.. charts.Select(chart => chart.Value)], [.. HoleChart.PointFindings(laid.Desk.Bench), .. charts.SelectMany(chart => chart.Findings)]);
    }

    /// <summary>The files.</summary>
    /// <param name="desk">The desk.</param>
    /// <param name="charts">Its charts.</param>
    /// <param name="paper">The paper of charts and templates.</param>
    /// <param name="ink">Their one ink.</param>
    /// <param name="printer">What is known of the printer.</param>
    /// <param name="cancellation">Stops the work between two pages.</param>
    internal static IEnumerable<OutputFile> Of(Desk desk, ImmutableArray<HoleChart> charts, PaperSize paper, Ink ink, PrinterProperties printer, CancellationToken cancellation)
    {
        // One panel alone has much to draw: its drawings are made beside each other, and then all pages are packed beside each other.
        var drawn = charts.SelectMany(chart => new Func<Drawn>[]
        {
            () => new("chart", chart.Holes.IsEmpty ? [] : ChartPages.Pages(chart, desk.Order, paper, ink, printer), []),
            () => new("templates", DrillTemplate.Pages(chart, paper, ink, printer), []),
            () => new("back", [], BackView.Svg(chart)),
        }).AsParallel().AsOrdered().WithCancellation(cancellation).Select(draw => draw()).ToImmutableArray();
        var pages = drawn.SelectMany(one => one.Pages.Select(page => new DrawnPage(one.What, page))).ToImmutableArray()
            .AsParallel().AsOrdered().WithCancellation(cancellation).Select(one => new MadePage(one.What, PackedPage.WithStamps(one.Page))).ToLookup(one => one.What, one => one.Page);
        yield return Pdf("templates.pdf", "drill templates at true size, to stick on the plates; plain paper, one side", "templates", pages["templates"]);
        if (charts.Any(chart => !chart.Holes.IsEmpty))
        {
            yield return Pdf("hole-chart.pdf", "numbered holes with places, drills and steps; plain paper", "hole chart", pages["chart"]);
            yield return new("hole-chart.csv", "the same as a table for other programs", HoleCsv.Write(charts));
        }

        foreach (var (chart, back) in charts.Zip(drawn.Where(one => one.What == "back").Select(one => one.Svg)))
        {
            var id = chart.Laid.Panel.Id;
            yield return new($"back/{id}.svg", "the panel seen from behind, with the bodies of its parts", back);
            yield return new($"cutter/{id}.dxf", "plate, openings and paper openings for a cutter (DXF, mm)", CutterFiles.Dxf(chart));
            yield return new($"cutter/{id}.svg", "the same as SVG", CutterFiles.Svg(chart));
            if (chart.Holes.Any(hole => hole.Way != HoleWay.File))
            {
                yield return new($"cutter/{id}.drl", "round openings for a drilling machine (Excellon, mm)", CutterFiles.Drill(chart));
            }
        }

        OutputFile Pdf(string path, string what, string name, IEnumerable<PackedPage> all) =>
            new(path, what, PdfFile.Bind([.. all], new($"{desk.Title} {name}", PdfSides.OneSided)));
    }

    // Classes, not tuples: what runs beside each other is compiled anew for every kind of tuple when it is first met.
    private sealed record DrawnPage(string What, PdfPage Page);

    private sealed record MadePage(string What, PackedPage Page);

    private sealed record Drawn(string What, ImmutableArray<PdfPage> Pages, ImmutableArray<byte> Svg);
}
