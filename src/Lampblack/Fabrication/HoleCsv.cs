using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Parts;

namespace Lampblack.Fabrication;

/// <summary>The charts of all plates as one table for programs: commas, a point in numbers, lines ended by CR LF (RFC 4180).</summary>
public static class HoleCsv
{
    private const string Head = "panel,hole,item,part,x_mm,y_mm,size_mm,way,drill,drill_error_mm,drills_before,paper_punch_mm,then,drilled";

    /// <summary>The file, UTF-8.</summary>
    /// <param name="charts">The charts.</param>
    public static ImmutableArray<byte> Write(ImmutableArray<HoleChart> charts)
    {
        var text = new StringBuilder(Head).Append("\r\n");
        foreach (var chart in charts)
        {
            foreach (var hole in chart.Holes)
            {
                text.AppendJoin(',', Row(chart, hole).Select(Quoted)).Append("\r\n");
            }
        }

        return [.. Encoding.UTF8.GetBytes(text.ToString())];
    }

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
        yield return hole.PunchMm is { } punch ? Cutout.Text(punch) : string.Empty;
        yield return hole.Then;
        yield return hole.IsDrilled ? "yes" : "no";
    }

    /// <summary>A field, in quotes where it has to be; one that a table program would take for a formula gets a blank before it.</summary>
    private static string Quoted(string field)
    {
        var safe = field is ['=' or '+' or '@', ..] ? " " + field : field;
        return safe.AsSpan().IndexOfAny(",\"\r\n") < 0 ? safe : $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
    }
}
