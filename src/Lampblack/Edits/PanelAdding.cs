using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Adds panels.</summary>
internal static class PanelAdding
{
    public static bool Make(EditWork work, AddPanel edit)
    {
        var keys = new (string Key, KeyValue Value)?[]
        {
            ("id", KeyValue.Of(edit.Id)),
            edit.Title.Length > 0 ? ("title", KeyValue.Of(edit.Title)) : null,
            ("size", new KeyList([new KeyNumber(edit.WidthMm), new KeyNumber(edit.HeightMm)])),
        };
        if (Adding.Lines(keys.OfType<(string Key, KeyValue Value)>()) is not { } lines)
        {
            return work.Refuse("a panel needs a size in mm", "such as 180 by 110", item: edit.Id);
        }

        var desk = work.Desk;
        if (desk.Panels.Any(panel => panel.Id == edit.Id))
        {
            return work.Refuse($"there is a panel {Shown.Code(edit.Id)} already", "choose another id", item: edit.Id);
        }

        work.Add(Placed(desk, lines));
        work.TouchedPanel = desk.Panels.Length;
        work.Words = $"panel {Shown.Short(edit.Id)} added";
        return true;
    }

    private static Splice Placed(DeskText desk, System.Collections.Generic.IReadOnlyList<string> lines)
    {
        if (desk.Root.Find("panel") is ListNode list && !desk.Layout.IsHeaded(list))
        {
            return InlineLists.Append(desk, list, $"{{ {string.Join(", ", lines)} }}");
        }

        if (desk.Panels.LastOrDefault() is { } last)
        {
            var indent = desk.Layout.Indent(last.Table.Span.Offset);
            return Adding.Below(desk, desk.Layout.BlockEnd(desk.Layout.HeadersIn(last.Table)[^1]), false, [$"{indent}[[panel]]", .. lines.Select(line => indent + line)]);
        }

        return Adding.Below(desk, desk.Text.TrimEnd().Length is var end && desk.Places.LineEnd(end) is var lineEnd ? lineEnd : end, false, ["[[panel]]", .. lines]);
    }
}
