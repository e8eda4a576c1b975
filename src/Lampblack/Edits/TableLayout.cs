using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>How a table is written.</summary>
internal enum TableForm
{
    /// <summary>The top of the file.</summary>
    Top,

    /// <summary>Under its own header.</summary>
    Header,

    /// <summary>Named only on the way to another header.</summary>
    Implied,

    /// <summary>By dotted keys.</summary>
    Dotted,

    /// <summary>Between braces.</summary>
    Inline,
}

/// <summary>Where the tables of a file lie in its text: who is in whom, and which lines are whose.</summary>
internal sealed class TableLayout
{
    private readonly Places _places;
    private readonly TableNode _root;
    private readonly SortedDictionary<int, TableNode> _headers = [];
    private readonly Dictionary<Node, (TableNode Owner, Entry Entry)> _owners = new(ReferenceEqualityComparer.Instance);

    public TableLayout(DeskText desk)
    {
        (_places, _root) = (desk.Places, desk.Root);
        Walk(_root);
    }

    private string Text => _places.Text;

    /// <summary>How a table is written.</summary>
    public TableForm FormOf(TableNode table) => ReferenceEquals(table, _root) ? TableForm.Top
        : table.Inline ? TableForm.Inline
        : !_headers.TryGetValue(table.Span.Offset, out var deepest) ? TableForm.Dotted
        : ReferenceEquals(deepest, table) ? TableForm.Header : TableForm.Implied;

    /// <summary>The table that a table or list stands in, and the key that it stands under; null for the top.</summary>
    public (TableNode Owner, Entry Entry)? OwnerOf(Node node) => _owners.TryGetValue(node, out var owner) ? owner : null;

    /// <summary>Whether a value is one or more tables under headers.</summary>
    public bool IsHeaded(Node value) => value switch
    {
        TableNode table => FormOf(table) is TableForm.Header or TableForm.Implied,
        ListNode { Items: [TableNode { Inline: false }, ..] } => true,
        _ => false,
    };

    /// <summary>All tables with a header of their own in a table, itself too, in the order of the file.</summary>
    public IReadOnlyList<TableNode> HeadersIn(Node node) =>
        [.. Trees.Tables(node).Where(table => FormOf(table) == TableForm.Header).OrderBy(table => table.Span.Offset)];

    /// <summary>The first header of the file; the text's end where there is none.</summary>
    public int FirstHeader => _headers.Count == 0 ? Text.Length : _headers.Keys.First();

    /// <summary>Where the last of a table's own values ends, those under other headers left out; without any, where its header ends.</summary>
    public int LastEnd(TableNode table)
    {
        var end = FormOf(table) is TableForm.Header or TableForm.Implied ? End(table) : 0;
        foreach (var entry in table.Entries.Where(entry => !IsHeaded(entry.Value)))
        {
            end = Math.Max(end, LastEnd(entry));
        }

        return end;
    }

    /// <summary>Where an entry's value ends; of dotted keys the last one.</summary>
    public int LastEnd(Entry entry) => entry.Value is TableNode table && FormOf(table) == TableForm.Dotted ? LastEnd(table) : End(entry.Value);

    /// <summary>Where a header's lines begin: with the remarks right above it.</summary>
    public int BlockStart(TableNode header) => BlockStartAt(header.Span.Offset);

    /// <summary>The same for the line of a place.</summary>
    public int BlockStartAt(int offset)
    {
        var start = _places.LineStart(offset);
        while (start > 0 && Line(start - 1).TrimStart().StartsWith('#'))
        {
            start = _places.LineStart(start - 1);
        }

        return start;
    }

    /// <summary>Where a header's lines end, before the line break: behind its last value and the remarks that hang on it, unless those belong to the header below.</summary>
    public int BlockEnd(TableNode header)
    {
        var end = _places.LineEnd(LastEnd(header));
        var hanging = end;
        while (Below(hanging) is { } below && Line(below).TrimStart().StartsWith('#'))
        {
            hanging = _places.LineEnd(below);
        }

        return Below(hanging) is { } next && Line(next).TrimStart().StartsWith('[') ? end : hanging;
    }

    /// <summary>The start of the line below a place; null on the last line.</summary>
    public int? Below(int offset)
    {
        var end = _places.LineEnd(offset);
        return end >= Text.Length ? null : end + (Text[end] == '\r' ? 2 : 1);
    }

    /// <summary>The line of a place, without its break.</summary>
    public string Line(int offset) => Text[_places.LineStart(offset).._places.LineEnd(offset)];

    /// <summary>The blanks at the start of a place's line.</summary>
    public string Indent(int offset)
    {
        var line = Line(offset);
        return line[..(line.Length - line.TrimStart().Length)];
    }

    /// <summary>The line break after a place; on the last line the file's first one.</summary>
    public string Break(int offset)
    {
        var end = _places.LineEnd(offset);
        end = end < Text.Length ? end : _places.LineEnd(0);
        return end < Text.Length && Text[end] == '\r' ? "\r\n" : "\n";
    }

    /// <summary>Where a node ends.</summary>
    public static int End(Node node) => node.Span.Offset + node.Span.Length;

    private void Walk(TableNode table)
    {
        foreach (var entry in table.Entries)
        {
            _owners[entry.Value] = (table, entry);
            foreach (var node in entry.Value is ListNode list ? list.Items : [entry.Value])
            {
                _owners.TryAdd(node, (table, entry));
                WalkValue(node);
            }
        }
    }

    private void WalkValue(Node node)
    {
        switch (node)
        {
            case TableNode table:
                if (!table.Inline && table.Span.Length > 0 && Text[table.Span.Offset] == '[')
                {
                    // What is further in comes later: a header belongs to the innermost of the tables that it names.
                    _headers[table.Span.Offset] = table;
                }

                Walk(table);
                break;
            case ListNode list:
                foreach (var item in list.Items)
                {
                    WalkValue(item);
                }

                break;
        }
    }
}
