using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Sets single keys, or takes them away.</summary>
internal static class KeySetting
{
    public static bool Make(EditWork work, SetKey edit)
    {
        if (work.Find(edit.Item) is not { } target)
        {
            return false;
        }

        var path = KeyPath.Read(edit.Key);
        if (path.IsEmpty)
        {
            return work.Refuse($"{Shown.Code(edit.Key)} is no key", "write one such as `height`, or `dial.from` for a key of a table", item: edit.Item);
        }

        if (!Set(work, edit.Item, path, edit.Value))
        {
            return false;
        }

        var owner = target.Item is { } item ? $" of {EditWords.Name(item)}" : target.Panel is { } panel ? $" of {panel.Id}"
            : target.Plates is { } plates ? $" of {Shown.Short(plates)}" : edit.Item.Length > 0 ? $" of {edit.Item}" : string.Empty;
        var value = edit.Value switch
        {
            null => null,
            KeyText text => text.Words,
            var other => TomlWriting.Value(other, TomlWriting.OtherDecimals),
        };
        work.Words = $"{Shown.Short(edit.Key)}{owner} {(value is null ? "taken away" : $"set to {Shown.Short(value)}")}";
        if (target.Item is { } touched)
        {
            work.Touch(work.Desk.At(touched.Place), writeId: path[0] != "id" && work.IsChanged);
        }
        else if (target.Panel is { } whole)
        {
            work.TouchedPanel = whole.Number;
        }

        return true;
    }

    /// <summary>Sets a key behind an address, in as many steps as it takes.</summary>
    public static bool Set(EditWork work, string address, ImmutableArray<string> path, KeyValue? value)
    {
        work.Step();
        var table = work.Desk.Find(address)!.Table;
        foreach (var (depth, part) in path[..^1].Index())
        {
            switch (table.Find(part))
            {
                case TableNode inner:
                    table = inner;
                    break;
                case null when value is null:
                    return true;
                case null:
                    // The table isn't there yet: it comes with its one key.
                    return Set(work, address, path[..(depth + 1)], Nested(path[(depth + 1)..], value!));
                case var other:
                    return work.Refuse($"{Shown.Code(part)} is no table, so that it has no key {Shown.Code(path[depth + 1])}", "set the whole key instead", other.Span, address);
            }
        }

        var entry = table.FindEntry(path[^1]);
        if (value is null)
        {
            return entry is null || Add(work, address, entry, new KeyWriter(work.Desk).Remove(table, entry));
        }

        if (entry is null)
        {
            return Insert(work, address, table, path[^1], value);
        }

        if (entry.Value is TableNode there && value is KeyTable keys)
        {
            return there.Entries.Where(old => keys.Keys.All(key => key.Key != old.Key)).ToList().All(old => Set(work, address, path.Add(old.Key), null))
                && keys.Keys.All(key => Set(work, address, path.Add(key.Key), key.Value));
        }

        if (work.Desk.Layout.IsHeaded(entry.Value) || (entry.Value is TableNode dotted && work.Desk.Layout.FormOf(dotted) == TableForm.Dotted))
        {
            return Set(work, address, path, null) && Set(work, address, path, value);
        }

        return Add(work, address, entry, new ValueWriter(work.Desk).Replace(entry.Value, value, TomlWriting.DecimalsOf(path[^1])));
    }

    private static KeyTable Nested(ImmutableArray<string> path, KeyValue value) =>
        new([(path[0], path.Length == 1 ? value : Nested(path[1..], value))]);

    private static bool Insert(EditWork work, string address, TableNode table, string key, KeyValue value)
    {
        if (work.Desk.Layout.FormOf(table) == TableForm.Top && value is KeyTable { Keys.IsEmpty: false } keys)
        {
            return InsertTopTable(work, address, key, keys);
        }

        if (TomlWriting.Value(value, TomlWriting.DecimalsOf(key)) is not { } written)
        {
            return Unwritable(work, address, key);
        }

        var writer = new KeyWriter(work.Desk);
        work.Add(key == "id" ? writer.InsertFirst(table, key, written) : writer.Insert(table, key, written, After(key)));
        return true;
    }

    /// <summary>A table of the desk as people write it: under a header of its own, before the first header.</summary>
    private static bool InsertTopTable(EditWork work, string address, string key, KeyTable keys)
    {
        var desk = work.Desk;
        var lines = keys.Keys.Select(each => (Key: TomlWriting.Key(each.Key), Value: TomlWriting.Value(each.Value, TomlWriting.DecimalsOf(each.Key)))).ToList();
        if (lines.Any(line => line.Value is null))
        {
            return Unwritable(work, address, key);
        }

        work.Add(Adding.TopTable(desk, lines.Select(line => $"{line.Key} = {line.Value}").Prepend($"[{TomlWriting.Key(key)}]")));
        return true;
    }

    private static bool Add(EditWork work, string address, Entry entry, IReadOnlyList<Splice>? splices)
    {
        if (splices is null)
        {
            return work.RefuseForm(Shown.Code(entry.Key), entry.Value.Span, address);
        }

        work.Add(splices);
        return true;
    }

    private static bool Unwritable(EditWork work, string address, string key) =>
        work.Refuse($"the value for {Shown.Code(key)} holds a number that can't be written", "a number is at most 1,000,000,000", item: address);

    /// <summary>Which keys a key is best written behind.</summary>
    private static string[] After(string key) => key switch
    {
        "title" => ["id", "lampblack"],
        "order" => ["title", "lampblack"],
        "corner" => ["box", "line", "size"],
        "turn" or "drilled" or "row" or "grid" => ["at"],
        "at" => ["part", "file", "id"],
        _ => [],
    };
}
