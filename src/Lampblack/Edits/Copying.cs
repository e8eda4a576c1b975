using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;

namespace Lampblack.Edits;

/// <summary>Copies items as they are written, behind all others of their panel.</summary>
internal static class Copying
{
    public static bool Make(EditWork work, CopyItems edit)
    {
        var items = new List<ItemEntry>();
        foreach (var address in edit.Items)
        {
            if (work.Item(address) is not { Item: { } item })
            {
                return false;
            }

            if (!items.Contains(item))
            {
                items.Add(item);
            }
        }

        // By kind in the order of the file, so that what lay on top lies on top again.
        items = [.. items.OrderBy(item => item.Table.Span.Offset)];
        var made = new List<(ItemPlace Place, string Id)>();
        foreach (var item in items)
        {
            var panel = work.Desk.Panels[item.Panel];
            var taken = panel.Items.Select(other => other.Id).Concat(made.Where(copy => copy.Place.Panel == item.Panel).Select(copy => copy.Id)).ToHashSet(StringComparer.Ordinal);
            made.Add((new(item.Panel, item.Kind, panel.Items.Count(other => other.Kind == item.Kind) + made.Count(copy => (copy.Place.Panel, copy.Place.Kind) == (item.Panel, item.Kind))), FreeId(item, taken)));
        }

        foreach (var item in items)
        {
            // Offsets of the originals stay, as copies come behind them; what is read anew is found by its place.
            var there = work.Desk.At(item.Place);
            if (CopyText.Repeat(work.Desk, there, 1, isHere: false) is not { } splice)
            {
                return work.RefuseForm("the table", item.Table.Span, work.Desk.AddressOf(item));
            }

            work.Add(splice);
            work.Step();
        }

        if (!CopyText.Settle(work, [.. made.Select(copy => new CopyText.Copy(copy.Place, copy.Id, edit.DxMm, edit.DyMm))], "drilled"))
        {
            return false;
        }

        work.Touched.AddRange(made.Select(copy => copy.Place));
        work.Words = $"{EditWords.Name([.. items])} copied";
        return true;
    }

    /// <summary>The next free name after an item's own: <c>lamp-2</c> after <c>lamp</c>, <c>lamp-4</c> after <c>lamp-3</c>.</summary>
    public static string FreeId(ItemEntry item, IReadOnlySet<string> taken)
    {
        var at = item.Id.LastIndexOf('-');
        var (stem, number) = at > 0 && int.TryParse(item.Id.AsSpan(at + 1), NumberStyles.None, CultureInfo.InvariantCulture, out var last) && last < 100_000
            ? (item.Id[..at], last)
            : (item.Id, 1);
        stem = stem[..Math.Min(stem.Length, 32)].TrimEnd('-');
        string id;
        do
        {
            id = string.Create(CultureInfo.InvariantCulture, $"{stem}-{++number}");
        }
        while (taken.Contains(id));
        return id;
    }
}
