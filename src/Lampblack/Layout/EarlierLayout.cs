using System.Collections.Generic;
using System.Linq;
using Lampblack.Desks;

namespace Lampblack.Layout;

/// <summary>An earlier layout of a desk, for a later one that differs in a few items: the others are not placed again.</summary>
public sealed class EarlierLayout
{
    private readonly Dictionary<PanelItem, LaidItem[]> _laid = new(ReferenceEqualityComparer.Instance);

    /// <summary>Takes over what is written as before.</summary>
    /// <param name="before">The earlier layout.</param>
    /// <param name="same">Items of the new desk, each with the item of the earlier one that reads alike: same place, same words, same everything that it takes over from panel and desk.</param>
    public EarlierLayout(LaidDesk before, IReadOnlyDictionary<PanelItem, PanelItem> same)
    {
        var laid = new Dictionary<PanelItem, LaidItem[]>(ReferenceEqualityComparer.Instance);
        foreach (var (item, copies) in before.Panels.SelectMany(panel => panel.Items))
        {
            laid[item] = copies;
        }

        foreach (var (now, earlier) in same)
        {
            if (laid.TryGetValue(earlier, out var copies))
            {
                _laid[now] = copies;
            }
        }
    }

    /// <summary>A copy in its place; null where it has to be placed anew.</summary>
    internal LaidItem? Find(PanelItem item, int copy, Origin origin) => _laid.TryGetValue(item, out var copies) ? copies[copy].Again(item, origin) : null;
}
