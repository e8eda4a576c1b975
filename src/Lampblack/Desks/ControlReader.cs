using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads controls.</summary>
internal static class ControlReader
{
    private static readonly ImmutableArray<(string Word, LegendSide Value)> Sides =
        [("above", LegendSide.Above), ("below", LegendSide.Below), ("left", LegendSide.Left), ("right", LegendSide.Right)];

    public static Control? Read(TableReader table, DeskReading reading, string id, MarkStyle usual, TextStyle text)
    {
        var style = StyleReader.Style(table, reading, usual);
        var copies = StyleReader.Copies(table, reading);
        var word = table.RequiredText("part");
        var part = word is null ? null : PartReader.Find(word, table, "part", reading);
        var place = table.PlaceMm("at", -DeskReading.FarthestMm, DeskReading.FarthestMm);
        RequireAt(table, reading);
        var drilled = DrilledReader.Read(table, reading, id, copies);
        var legends = StyleReader.Words(table, reading, "legend", "legends", copies.Count);
        var legendText = StyleReader.Text(table, text);
        var stateText = legendText with { HeightMm = table.LengthMm("state-height", 0.5, 50) ?? legendText.HeightMm * 0.75 };
        var states = table.Texts("states", allowEmpty: true).Select(state => state.Value).ToImmutableArray();
        var control = part is null || place is not { } at ? null : new Control(
            id,
            table.Span,
            style,
            copies,
            part,
            at.XMm,
            at.YMm,
            table.Number("turn", -360, 360) ?? 0,
            legends,
            table.Choice("side", Sides) ?? LegendSide.Above,
            table.LengthMm("gap", -50, 100) ?? 2.2,
            states,
            legendText,
            stateText,
            table.LengthMm("leaders", 0, 20) ?? 0,
            table.Table("dial") is { } dial ? DialReader.Read(dial, reading, style, legendText with { SpacingMm = text.SpacingMm }, part, legendText.HeightMm) : null,
            drilled);
        foreach (var key in new[] { "turn", "side", "gap", "leaders", "dial" })
        {
            // Keys of an item that could not be made are still known keys.
            _ = table.Raw(key);
        }

        if (part is not null && states.Length > 0 && states.Length != part.PositionDegrees.Length)
        {
            reading.Findings.Add(Finding.Warn(
                "states-count",
                string.Create(CultureInfo.InvariantCulture, $"`states` has {states.Length} words, and `{part.Id}` has {part.PositionDegrees.Length} positions"),
                "give one word for each position, from the first to the last; \"\" leaves one blank",
                table.SpanOf("states"),
                id));
        }

        return control;
    }

    public static void RequireAt(TableReader table, DeskReading reading)
    {
        if (!table.Has("at"))
        {
            reading.Findings.Add(Finding.Stop("key-missing", $"{table.What} has no `at`", "such as `at = [30, 40]`: mm from the panel's lower-left corner", table.Span));
        }
    }
}
