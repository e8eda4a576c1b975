using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;

namespace Lampblack.Fabrication;

/// <summary>Drawings of one plate for those who have a cutter: lines with true arcs, layers by purpose, seen from the front, origin at the lower left corner.</summary>
public static class CutterFiles
{
    /// <summary>The layers: the plate's edge, its openings, and the openings of the paper, which are a little larger.</summary>
    /// <param name="chart">The panel's chart.</param>
    public static ImmutableArray<CutLayer<PanelSpace>> Layers(HoleChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        return
        [
            new("PLATE-OUTLINE", 7, [chart.Plate]),
            new("PLATE-HOLES", 1, [.. chart.Holes.Select(hole => hole.Line)]),
            new("PAPER-HOLES", 5, [.. chart.Holes.Select(hole => hole.PaperLine)]),
        ];
    }

    /// <summary>The drawing as DXF.</summary>
    /// <param name="chart">The panel's chart.</param>
    public static ImmutableArray<byte> Dxf(HoleChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var panel = chart.Laid.Panel;
        return DxfFile.Write(Title(chart), panel.WidthMm, panel.HeightMm, Layers(chart));
    }

    /// <summary>The drawing as SVG.</summary>
    /// <param name="chart">The panel's chart.</param>
    public static ImmutableArray<byte> Svg(HoleChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var panel = chart.Laid.Panel;
        return LineSvg.Write(Title(chart), panel.WidthMm, panel.HeightMm, Layers(chart));
    }

    /// <summary>The round openings as a drill file, by their own sizes and not by the drills a maker owns; openings of other forms are left to the drawing.</summary>
    /// <param name="chart">The panel's chart.</param>
    public static ImmutableArray<byte> Drill(HoleChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        return DrillFile.Write(Title(chart), [.. Round(chart)]);
    }

    private static IEnumerable<(Point<PanelSpace> Centre, double DiameterMm)> Round(HoleChart chart) =>
        chart.Holes.Where(hole => hole.Way != HoleWay.File && hole.DiameterMm is not null).Select(hole => (hole.Centre, hole.DiameterMm!.Value));

    private static string Title(HoleChart chart) => $"{chart.Laid.Panel.Title}, seen from the front";
}
