using System.Collections.Generic;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Removes items, panels, plates and single fixings.</summary>
internal static class Removing
{
    public static bool Make(EditWork work, RemoveItems edit, Desk desk)
    {
        var targets = new List<Target>();
        foreach (var address in edit.Items)
        {
            if (work.Find(address) is not { } target)
            {
                return false;
            }

            if (target is { Panel: null, Plates: null })
            {
                return work.Refuse($"{Shown.Code(address)} is no item of a panel", "take its keys away one by one", item: address);
            }

            if (target.Copy is not null)
            {
                return work.Refuse(
                    $"{Shown.Code(address)} is one copy of a row or grid, which has no table of its own", "split the row into single items first, or change its count", target.Table.Span, address);
            }

            targets.Add(target);
        }

        var fixings = targets.Where(target => target.Fixing is not null).ToList();
        var tables = targets.Except(fixings).DistinctBy(target => target.Table.Span.Offset).ToList();
        work.Words = fixings.Count == 0 && tables.Count == 1 ? $"{(tables[0].Item is { } one ? EditWords.Name(one) : tables[0].Plates is { } plates ? Shown.Short(plates) : tables[0].Panel!.Id)} removed"
            : tables.Count == 0 ? $"{(fixings.Count == 1 ? "fixing" : "fixings")} removed"
            : $"{fixings.Count + tables.Count} items removed";
        return Fixings.Remove(work, fixings, desk) && RemoveTables(work, [.. tables.Select(target => target.Table)]);
    }

    private static bool RemoveTables(EditWork work, IReadOnlyList<TableNode> tables)
    {
        // From the end of the file to its start, so that what is still to go stays where it is.
        var outer = tables.Where(table => !tables.Any(other => !ReferenceEquals(other, table) && Trees.Tables(other).Contains(table, ReferenceEqualityComparer.Instance))).ToList();
        work.Add(new TableRemoval(work.Desk).Splices(outer.Where(table => !table.Inline)));
        foreach (var lists in outer.Where(table => table.Inline).GroupBy(table => work.Desk.Layout.OwnerOf(table)!.Value.Entry.Value, ReferenceEqualityComparer.Instance))
        {
            var list = (ListNode)lists.Key!;
            var gone = list.Items.Index().Where(item => lists.Contains(item.Item, ReferenceEqualityComparer.Instance)).Select(item => item.Index).ToHashSet();
            if (InlineLists.Remove(work.Desk, list, gone) is not { } splices)
            {
                return work.RefuseForm("the list", list.Span, "the desk file");
            }

            work.Add(splices);
        }

        return true;
    }
}
