using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Writes the copies of a row or grid as items of their own, each with its place and its words.</summary>
internal static class Splitting
{
    /// <summary>Each becomes a table: more than this is no desk that anyone edits by hand.</summary>
    private const int MostCopies = 200;

    public static bool Make(EditWork work, SplitCopies edit, Desk desk)
    {
        if (work.Item(edit.Item) is not { Item: { } item })
        {
            return false;
        }

        var address = work.Desk.AddressOf(item);
        var copies = Repeating.Copies(desk, work.Desk, item);
        if (copies.Count < 2 || copies.Count > MostCopies)
        {
            return copies.Count < 2
                ? work.Refuse($"`{address}` is no row or grid", "there is nothing to split", item.Table.Span, address)
                : work.Refuse(FormattableString.Invariant($"`{address}` has {copies.Count} copies"), FormattableString.Invariant($"up to {MostCopies} can be written one by one"), item.Table.Span, address);
        }

        var name = EditWords.Name(item);
        var ids = Ids(work.Desk.Panels[item.Panel], item, copies.Count);

        // In place, so that what lies over what stays; behind the others where these are known by their number only.
        var kin = work.Desk.Panels[item.Panel].Items.Where(other => other.Kind == item.Kind && other.Number > item.Number).ToList();
        var isHere = kin.All(other => other.Table.FindEntry("id") is not null);
        if (CopyText.Repeat(work.Desk, item, copies.Count - 1, isHere) is not { } splice)
        {
            return work.RefuseForm("the table", item.Table.Span, address);
        }

        work.Add(splice);
        work.Step();

        var words = item.Kind switch
        {
            "control" => "legend",
            "legend" => "text",
            _ => string.Empty,
        };
        var first = isHere ? item.Number + 1 : item.Number + kin.Count + 1;
        var places = Enumerable.Range(0, copies.Count).Select(copy => item.Place with { Number = copy == 0 ? item.Number : first + copy - 1 }).ToList();
        if (places.Index().Any(place => !Words(work, place.Item, words, place.Index)))
        {
            return false;
        }

        work.Step();
        if (!CopyText.Settle(work, [.. places.Index().Select(place => Copy(place.Item, place.Index))], "row", "grid"))
        {
            return false;
        }

        work.Touched.AddRange(places);
        work.Words = FormattableString.Invariant($"{name} split into {copies.Count} single items");
        return true;

        CopyText.Copy Copy(ItemPlace place, int copy) => new(place, ids[copy], copies.ShiftOf(copy).DxMm, copies.ShiftOf(copy).DyMm);
    }

    /// <summary>Leaves a copy the one of its words that is its own.</summary>
    private static bool Words(EditWork work, ItemPlace place, string one, int copy)
    {
        var item = work.Desk.At(place);
        if (one.Length == 0 || item.Table.FindEntry(one + "s") is not { Value: ListNode list } entry)
        {
            return true;
        }

        var words = copy < list.Items.Length && list.Items[copy] is TextNode text ? text.Value : string.Empty;
        IReadOnlyList<Splice>? splices = words.Length == 0 && one == "legend"
            ? new KeyWriter(work.Desk).Remove(item.Table, entry)
            : [Splice.At(entry.KeySpan, one), Splice.At(list.Span, TomlWriting.Quoted(words, '"'))];
        if (splices is null)
        {
            return work.RefuseForm($"`{entry.Key}`", list.Span, work.Desk.AddressOf(item));
        }

        work.Add(splices);
        return true;
    }

    private static ImmutableArray<string> Ids(PanelEntry panel, ItemEntry item, int count)
    {
        var taken = panel.Items.Where(other => other != item).Select(other => other.Id).ToHashSet(StringComparer.Ordinal);
        var stem = item.Id[..Math.Min(item.Id.Length, 34)].TrimEnd('-');
        while (Enumerable.Range(1, count).Any(number => taken.Contains(Numbered(stem, number))))
        {
            stem += "x";
        }

        return [.. Enumerable.Range(1, count).Select(number => Numbered(stem, number))];
    }

    private static string Numbered(string stem, int number) => string.Create(CultureInfo.InvariantCulture, $"{stem}-{number}");
}
