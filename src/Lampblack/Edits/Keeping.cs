using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.Edits;

/// <summary>Writes where a panel's emitters stand, in place of those that are written; or takes all of them out.</summary>
internal static class Keeping
{
    private const string Key = "emitter";

    public static bool Make(EditWork work, KeepEmitters edit)
    {
        if (work.Desk.Panels.FirstOrDefault(panel => panel.Id == edit.Panel) is not { } panel)
        {
            return work.Refuse($"there is no panel {Shown.Code(edit.Panel)}", "name one of the desk's panels", item: edit.Panel);
        }

        if (panel.Table.FindEntry(Key) is { } entry)
        {
            if (new KeyWriter(work.Desk).Remove(panel.Table, entry) is not { } splices)
            {
                return work.RefuseForm(Shown.Code(Key), entry.Value.Span, edit.Panel);
            }

            work.Add(splices);
            work.Step();
        }

        var places = new List<string>();
        foreach (var place in edit.Places)
        {
            if (Adding.Lines([("at", new KeyList([new KeyNumber(place.XMm), new KeyNumber(place.YMm)]))]) is not [var line])
            {
                return work.Refuse("a place holds a number that can't be written", "a number is at most 1,000,000,000", item: edit.Panel);
            }

            places.Add(line);
        }

        if (places.Count > 0)
        {
            work.Add(Placed(work.Desk, work.Desk.Panels[panel.Number], places));
        }

        work.TouchedPanel = panel.Number;
        var count = System.FormattableString.Invariant($"{places.Count} {(places.Count == 1 ? "emitter" : "emitters")}");
        work.Words = places.Count > 0 ? $"{count} of {panel.Id} kept where they were planned" : $"emitters of {panel.Id} taken out";
        return true;
    }

    private static SourceText.Splice Placed(DeskText desk, PanelEntry panel, List<string> places)
    {
        if (panel.Table.Inline)
        {
            return new KeyWriter(desk).Insert(panel.Table, Key, $"[{string.Join(", ", places.Select(place => $"{{ {place} }}"))}]");
        }

        // Indented as the panel's other tables are.
        var layout = desk.Layout;
        var last = layout.HeadersIn(panel.Table)[^1];
        var indent = ReferenceEquals(last, panel.Table) ? layout.Indent(panel.Table.Span.Offset) + "  " : layout.Indent(last.Span.Offset);
        return Adding.Below(desk, layout.BlockEnd(last), false, places.SelectMany(place => new[] { $"{indent}[[panel.{Key}]]", indent + place }));
    }
}
