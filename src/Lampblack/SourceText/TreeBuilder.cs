using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Findings;
using Tomlyn.Syntax;
using SourceSpan = Lampblack.Findings.SourceSpan;

namespace Lampblack.SourceText;

/// <summary>Makes nodes of the parser's tree: joins headers and dotted keys into tables, and holds to TOML's rules of who may define what (toml.io, sections Table, Inline Table and Array of Tables).</summary>
internal sealed class TreeBuilder(Places places, TomlScan scan, ImmutableArray<int> faults, ICollection<Finding> findings)
{
    private int _nodes;

    /// <summary>The file's table.</summary>
    public TableNode Build(DocumentSyntax document)
    {
        var root = new TableDraft(TableOrigin.Header, 0, places.Span(0, 0));
        AddAll(root, document.KeyValues);
        foreach (var table in document.Tables)
        {
            var draft = Open(root, table) ?? new TableDraft(TableOrigin.Header, 0, Place(table));
            AddAll(draft, table.Items);
        }

        if (_nodes > TomlText.MaxNodes)
        {
            findings.Add(Finding.Stop(
                "toml-too-large",
                string.Create(CultureInfo.InvariantCulture, $"the file holds more than {TomlText.MaxNodes} values; the rest was not read"),
                "Split it into several files.",
                places.Span(0, 0)));
        }

        return root.Finish();
    }

    private static SourceSpan Join(SourceSpan first, SourceSpan last) => first with { Length = last.Offset + last.Length - first.Offset };

    private SourceSpan Place(SyntaxNodeBase? node) => node is null
        ? places.Span(0, 0)
        : places.Span(scan.Repaired.Original(node.Span.Offset), scan.Repaired.Original(node.Span.Offset + node.Span.Length));

    private bool IsFaultFrom(int start, int end)
    {
        var at = faults.BinarySearch(start);
        at = at < 0 ? ~at : at;
        return at < faults.Length && faults[at] < end;
    }

    private List<(string Name, SourceSpan Span)>? Parts(KeySyntax? key)
    {
        if (Part(key?.Key) is not { } first)
        {
            return null;
        }

        var parts = new List<(string, SourceSpan)> { first };
        foreach (var dotted in key!.DotKeys)
        {
            if (Part(dotted.Key) is not { } part)
            {
                return null;
            }

            parts.Add(part);
        }

        return parts;
    }

    private (string Name, SourceSpan Span)? Part(BareKeyOrStringValueSyntax? key)
    {
        var name = key switch
        {
            BareKeySyntax bare => bare.Key?.Text,
            StringValueSyntax quoted => quoted.Value,
            _ => null,
        };
        return string.IsNullOrEmpty(name) && key is not StringValueSyntax || name is null ? null : (Printable(name, Place(key)), Place(key));
    }

    /// <summary>The table of a header; null where it can't be had, with its finding.</summary>
    private TableDraft? Open(TableDraft root, TableSyntaxBase header)
    {
        var parts = Parts(header.Name);
        if (parts is null || IsTooDeep(parts.Count + 1, parts[^1].Span))
        {
            return null;
        }

        var span = header.CloseBracket is { } close ? Join(Place(header.OpenBracket), Place(close)) : Place(header.OpenBracket);
        var table = root;
        for (var i = 0; i < parts.Count - 1; i++)
        {
            var (name, place) = parts[i];
            switch (table.Find(name))
            {
                case null:
                    var made = new TableDraft(TableOrigin.Implied, table.Depth + 1, span);
                    table.Add(name, place, made);
                    table = made;
                    break;
                case TableDraft { Origin: not TableOrigin.Inline } there:
                    table = there;
                    break;
                case TablesDraft several:
                    table = several.Tables[^1];
                    break;
                default:
                    Twice(table, name, place);
                    return null;
            }
        }

        return header is TableArraySyntax ? OpenAnother(table, parts[^1], span) : OpenOne(table, parts[^1], span);
    }

    private TableDraft? OpenOne(TableDraft parent, (string Name, SourceSpan Span) key, SourceSpan header)
    {
        switch (parent.Find(key.Name))
        {
            case null:
                var made = new TableDraft(TableOrigin.Header, parent.Depth + 1, header);
                parent.Add(key.Name, key.Span, made);
                return made;
            case TableDraft { Origin: TableOrigin.Implied } implied:
                implied.Origin = TableOrigin.Header;
                implied.Span = header;
                return implied;
            default:
                Twice(parent, key.Name, key.Span);
                return null;
        }
    }

    private TableDraft? OpenAnother(TableDraft parent, (string Name, SourceSpan Span) key, SourceSpan header)
    {
        var there = parent.Find(key.Name);
        if (there is not (null or TablesDraft))
        {
            Twice(parent, key.Name, key.Span);
            return null;
        }

        var tables = there as TablesDraft;
        if (tables is null)
        {
            tables = new(header);
            parent.Add(key.Name, key.Span, tables);
        }

        // The list and the table in it are two levels.
        var made = new TableDraft(TableOrigin.Header, parent.Depth + 2, header);
        tables.Tables.Add(made);
        return made;
    }

    private void AddAll(TableDraft table, IEnumerable<KeyValueSyntax> items)
    {
        foreach (var item in items)
        {
            var place = Place(item.Key);

            // After a fault the parser takes up again in the middle of the line and calls anything a key; and of a key with a foreign letter it takes the front.
            var end = place.Offset + place.Length;
            var isPart = item.Value is null && end < places.Text.Length && char.IsLetter(places.Text[end]);
            if (_nodes <= TomlText.MaxNodes && !isPart && !IsFaultFrom(places.LineStart(place.Offset), place.Offset))
            {
                Add(table, item, true);
            }
        }
    }

