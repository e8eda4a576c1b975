using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Makes the splices that put a key into a table or take one away.</summary>
/// <param name="desk">The file.</param>
internal sealed class KeyWriter(DeskText desk)
{
    private readonly TableLayout _layout = desk.Layout;

    private string Text => desk.Text;

    /// <summary>Puts a key that a table doesn't have into it.</summary>
    /// <param name="table">The table.</param>
    /// <param name="key">The key; written with quotes where it needs them.</param>
    /// <param name="value">Its value as it is to be written.</param>
    /// <param name="after">Keys that it is to follow, the best first; behind all others where there is none of them.</param>
    public Splice Insert(TableNode table, string key, string value, params IReadOnlyList<string> after)
    {
        var line = $"{TomlWriting.Key(key)} = {value}";
        var before = after.Select(table.FindEntry).FirstOrDefault(entry => entry is not null && !_layout.IsHeaded(entry.Value));
        switch (_layout.FormOf(table))
        {
            case TableForm.Inline:
                return table.Entries.IsEmpty ? Splice.At(table.Span, $"{{ {line} }}")
                    : new(before is null ? table.Entries.Max(_layout.LastEnd) : _layout.LastEnd(before), 0, $", {line}");
            case TableForm.Dotted:
                var first = table.Entries[0].KeySpan.Offset;
                var start = KeyStart(first);
                line = Text[start..first] + line;
                var end = _layout.LastEnd(table);
                return IsInBraces(table) ? new(end, 0, $", {line}") : LineBelow(end, _layout.Indent(start), line);
            case TableForm.Implied:
                // Its header was left out so far; it may follow on tables that it holds, but looks better before them.
                var inner = _layout.HeadersIn(table)[0];
                var name = _layout.OwnerOf(table)!.Value.Entry.KeySpan;
                var at = _layout.BlockStart(inner);
                var (lineBreak, indent) = (_layout.Break(inner.Span.Offset), _layout.Indent(inner.Span.Offset));
                return new(at, 0, $"{indent}[{Text[inner.Span.Offset..(name.Offset + name.Length)].TrimStart('[')}]{lineBreak}{indent}{line}{lineBreak}");
            default:
                var place = before is null ? _layout.LastEnd(table) : _layout.LastEnd(before);
                return LineBelow(place, IndentOf(table), line);
        }
    }

    /// <summary>Puts a key before all others of an item: its id.</summary>
    public Splice InsertFirst(TableNode table, string key, string value)
    {
        var line = $"{TomlWriting.Key(key)} = {value}";
        return table.Inline
            ? table.Entries.IsEmpty ? Splice.At(table.Span, $"{{ {line} }}") : new(KeyStart(table.Entries[0].KeySpan.Offset), 0, $"{line}, ")
            : LineBelow(TableLayout.End(table), IndentOf(table), line);
    }

    /// <summary>Takes a key away, with everything under it; null where it can't be done without touching anything else.</summary>
    /// <param name="table">The table.</param>
    /// <param name="entry">One of its keys.</param>
    public IReadOnlyList<Splice>? Remove(TableNode table, Entry entry)
    {
        if (_layout.IsHeaded(entry.Value))
        {
            return new TableRemoval(desk).Splices([entry.Value]);
        }

        if (entry.Value is TableNode inner && _layout.FormOf(inner) == TableForm.Dotted)
        {
            var all = inner.Entries.Select(each => Remove(inner, each)).ToList();
            return all.Contains(null) ? null : [.. all.SelectMany(each => each!)];
        }

        var (start, end) = (KeyStart(entry.KeySpan.Offset), TableLayout.End(entry.Value));
        return Text[start..end].Contains('#', StringComparison.Ordinal) && HasRemark(entry.Value) ? null
            : IsInBraces(table) ? Removal.FromBraces(desk, start, end) is { } splice ? [splice] : null
            : [Removal.FromLines(desk, start, end)];
    }

    /// <summary>Where a dotted key starts that has a part at a place.</summary>
    public int KeyStart(int part)
    {
        var start = part;
        while (true)
        {
            var at = Back(start);
            if (at == 0 || Text[at - 1] != '.')
            {
                return start;
            }

            at = Back(at - 1);
            if (at > 0 && Text[at - 1] is '"' or '\'')
            {
                var quote = Text[at - 1];
                at -= 2;
                while (at > 0 && (Text[at] != quote || (quote == '"' && Text[at - 1] == '\\')))
                {
                    at--;
                }
            }
            else
            {
                while (at > 0 && (char.IsLetterOrDigit(Text[at - 1]) || Text[at - 1] is '-' or '_'))
                {
                    at--;
                }
            }

            start = at;
        }

        int Back(int from)
        {
            while (from > 0 && Text[from - 1] is ' ' or '\t')
            {
                from--;
            }

            return from;
        }
    }

    /// <summary>Whether a value holds a remark: a sign between its parts, not one in a text.</summary>
    private bool HasRemark(Node value)
    {
        var texts = TextsIn(value).ToList();
        return Enumerable.Range(value.Span.Offset, value.Span.Length).Any(at => Text[at] == '#' && !texts.Any(text => at >= text.Span.Offset && at < TableLayout.End(text)));
    }

    private static IEnumerable<TextNode> TextsIn(Node node) => node switch
    {
        TextNode text => [text],
        ListNode list => list.Items.SelectMany(TextsIn),
        TableNode table => table.Entries.SelectMany(entry => TextsIn(entry.Value)),
        _ => [],
    };

    private bool IsInBraces(TableNode table)
    {
        while (_layout.FormOf(table) == TableForm.Dotted && _layout.OwnerOf(table) is { } owner)
        {
            table = owner.Owner;
        }

        return table.Inline;
    }

    private Splice LineBelow(int place, string indent, string line) => new(desk.Places.LineEnd(place), 0, $"{_layout.Break(place)}{indent}{line}");

    private string IndentOf(TableNode table) =>
        table.Entries.FirstOrDefault(entry => !_layout.IsHeaded(entry.Value)) is { } first ? _layout.Indent(first.KeySpan.Offset)
        : _layout.FormOf(table) == TableForm.Top ? string.Empty : _layout.Indent(table.Span.Offset);
}
