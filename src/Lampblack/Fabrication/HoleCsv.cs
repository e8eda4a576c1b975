using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Parts;
using Lampblack.Quantities;

namespace Lampblack.Fabrication;

/// <summary>The charts of all plates as one table for programs: commas, a point in numbers, lines ended by CR LF (RFC 4180).</summary>
public static class HoleCsv
{
    private const string Head = "panel,hole,item,part,x_mm,y_mm,size_mm,way,drill,drill_error_mm,drills_before,paper_punch_mm,then,drilled";

    /// <summary>The file, UTF-8.</summary>
    /// <param name="charts">The charts.</param>
    public static ImmutableArray<byte> Write(ImmutableArray<HoleChart> charts) =>
        CsvFile.Write(Head.Split(','), charts.SelectMany(chart => chart.Holes.Select(hole => Row(chart, hole))));

    private static IEnumerable<string> Row(HoleChart chart, ChartHole hole)
    {
        yield return chart.Laid.Panel.Id;
        yield return hole.Label;
        yield return hole.Origin.Item;
        yield return hole.Purpose;
        yield return Cutout.Text(hole.Centre.XMm);
        yield return Cutout.Text(hole.Centre.YMm);
        yield return hole.SizeText.Replace(" mm", string.Empty, StringComparison.Ordinal);
        yield return hole.Way switch { HoleWay.Drill => "drill", HoleWay.Saw => "saw", _ => "file" };
        yield return hole.Choice?.Drill.Name ?? string.Empty;
        yield return hole.Choice is { } choice ? choice.ErrorMm.ToString("0.###", CultureInfo.InvariantCulture) : string.Empty;
        yield return string.Join(" then ", hole.Before.Select(drill => drill.Name));
        yield return hole.HandPunchMm(LengthUnit.Millimetre) is { } punch ? Cutout.Text(punch) : string.Empty;
        yield return hole.Then;
        yield return hole.IsDrilled ? "yes" : "no";
    }
}
