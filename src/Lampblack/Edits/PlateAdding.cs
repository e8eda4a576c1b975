using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Adds plates that panels are cut from.</summary>
internal static class PlateAdding
{
    public static bool Make(EditWork work, AddPlate edit)
    {
        var desk = work.Desk;
        var taken = desk.Plates.Select(plates => plates.Id).ToHashSet();
        var usual = Name(taken.Count + 1);
        var keys = new List<(string Key, KeyValue Value)> { ("size", new KeyList([new KeyNumber(edit.WidthMm), new KeyNumber(edit.HeightMm)])) };
        if (taken.Contains(usual))
        {
            // Somebody gave that name to others: without one of its own it would be called so, too.
            keys.Insert(0, ("id", KeyValue.Of(Enumerable.Range(1, taken.Count + 1).Select(Name).First(name => !taken.Contains(name)))));
        }

        if (Adding.Lines(keys) is not { } lines)
        {
            return work.Refuse("plates need a size in mm", "such as 300 by 400");
        }

        work.Add(Placed(desk, lines));
        work.Words = $"plates {string.Create(CultureInfo.InvariantCulture, $"{edit.WidthMm:0.##} x {edit.HeightMm:0.##}")} mm added";
        return true;
    }

    private static string Name(int number) => string.Create(CultureInfo.InvariantCulture, $"plate-{number}");

    private static Splice Placed(DeskText desk, IReadOnlyList<string> lines)
    {
        if (desk.Root.Find("stock") is ListNode list)
        {
            if (!desk.Layout.IsHeaded(list))
            {
                return InlineLists.Append(desk, list, $"{{ {string.Join(", ", lines)} }}");
            }

            var last = (TableNode)list.Items[^1];
            var indent = desk.Layout.Indent(last.Span.Offset);
            var isDense = desk.Layout.BlockStart(last) is > 0 and var above && !string.IsNullOrWhiteSpace(desk.Layout.Line(above - 1));
            return Adding.Below(desk, desk.Layout.BlockEnd(last), isDense, [$"{indent}[[stock]]", .. lines.Select(line => indent + line)]);
        }

        if (desk.Root.Find("cutting") is TableNode cutting && desk.Layout.HeadersIn(cutting) is [.., var header])
        {
            return Adding.Below(desk, desk.Layout.BlockEnd(header), false, ["[[stock]]", .. lines]);
        }

        return Adding.TopTable(desk, ["[[stock]]", .. lines]);
    }
}
