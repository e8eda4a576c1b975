using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Makes items rows and grids, and single again. Words of copies go along, row by row; new copies begin without.</summary>
internal static class Repeating
{
    public static bool Make(EditWork work, Repeat edit, Desk desk)
    {
        if (work.Item(edit.Item) is not { Item: { } item })
        {
            return false;
        }

        var address = work.Desk.AddressOf(item);
        if (edit.Columns < 1 || edit.Rows < 1 || (long)edit.Columns * edit.Rows > DeskReading.MostItems)
        {
            return work.Refuse($"`{address}` can't have so many copies", FormattableString.Invariant($"1 to {DeskReading.MostItems} in all"), item.Table.Span, address);
        }

        var old = Copies(desk, work.Desk, item);
        var name = EditWords.Name(item);
        var (key, other) = edit.Rows > 1 ? ("grid", "row") : ("row", "grid");
        var isSingle = edit is { Columns: 1, Rows: 1 };
        if (!Words(work, item, old, edit)
            || !Set(work, address, other, null)
            || !Set(work, address, key, isSingle ? null : Table(work.Desk.Find(address)!.Table, key, edit)))
        {
            return false;
        }

        work.Touch(work.Desk.At(item.Place), work.IsChanged);
        work.Words = isSingle ? $"{name} is single again"
            : edit.Rows > 1 ? FormattableString.Invariant($"{name} repeated in {edit.Columns} columns and {edit.Rows} rows")
            : FormattableString.Invariant($"{name} repeated {edit.Columns} times");
        return true;
    }

    /// <summary>The copies of an item, as they were read; one where it could not be read.</summary>
    public static Repetition Copies(Desk desk, DeskText text, ItemEntry item) =>
        desk.Panels.FirstOrDefault(panel => panel.Id == text.Panels[item.Panel].Id)?.Items.FirstOrDefault(read => read.Id == item.Id)?.Copies ?? Repetition.Once;

    private static bool Set(EditWork work, string address, string key, KeyValue? value)
    {
        var done = KeySetting.Set(work, address, [key], value);
        work.Step();
        return done;
    }

    private static KeyTable Table(TableNode table, string key, Repeat edit)
    {
        // One length where it says the same, unless two stand there already.
        var isPair = table.Find(key) is TableNode there && there.Find("step") is ListNode;
        var alone = key == "row" ? edit.StepYMm is 0 : edit.StepXMm.Equals(edit.StepYMm);
        KeyValue step = alone && !isPair ? new KeyNumber(edit.StepXMm) : new KeyList([new KeyNumber(edit.StepXMm), new KeyNumber(edit.StepYMm)]);
        return key == "row"
            ? new([("count", new KeyNumber(edit.Columns)), ("step", step)])
            : new([("columns", new KeyNumber(edit.Columns)), ("rows", new KeyNumber(edit.Rows)), ("step", step)]);
    }

    /// <summary>Brings the words of copies to the new number of them.</summary>
    private static bool Words(EditWork work, ItemEntry item, Repetition old, Repeat edit)
    {
        var one = item.Kind == "control" ? "legend" : "text";
        if (item.Kind is not ("control" or "legend") || item.Table.FindEntry(one + "s") is not { Value: ListNode list } entry)
        {
            return true;
        }

        var words = list.Items.Select(node => (node as TextNode)?.Value ?? string.Empty).ToImmutableArray();
        var kept = Enumerable.Range(0, edit.Columns * edit.Rows).Select(copy => (Column: copy % edit.Columns, Row: copy / edit.Columns))
            .Select(place => place.Column < old.Columns && place.Row < old.Rows && (place.Row * old.Columns) + place.Column is var at && at < words.Length ? words[at] : string.Empty)
            .ToArray();
        IReadOnlyList<Splice>? splices = kept.Length == 1
            ? kept[0].Length == 0 && item.Kind == "control" ? new KeyWriter(work.Desk).Remove(item.Table, entry)
                : [Splice.At(entry.KeySpan, one), Splice.At(list.Span, TomlWriting.Quoted(kept[0], '"'))]
            : new ValueWriter(work.Desk).Replace(list, KeyValue.Texts(kept), 0);
        if (splices is null)
        {
            return work.RefuseForm($"`{entry.Key}`", list.Span, work.Desk.AddressOf(item));
        }

        work.Add(splices);
        work.Step();
        return true;
    }
}
