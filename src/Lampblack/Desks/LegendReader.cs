using System.Collections.Immutable;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads free lettering.</summary>
internal static class LegendReader
{
    private static readonly ImmutableArray<(string Word, HorizontalAlign Value)> Aligns =
        [("left", HorizontalAlign.Left), ("centre", HorizontalAlign.Centre), ("right", HorizontalAlign.Right)];

    private static readonly ImmutableArray<(string Word, VerticalAnchor Value)> Anchors =
    [
        ("middle", VerticalAnchor.Middle), ("top", VerticalAnchor.Top), ("baseline", VerticalAnchor.Baseline), ("bottom", VerticalAnchor.Bottom),
    ];

    public static Legend? Read(TableReader table, DeskReading reading, string id, MarkStyle usual, TextStyle text)
    {
        var style = StyleReader.Style(table, reading, usual);
        StyleReader.Idle(table, reading, usual, style, []);
        var copies = StyleReader.Copies(table, reading);
        var place = table.PlaceMm("at", -DeskReading.FarthestMm, DeskReading.FarthestMm);
        ControlReader.RequireAt(table, reading);
        var words = StyleReader.Words(table, reading, "text", "texts", copies.Count);
        if (words.IsEmpty && !table.Has("text"))
        {
            reading.Findings.Add(Finding.Stop("key-missing", "a legend needs its words", "such as `text = \"FOCUS\"`, or a list of lines", table.Span, id));
        }

        var align = table.Choice("align", Aligns) ?? HorizontalAlign.Centre;
        var anchor = table.Choice("anchor", Anchors) ?? VerticalAnchor.Middle;
        var turn = table.Number("turn", -360, 360) ?? 0;
        var lettering = StyleReader.Text(table, text);
        return place is { } at && !words.IsEmpty
            ? new(id, table.Span, style, copies, at.XMm, at.YMm, turn, words, align, anchor, lettering)
            : null;
    }
}
