using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads filled areas.</summary>
internal static class AreaReader
{
    public static FilledArea? Read(TableReader table, DeskReading reading, string id, MarkStyle usual)
    {
        var style = StyleReader.Style(table, reading, usual);
        StyleReader.Idle(table, reading, usual, style, []);
        var copies = StyleReader.Copies(table, reading);
        var form = Form(table, reading);
        return form is null ? null : new(id, table.Span, style, copies, form);
    }

    private static AreaForm? Form(TableReader table, DeskReading reading)
    {
        string[] ways = ["box", "disc", "corners"];
        var given = ways.Where(table.Has).ToList();
        if (given.Count != 1)
        {
            reading.Findings.Add(Finding.Stop(
                "area-form",
                given.Count == 0 ? "an area needs an outline" : "an area has one outline, not several: " + string.Join(" and ", given),
                "one of `box = [left, bottom, width, height]`, `disc = [x, y, radius]`, `corners = [[x, y], ...]`",
                table.Span));
            return null;
        }

        var corner = table.LengthMm("corner", 0, 500) ?? 0;
        KeyUnused.Report(table, reading, given[0] == "box" ? [] : ["corner"], "only a `box` has rounded corners");
        switch (given[0])
        {
            case "box":
                return BoxOf(table, reading, "box") is { } box ? new BoxForm(box[0], box[1], box[2], box[3], corner) : null;
            case "disc":
                var disc = table.LengthsMm("disc", 3, 3, -DeskReading.FarthestMm, DeskReading.FarthestMm);
                return disc is { } d && Positive(reading, table, "disc", d[2]) ? new DiscForm(d[0], d[1], d[2]) : null;
            default:
                var corners = table.PlacesMm("corners", 3, 2000, -DeskReading.FarthestMm, DeskReading.FarthestMm);
                return corners.IsDefaultOrEmpty || !SelfCrossing.Check(corners, closed: true, table, "corners", reading) ? null : new PolygonForm(corners);
        }
    }

    /// <summary>Reads [left, bottom, width, height] with a real size.</summary>
    public static ImmutableArray<double>? BoxOf(TableReader table, DeskReading reading, string key)
    {
        var box = table.LengthsMm(key, 4, 4, -DeskReading.FarthestMm, DeskReading.FarthestMm);
        return box is { } b && Positive(reading, table, key, b[2]) && Positive(reading, table, key, b[3]) ? b : null;
    }

    private static bool Positive(DeskReading reading, TableReader table, string key, double mm)
    {
        if (mm > 0)
        {
            return true;
        }

        reading.Findings.Add(Finding.Stop("value-range", $"sizes in `{key}` must be greater than 0", "give its size in mm", table.SpanOf(key)));
        return false;
    }
}
