using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Sets the words of controls, legends and rules.</summary>
internal static class Wording
{
    public static bool Make(EditWork work, SetWords edit, Desk desk)
    {
        if (work.Item(edit.Item) is not { Item: { } item } target)
        {
            return false;
        }

        var address = work.Desk.AddressOf(item);
        var read = desk.Panels.FirstOrDefault(panel => panel.Id == target.Panel!.Id)?.Items.FirstOrDefault(other => other.Id == item.Id);
        ImmutableArray<string> lines = [.. edit.Lines.SelectMany(line => line.ReplaceLineEndings("\n").Split('\n'))];
        lines = lines.All(string.IsNullOrEmpty) ? [] : lines;
        var name = EditWords.Name(item);
        var words = string.Join(' ', lines);
        bool done;
        if (edit.State is { } state)
        {
            done = SetState(work, item, read as Control, state, string.Join('\n', lines));
            name = FormattableString.Invariant($"state {state} of {name}");
        }
        else if (item.Kind is "control" or "legend" && (edit.Copy ?? target.Copy) is { } copy)
        {
            done = SetCopy(work, item, read?.Copies.Count ?? 1, copy, lines);
            name = FormattableString.Invariant($"{name}.{copy}");
        }
        else
        {
            done = item.Kind switch
            {
                "control" => SetAll(work, item, "legend", lines),
                "legend" => lines.IsEmpty
                    ? work.Refuse($"`{address}` is nothing but its words", "remove the whole legend instead", item.Table.Span, address)
                    : SetAll(work, item, "text", lines),
                "rule" => SetAll(work, item, "title", lines.IsEmpty ? [] : [words]),
                _ => work.Refuse($"`{address}` has no words", "add a legend beside it", item.Table.Span, address),
            };
        }

        if (done)
        {
            work.Touch(item, work.IsChanged);
            work.Words = words.Length == 0 ? $"words of {name} taken away" : $"{name} now reads {Shown.Short(words)}";
        }

        return done;
    }

    private static bool SetState(EditWork work, ItemEntry item, Control? control, int state, string words)
    {
        var address = work.Desk.AddressOf(item);
        var positions = control?.Part.PositionDegrees.Length ?? 0;
        var there = item.Table.Find("states") switch
        {
            ListNode list => list.Items,
            TextNode single => [single],
            _ => [],
        };
        if (item.Kind != "control" || state < 1 || state > Math.Max(positions, there.Length))
        {
            return work.Refuse(
                FormattableString.Invariant($"`{address}` has no position {state}"),
                positions == 0 ? "its part has no positions that are known" : FormattableString.Invariant($"its part has {positions} positions, counted from 1"),
                item.Table.Span,
                address);
        }

        var texts = there.Select(node => (node as TextNode)?.Value ?? string.Empty).ToList();
        while (texts.Count < Math.Max(state, there.IsEmpty ? positions : 0))
        {
            texts.Add(string.Empty);
        }

        texts[state - 1] = words;
        return Write(work, item, item.Table.FindEntry("states"), "states", KeyValue.Texts([.. texts]));
    }

    private static bool SetCopy(EditWork work, ItemEntry item, int count, int copy, ImmutableArray<string> lines)
    {
        var address = work.Desk.AddressOf(item);
        var one = item.Kind == "control" ? "legend" : "text";
        var many = one + "s";
        if (copy < 1 || copy > count)
        {
            return work.Refuse(FormattableString.Invariant($"`{address}` has no copy {copy}"), FormattableString.Invariant($"it has {count}, counted from 1"), item.Table.Span, address);
        }

        if (item.Table.FindEntry(many) is { Value: ListNode list } entry)
        {
            var texts = list.Items.Select(node => (node as TextNode)?.Value ?? string.Empty).ToList();
            while (texts.Count < copy)
            {
                texts.Add(string.Empty);
            }

            texts[copy - 1] = string.Join('\n', lines);
            return Write(work, item, entry, many, KeyValue.Texts([.. texts]));
        }

        if (count == 1)
        {
            return SetAll(work, item, one, lines);
        }

        var old = Text(item.Table.Find(one));
        if (old == string.Join('\n', lines))
        {
            return true;
        }

        var all = Enumerable.Repeat(old, count).ToArray();
        all[copy - 1] = string.Join('\n', lines);
        return Rename(work, item, item.Table.FindEntry(one), many, KeyValue.Texts(all));
    }

    private static bool SetAll(EditWork work, ItemEntry item, string key, ImmutableArray<string> lines)
    {
        var (there, copies) = (item.Table.FindEntry(key), item.Table.FindEntry(key + "s"));
        if (lines.IsEmpty)
        {
            return new[] { there, copies }.OfType<Entry>().All(entry => Remove(work, item, entry));
        }

        if (there is null && copies is not null)
        {
            return Rename(work, item, copies, key, Words(lines));
        }

        return there?.Value switch
        {
            ListNode => Write(work, item, there, key, KeyValue.Texts([.. lines])),
            TextNode text when text.Value.Contains('\n', StringComparison.Ordinal) => Write(work, item, there, key, KeyValue.Of(string.Join('\n', lines))),
            _ => Write(work, item, there, key, Words(lines)),
        };
    }

    private static KeyValue Words(ImmutableArray<string> lines) => lines.Length == 1 ? KeyValue.Of(lines[0]) : KeyValue.Texts([.. lines]);

    private static string Text(Node? node) => node switch
    {
        TextNode text => text.Value,
        ListNode list => string.Join('\n', list.Items.OfType<TextNode>().Select(line => line.Value)),
        _ => string.Empty,
    };

    private static bool Write(EditWork work, ItemEntry item, Entry? entry, string key, KeyValue value)
    {
        IReadOnlyList<Splice>? splices = entry is not null ? new ValueWriter(work.Desk).Replace(entry.Value, value, 0)
            : [new KeyWriter(work.Desk).Insert(item.Table, key, TomlWriting.Value(value, 0)!, "legends", "legend", "texts", "text", "box", "bracket", "at")];
        return Add(work, item, key, splices);
    }

    private static bool Rename(EditWork work, ItemEntry item, Entry? entry, string key, KeyValue value) => entry is null
        ? Write(work, item, null, key, value)
        : Add(work, item, key, [Splice.At(entry.KeySpan, key), Splice.At(entry.Value.Span, TomlWriting.Value(value, 0)!)]);

    private static bool Remove(EditWork work, ItemEntry item, Entry entry) => Add(work, item, entry.Key, new KeyWriter(work.Desk).Remove(item.Table, entry));

    private static bool Add(EditWork work, ItemEntry item, string key, IReadOnlyList<Splice>? splices)
    {
        if (splices is null)
        {
            return work.RefuseForm($"`{key}`", item.Table.Span, work.Desk.AddressOf(item));
        }

        work.Add(splices);
        return true;
    }
}
