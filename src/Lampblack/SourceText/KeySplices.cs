using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.SourceText;

/// <summary>Makes the splices that set or take away one key of a table.</summary>
/// <param name="places">The file's text.</param>
internal sealed class KeySplices(Places places)
{
    private string Text => places.Text;

    /// <summary>Sets a key to a list: where it is there, item by item, so that remarks between them stay; else right after another key.</summary>
    /// <param name="table">The table.</param>
    /// <param name="key">The key.</param>
    /// <param name="items">The list's items as they are to be written.</param>
    /// <param name="after">A key that the table has.</param>
    public ImmutableArray<Splice> Set(TableNode table, string key, ImmutableArray<string> items, string after)
    {
        var list = $"[{string.Join(", ", items)}]";
        switch (table.Find(key))
        {
            case ListNode there when there.Items.Length == items.Length:
                return [.. there.Items.Select((item, index) => Splice.At(item.Span, items[index]))];
            case { } there:
                return [Splice.At(there.Span, list)];
        }

        var before = table.FindEntry(after)!;
        var end = End(before.Value.Span);
        if (table.Inline)
        {
            return [new(end, 0, $", {key} = {list}")];
        }

        var line = places.LineStart(before.KeySpan.Offset);
        var indent = Text[line..before.KeySpan.Offset];
        return [new(places.LineEnd(end), 0, $"{LineBreak(end)}{(string.IsNullOrWhiteSpace(indent) ? indent : string.Empty)}{key} = {list}")];
    }

    /// <summary>Takes a key away; null where it can't be done without touching anything else.</summary>
    /// <param name="table">The table.</param>
    /// <param name="key">A key that it has.</param>
    public Splice? Remove(TableNode table, string key)
    {
        var entry = table.FindEntry(key)!;
        var (start, end) = (entry.KeySpan.Offset, End(entry.Value.Span));
        if (Text[start..end].Contains('#', StringComparison.Ordinal))
        {
            return null;
        }

        return table.Inline ? FromBraces(start, end) : FromLine(start, end);
    }

    private static int End(SourceSpan span) => span.Offset + span.Length;

    private Splice FromLine(int start, int end)
    {
        var (lineStart, lineEnd) = (places.LineStart(start), places.LineEnd(end));
        if (Text[end..lineEnd].Trim() is { Length: > 0 })
        {
            // A remark behind it stays, on its own line.
            var remark = end;
            while (char.IsWhiteSpace(Text[remark]))
            {
                remark++;
            }

            return new(start, remark - start, string.Empty);
        }

        var next = lineEnd;
        if (next < Text.Length)
        {
            next += Text[next] == '\r' ? 2 : 1;
        }
        else if (lineStart > 0)
        {
            // The last line has no break of its own: that of the line before goes.
            lineStart -= lineStart > 1 && Text[lineStart - 2] == '\r' ? 2 : 1;
        }

        return new(lineStart, next - lineStart, string.Empty);
    }

    private Splice? FromBraces(int start, int end)
    {
        var before = start;
        while (before > 0 && char.IsWhiteSpace(Text[before - 1]))
        {
            before--;
        }

        var after = end;
        while (after < Text.Length && char.IsWhiteSpace(Text[after]))
        {
            after++;
        }

        if (before > 0 && Text[before - 1] == ',' && !IsRemark(before - 1, start))
        {
            return new(before - 1, end - before + 1, string.Empty);
        }

        if (after < Text.Length && Text[after] == ',')
        {
            after++;
            while (after < Text.Length && Text[after] is ' ' or '\t')
            {
                after++;
            }

            return new(start, after - start, string.Empty);
        }

        return null;
    }

    /// <summary>Whether there may be a remark before this comma on its line, so that it is perhaps none. Before a key on the same line there can't.</summary>
    private bool IsRemark(int offset, int key) => places.Line(offset) != places.Line(key) && Text[places.LineStart(offset)..offset].Contains('#', StringComparison.Ordinal);

    /// <summary>The line break after a place; on the last line the file's first one.</summary>
    private string LineBreak(int offset)
    {
        var end = places.LineEnd(offset);
        if (end == Text.Length)
        {
            var first = places.LineEnd(0);
            return first < Text.Length && Text[first] == '\r' ? "\r\n" : "\n";
        }

        return Text[end] == '\r' ? "\r\n" : "\n";
    }
}
