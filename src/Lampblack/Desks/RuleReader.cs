using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads rules.</summary>
internal static class RuleReader
{
    private const string Ways = "one of `line`, `arc`, `box`, `bracket`, `arrow`";

    public static Rule? Read(TableReader table, DeskReading reading, string id, MarkStyle usual, TextStyle text)
    {
        var style = StyleReader.Style(table, reading, usual);
        StyleReader.Idle(table, reading, usual, style, []);
        var copies = StyleReader.Copies(table, reading);
        var width = table.LengthMm("width", 0.05, 50) ?? 0.5;
        var titleText = StyleReader.Text(table, text);
        var title = table.Text("title") ?? string.Empty;
        var form = Form(table, reading, width);
        if (title.Length > 0 && form is not (null or FrameForm or BracketForm))
        {
            reading.Findings.Add(Finding.Warn("rule-title", "only a `box` or a `bracket` has room for a `title` in its line", "use a `[[panel.legend]]` instead", table.SpanOf("title"), id));
            title = string.Empty;
        }

        return form is null ? null : new(id, table.Span, style, copies, width, form, title, titleText);
    }

    private static RuleForm? Form(TableReader table, DeskReading reading, double widthMm)
    {
        string[] ways = ["line", "arc", "box", "bracket", "arrow"];
        var given = ways.Where(table.Has).ToList();
        if (given.Count != 1)
        {
            reading.Findings.Add(Finding.Stop(
                "rule-form",
                given.Count == 0 ? "a rule needs its course" : "a rule has one course, not several: " + string.Join(" and ", given),
                Ways + "; for example `line = [[10, 20], [60, 20]]`",
                table.Span));
            return null;
        }

        var corner = table.LengthMm("corner", 0, 500) ?? 0;
        var round = table.Flag("round") ?? false;
        var head = table.LengthMm("head", 0.2, 50) ?? (widthMm * 4);
        var both = table.Flag("both") ?? false;
        var depth = table.LengthMm("depth", -200, 200) ?? 2;
        string[] used = given[0] switch
        {
            "line" => ["corner", "round"],
            "box" => ["corner"],
            "arrow" => ["head", "both"],
            "bracket" => ["depth"],
            _ => ["from", "to"],
        };
        _ = (table.Raw("from"), table.Raw("to"));
        KeyUnused.Report(
            table, reading, new[] { "corner", "round", "head", "both", "depth", "from", "to" }.Except(used), $"a rule drawn by `{given[0]}` has no use for it");
        switch (given[0])
        {
            case "line":
                return Points(table, reading, "line") is { IsDefaultOrEmpty: false } points ? new LineForm(points, corner, round) : null;
            case "arrow":
                var course = Points(table, reading, "arrow");
                return course.IsDefaultOrEmpty ? null : new ArrowForm(course, head, both);
            case "box":
                return AreaReader.BoxOf(table, reading, "box") is { } box ? new FrameForm(box[0], box[1], box[2], box[3], corner) : null;
            case "arc":
                return Arc(table, reading);
            default:
                var ends = table.PlacesMm("bracket", 2, 2, -DeskReading.FarthestMm, DeskReading.FarthestMm);
                return ends.Length < 2 ? null : new BracketForm(ends[0].XMm, ends[0].YMm, ends[1].XMm, ends[1].YMm, depth);
        }
    }

    private static ImmutableArray<(double XMm, double YMm)> Points(TableReader table, DeskReading reading, string key)
    {
        // A place that can't be read has its finding and is left out; what is left may be too little for a line.
        var points = table.PlacesMm(key, 2, 2000, -DeskReading.FarthestMm, DeskReading.FarthestMm);
        return points is { Length: >= 2 } && SelfCrossing.Check(points, closed: false, table, key, reading) ? points : [];
    }

    private static ArcForm? Arc(TableReader table, DeskReading reading)
    {
        var arc = table.LengthsMm("arc", 3, 3, -DeskReading.FarthestMm, DeskReading.FarthestMm);
        var from = table.Number("from", -360, 720) ?? 0;
        var to = table.Number("to", -360, 720) ?? 360;
        if (arc is not { } a)
        {
            return null;
        }

        if (!(a[2] > 0))
        {
            reading.Findings.Add(Finding.Stop("value-range", "the radius of an `arc` must be greater than 0", "`arc = [x, y, radius]`", table.SpanOf("arc")));
            return null;
        }

        return new(a[0], a[1], a[2], from, to);
    }
}
