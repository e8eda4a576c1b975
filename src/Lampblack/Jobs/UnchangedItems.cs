using System.Collections.Generic;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Jobs;

/// <summary>Which items of a desk are written as they were in an earlier state of it.</summary>
internal static class UnchangedItems
{
    /// <summary>Items that read alike, each with its earlier self.</summary>
    /// <param name="before">The earlier state.</param>
    /// <param name="now">The state now.</param>
    /// <returns>Nothing where anything else of the desk reads otherwise: items take over sizes, inks and parts from it.</returns>
    public static IReadOnlyDictionary<PanelItem, PanelItem> Between(ReadDesk before, ReadDesk now)
    {
        var same = new Dictionary<PanelItem, PanelItem>(ReferenceEqualityComparer.Instance);
        var (old, root) = (before.Text.Value, now.Text.Value);
        if (ReferenceEquals(old, root) || !Trees.AreAlike(old, root, (table, key) => ReferenceEquals(table, old) && key == "panel"))
        {
            return same;
        }

        var (oldTables, tables) = (Tables(old, "panel"), Tables(root, "panel"));
        foreach (var panel in now.Desk.Value.Panels)
        {
            // By its id: panels may have been put before it.
            if (before.Desk.Value.Panels.FirstOrDefault(one => one.Id == panel.Id) is { } earlier
                && oldTables.TryGetValue(earlier.Span, out var oldTable) && tables.TryGetValue(panel.Span, out var table)
                && Trees.AreAlike(oldTable, table, (one, key) => ReferenceEquals(one, oldTable) && PanelReader.Lists.Contains(key)))
            {
                Add(oldTable, table, earlier, panel, same);
            }
        }

        return same;
    }

    private static void Add(TableNode oldTable, TableNode table, Panel earlier, Panel panel, Dictionary<PanelItem, PanelItem> same)
    {
        var (oldItems, items) = (Items(oldTable), Items(table));
        var known = earlier.Items.GroupBy(item => item.Id).ToDictionary(group => group.Key, group => group.First());
        foreach (var item in panel.Items)
        {
            if (known.TryGetValue(item.Id, out var old) && old.GetType() == item.GetType()
                && oldItems.TryGetValue(old.Span, out var was) && items.TryGetValue(item.Span, out var written) && Trees.AreAlike(was, written))
            {
                same[item] = old;
            }
        }
    }

    private static Dictionary<SourceSpan, TableNode> Items(TableNode panel) =>
        PanelReader.Lists.SelectMany(kind => Tables(panel, kind)).ToDictionary(pair => pair.Key, pair => pair.Value);

    private static Dictionary<SourceSpan, TableNode> Tables(TableNode table, string key) =>
        table.Find(key) is ListNode list ? list.Items.OfType<TableNode>().ToDictionary(item => item.Span) : [];
}
