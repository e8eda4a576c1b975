using System.Collections.Generic;
using System.Linq;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Copies the text of an item, and makes of such a copy an item of its own.</summary>
internal static class CopyText
{
    /// <summary>The item's text a number of times; null where it can't be put there.</summary>
    /// <param name="desk">The file.</param>
    /// <param name="item">The item.</param>
    /// <param name="times">How often.</param>
    /// <param name="isHere">Whether right behind the item; else behind all others of its panel.</param>
    public static Splice? Repeat(DeskText desk, ItemEntry item, int times, bool isHere)
    {
        if (item.Table.Inline)
        {
            var several = string.Join(", ", Enumerable.Repeat(desk.Text[item.Table.Span.Offset..TableLayout.End(item.Table)], times));
            return isHere ? new(TableLayout.End(item.Table), 0, $", {several}")
                : desk.Layout.OwnerOf(item.Table) is { Entry.Value: ListNode list } ? InlineLists.Append(desk, list, several) : null;
        }

        var place = isHere ? new TableRemoval(desk).Blocks([item.Table])[^1].End : desk.Layout.BlockEnd(desk.Layout.HeadersIn(desk.Panels[item.Panel].Table)[^1]);
        return new(place, 0, string.Concat(Enumerable.Repeat(string.Concat(Blocks(desk, item, place)), times)));
    }

    /// <summary>Gives copies their ids and places, and takes keys away that belong to the original alone: all at once, as a long file takes a while to be read.</summary>
    public static bool Settle(EditWork work, IReadOnlyList<Copy> copies, params IReadOnlyList<string> drop)
    {
        var (keys, values) = (new KeyWriter(work.Desk), new ValueWriter(work.Desk));
        foreach (var (place, id, dxMm, dyMm) in copies)
        {
            var table = work.Desk.At(place).Table;
            work.Add(table.FindEntry("id") is { } named ? values.Replace(named.Value, KeyValue.Of(id), 0)! : [keys.InsertFirst(table, "id", $"\"{id}\"")]);
            if (Moving.Shift(work.Desk, work.Desk.At(place), dxMm, dyMm) is not { } moved)
            {
                return work.RefuseForm("the place", table.Span, id);
            }

            work.Add(moved);
        }

        work.Step();
        foreach (var key in drop)
        {
            foreach (var (place, id, _, _) in copies)
            {
                var table = work.Desk.At(place).Table;
                var entry = table.FindEntry(key);
                if (entry is not null && new KeyWriter(work.Desk).Remove(table, entry) is not { })
                {
                    return work.RefuseForm($"`{key}`", entry.Value.Span, id);
                }

                work.Add(entry is null ? [] : new KeyWriter(work.Desk).Remove(table, entry)!);
            }

            work.Step();
        }

        return true;
    }

    /// <summary>What a copy is to be called, and how far it stands from the original.</summary>
    public sealed record Copy(ItemPlace Place, string Id, double DxMm, double DyMm);

    /// <summary>The item's blocks, each with a break and, unless the file is written densely, a blank line before it.</summary>
    private static IEnumerable<string> Blocks(DeskText desk, ItemEntry item, int place)
    {
        var lineBreak = desk.Layout.Break(place);
        foreach (var (start, end) in new TableRemoval(desk).Blocks([item.Table]))
        {
            var isDense = start > 0 && !string.IsNullOrWhiteSpace(desk.Layout.Line(start - 1));
            yield return (isDense ? string.Empty : lineBreak) + lineBreak + desk.Text[start..end];
        }
    }
}
