using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.SourceText;

/// <summary>How a table came to be, which decides who may still add to it.</summary>
internal enum TableOrigin
{
    /// <summary>Named on the way to another header: <c>a</c> in <c>[a.b]</c>. May get its own header later.</summary>
    Implied,

    /// <summary>By its own header.</summary>
    Header,

    /// <summary>By a dotted key: <c>a</c> in <c>a.b = 1</c>. Other dotted keys may add to it (only those under the same header can reach it), and headers below it.</summary>
    Dotted,

    /// <summary>Between braces: complete.</summary>
    Inline,
}

/// <summary>A table while the file is still being read.</summary>
internal sealed class TableDraft(TableOrigin origin, int depth, SourceSpan span)
{
    private readonly List<(string Key, SourceSpan KeySpan, object Value)> _entries = [];
    private readonly Dictionary<string, int> _byKey = new(StringComparer.Ordinal);

    public TableOrigin Origin { get; set; } = origin;

    /// <summary>How many tables and lists it stands in.</summary>
    public int Depth { get; } = depth;

    public SourceSpan Span { get; set; } = span;

    /// <summary>A <see cref="Node"/>, a <see cref="TableDraft"/> or a <see cref="TablesDraft"/>; null where the key is new.</summary>
    public object? Find(string key) => _byKey.TryGetValue(key, out var at) ? _entries[at].Value : null;

    public SourceSpan KeySpan(string key) => _entries[_byKey[key]].KeySpan;

    public void Add(string key, SourceSpan keySpan, object value)
    {
        _byKey.Add(key, _entries.Count);
        _entries.Add((key, keySpan, value));
    }

    public TableNode Finish() => new(
        [.. _entries.Select(entry => new Entry(entry.Key, entry.KeySpan, Finish(entry.Value)))],
        Origin == TableOrigin.Inline,
        Span);

    private static Node Finish(object value) => value switch
    {
        TableDraft table => table.Finish(),
        TablesDraft tables => new ListNode([.. tables.Tables.Select(table => (Node)table.Finish())], tables.Span),
        _ => (Node)value,
    };
}

/// <summary>The tables under one <c>[[name]]</c> while the file is still being read.</summary>
internal sealed class TablesDraft(SourceSpan span)
{
    public List<TableDraft> Tables { get; } = [];

    public SourceSpan Span { get; } = span;
}