    private void Add(TableDraft table, KeyValueSyntax item, bool ownLine)
    {
        var parts = Parts(item.Key);
        if (parts is null || IsTooDeep(table.Depth + parts.Count, parts[^1].Span))
        {
            return;
        }

        for (var i = 0; i < parts.Count - 1; i++)
        {
            var (name, place) = parts[i];
            switch (table.Find(name))
            {
                case null:
                    var made = new TableDraft(TableOrigin.Dotted, table.Depth + 1, place);
                    table.Add(name, place, made);
                    table = made;
                    break;
                case TableDraft { Origin: TableOrigin.Dotted } there:
                    table = there;
                    break;
                default:
                    Twice(table, name, place);
                    return;
            }
        }

        var (key, keyPlace) = parts[^1];
        if (table.Find(key) is not null)
        {
            // A word alone on its line has its finding already.
            if (item.Value is not null)
            {
                Twice(table, key, keyPlace);
            }

            return;
        }

        var value = Value(item.Value, keyPlace, table.Depth + 1);
        if (ownLine && value is Node node && IsFaultFrom(node.Span.Offset + node.Span.Length, places.LineEnd(node.Span.Offset + node.Span.Length) + 1))
        {
            value = new BrokenNode(node.Span);
        }

        table.Add(key, keyPlace, value);
    }

    private Node Value(ValueSyntax? value, SourceSpan keyPlace, int depth)
    {
        _nodes++;
        if (value is null)
        {
            return new BrokenNode(keyPlace);
        }

        var place = Place(value);
        switch (value)
        {
            case ArraySyntax list when IsTooDeep(depth, place):
            case InlineTableSyntax table when IsTooDeep(depth, place):
                return new BrokenNode(place);
            case ArraySyntax list:
                return list.CloseBracket is { Span.Length: > 0 }
                    ? new ListNode([.. list.Items.TakeWhile(_ => _nodes <= TomlText.MaxNodes).Select(item => Value(item.Value, place, depth + 1))], place)
                    : new BrokenNode(place);
            case InlineTableSyntax table:
                return Inline(table, place, depth);
        }

        if (scan.IsOpenText(place.Offset) || IsFaultFrom(place.Offset, place.Offset + Math.Max(1, place.Length)))
        {
            return new BrokenNode(place);
        }

        var written = places.Text.Substring(place.Offset, place.Length);
        return value switch
        {
            StringValueSyntax text => new TextNode(Printable((text.Value ?? "").Replace("\r\n", "\n", StringComparison.Ordinal), place), place),
            IntegerValueSyntax whole => new NumberNode(whole.Value, true, written, place),
            FloatValueSyntax number => Finite(number.Value, written, place),
            BooleanValueSyntax flag => new FlagNode(flag.Value, place),
            DateTimeValueSyntax => new TimeNode(written, place),
            _ => new BrokenNode(place),
        };
    }

    private Node Inline(InlineTableSyntax table, SourceSpan place, int depth)
    {
        if (table.CloseBrace is not { Span.Length: > 0 })
        {
            return new BrokenNode(place);
        }

        var draft = new TableDraft(TableOrigin.Inline, depth, place);
        foreach (var item in table.Items)
        {
            if (item.KeyValue is { } keyValue && _nodes <= TomlText.MaxNodes)
            {
                Add(draft, keyValue, false);
            }
        }

        return draft.Finish();
    }

    private Node Finite(double value, string written, SourceSpan place)
    {
        if (double.IsFinite(value))
        {
            return new NumberNode(value, false, written, place);
        }

        findings.Add(Finding.Stop(
            "number-not-finite",
            $"{Shown.Code(written)} is not a number that can be measured",
            "Write a number with digits, such as 12.5.",
            place));
        return new BrokenNode(place);
    }

    /// <summary>The text without characters that can't be printed, with a finding if there were any.</summary>
    private string Printable(string text, SourceSpan place)
    {
        if (!text.Any(IsUnprintable))
        {
            return text;
        }

        findings.Add(Finding.Stop(
            "text-control-character",
            $"the text holds the control character {Shown.CodePoint(new Rune(text.First(IsUnprintable)))}, which can't be printed",
            "Delete it; only line breaks and tabs may stand in a text.",
            place));
        return string.Concat(text.Where(c => !IsUnprintable(c)));
    }

    private static bool IsUnprintable(char c) => char.IsControl(c) && c is not ('\n' or '\t');

    private bool IsTooDeep(int depth, SourceSpan place)
    {
        if (depth <= TomlText.MaxDepth)
        {
            return false;
        }

        findings.Add(Finding.Stop(
            "toml-depth",
            string.Create(CultureInfo.InvariantCulture, $"more than {TomlText.MaxDepth} tables and lists stand inside one another"),
            "Write the file with fewer levels.",
            place));
        return true;
    }

    private void Twice(TableDraft table, string key, SourceSpan place)
    {
        var first = table.KeySpan(key);
        var hint = table.Find(key) switch
        {
            TablesDraft => $"Write [[{Shown.Short(key)}]] with two brackets for one more.",
            TableDraft { Origin: TableOrigin.Header } => $"Put all its keys under one header; for several, write [[{Shown.Short(key)}]].",
            TableNode or TableDraft => "Put all its keys in one place.",
            _ => "Keep one of the two; the first is used.",
        };
        findings.Add(Finding.Stop(
            "key-twice",
            string.Create(CultureInfo.InvariantCulture, $"{Shown.Code(key)} is already there, on line {first.Line}"),
            hint,
            place));
    }
}
