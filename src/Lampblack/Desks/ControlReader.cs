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
        var (side, gap) = (table.Choice("side", Sides), table.LengthMm("gap", -50, 100));
        var (stateHeight, stateGap, leaders) = (table.LengthMm("state-height", 0.5, 50), table.LengthMm("state-gap", 0, 100), table.LengthMm("leaders", 0, 20));
        var stateText = legendText with { HeightMm = stateHeight ?? legendText.HeightMm * 0.75 };
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
            side ?? LegendSide.Above,
            gap ?? 2.2,
            states,
            legendText,
            stateText,
            leaders ?? 0,
            stateGap ?? 1.2,
            table.Table("dial") is { } dial ? DialReader.Read(dial, reading, style, legendText with { SpacingMm = text.SpacingMm }, part, legendText.HeightMm) : null,
            drilled)
        {
            Wiring = ControllerReader.Control(table, reading, part),
        };
        if (control is { Dial: not null } || !table.Has("dial"))
        {
            // What a dial that could not be read would have made of the keys is not known.
            StyleReader.Idle(table, reading, usual, style, control?.Dial?.Ranges.Select(range => range.Style) ?? []);
        }

        foreach (var key in new[] { "turn", "dial", "wired", "poles", "edges", "steady", "meter-current" })
        {
            // Keys of an item that could not be made are still known keys.
            _ = table.Raw(key);
        }

        // A value that can't be read is told already.
        var (noLegend, noStates) = (!table.Has("legend") && !table.Has("legends"), !table.Has("states"));
        KeyUnused.Report(table, reading, noLegend && side is not null ? ["side"] : [], "there is no `legend`");
        KeyUnused.Report(table, reading, noLegend && gap is not null ? ["gap"] : [], "there is no `legend`");
        KeyUnused.Report(table, reading, noStates && stateHeight is not null ? ["state-height"] : [], "there are no `states`");
        KeyUnused.Report(table, reading, noStates && stateGap is not null ? ["state-gap"] : [], "there are no `states`");
        KeyUnused.Report(table, reading, noStates && leaders is not null ? ["leaders"] : [], "there are no `states`");

        if (part is not null && states.Length > 0 && states.Length != part.PositionDegrees.Length)
        {
            reading.Findings.Add(Finding.Warn(
                "states-count",
                string.Create(CultureInfo.InvariantCulture, $"`states` has {Shown.Count(states.Length, "word")}, and `{part.Id}` has {Shown.Count(part.PositionDegrees.Length, "position")}"),
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
