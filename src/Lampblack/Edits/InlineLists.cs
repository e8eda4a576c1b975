using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Adds to and takes from lists of tables between brackets.</summary>
internal static class InlineLists
{
    /// <summary>Adds an item behind the last one: on a line of its own where that has one.</summary>
    public static Splice Append(DeskText desk, ListNode list, string item)
    {
        if (list.Items.IsEmpty)
        {
            return new(list.Span.Offset + 1, 0, item);
        }

        var last = list.Items[^1];
        var (start, end) = (last.Span.Offset, TableLayout.End(last));
        var (text, layout) = (desk.Text, desk.Layout);
        if (!string.IsNullOrWhiteSpace(text[desk.Places.LineStart(start)..start]))
        {
            return new(end, 0, $", {item}");
        }

        var lineBreak = layout.Break(end);
        var lineEnd = desk.Places.LineEnd(end);
        var rest = text[end..lineEnd].Trim();
        return rest.Length == 0 || rest[0] == ',' && (rest.Length == 1 || rest[1..].TrimStart().StartsWith('#'))
            ? rest.Length == 0 ? new(end, 0, $",{lineBreak}{layout.Indent(start)}{item}") : new(lineEnd, 0, $"{lineBreak}{layout.Indent(start)}{item},")
            : new(end, 0, $",{lineBreak}{layout.Indent(start)}{item}");
    }

    /// <summary>Takes items out, each with its lines and the remarks right above and behind it where nothing else is on them; null where that can't be done cleanly.</summary>
    /// <param name="desk">The file.</param>
    /// <param name="list">The list.</param>
    /// <param name="gone">Numbers of the items, from 0.</param>
    public static IReadOnlyList<Splice>? Remove(DeskText desk, ListNode list, IReadOnlySet<int> gone)
    {
        if (gone.Count == list.Items.Length)
        {
            return [new(list.Span.Offset + 1, list.Span.Length - 2, string.Empty)];
        }

        var splices = new List<Splice>();
        var firstKept = Enumerable.Range(0, list.Items.Length).First(number => !gone.Contains(number));
        foreach (var number in gone.Order())
        {
            var (start, end) = (list.Items[number].Span.Offset, TableLayout.End(list.Items[number]));
            var (from, to) = number < firstKept ? (start, list.Items[number + 1].Span.Offset) : (TableLayout.End(list.Items[number - 1]), end);
            if (WholeLines(desk, start, end) is { } lines)
            {
                splices.Add(lines);
            }
            else if (!IsPlain(desk, from, start) || !IsPlain(desk, end, to))
            {
                return null;
            }
            else
            {
                splices.Add(new(from, to - from, string.Empty));
            }
        }

        // Where an item on lines of its own goes with one that shares its line with others, both claim what lies between them: then neighbours go together.
        return Overlap(splices) ? RemoveTogether(desk, list, gone) : splices;
    }

    private static List<Splice>? RemoveTogether(DeskText desk, ListNode list, IReadOnlySet<int> gone)
    {
        var splices = new List<Splice>();
        for (var first = 0; first < list.Items.Length; first++)
        {
            if (!gone.Contains(first))
            {
                continue;
            }

            var last = first;
            while (gone.Contains(last + 1))
            {
                last++;
            }

            var (start, end) = (list.Items[first].Span.Offset, TableLayout.End(list.Items[last]));
            if (!Enumerable.Range(first, last - first).All(number => IsPlain(desk, TableLayout.End(list.Items[number]), list.Items[number + 1].Span.Offset)))
            {
                return null;
            }

            // Before the first of a line that goes on with others, what lies behind goes too; else what lies before.
            var isForward = first == 0 || (StartsLine(desk, start) && last + 1 < list.Items.Length && list.Items[last + 1].Span.Offset < desk.Places.LineEnd(end));
            var (from, to) = isForward ? (start, list.Items[last + 1].Span.Offset) : (TableLayout.End(list.Items[first - 1]), end);
            if (WholeLines(desk, start, end) is { } lines)
            {
                splices.Add(lines);
            }
            else if (IsPlain(desk, from, start) && IsPlain(desk, end, to))
            {
                splices.Add(new(from, to - from, string.Empty));
            }
            else
            {
                return null;
            }

            first = last;
        }

        return Overlap(splices) ? null : splices;
    }

    private static bool Overlap(List<Splice> splices) => splices.Zip(splices.Skip(1)).Any(pair => pair.First.Offset + pair.First.Length > pair.Second.Offset);

    /// <summary>Whether there is no remark between two places.</summary>
    private static bool IsPlain(DeskText desk, int from, int to) => from >= to || !desk.Text[from..to].Contains('#', StringComparison.Ordinal);

    private static bool StartsLine(DeskText desk, int start) => string.IsNullOrWhiteSpace(desk.Text[desk.Places.LineStart(start)..start]);

    private static Splice? WholeLines(DeskText desk, int start, int end)
    {
        var rest = desk.Text[end..desk.Places.LineEnd(end)].Trim();
        rest = rest.StartsWith(',') ? rest[1..].TrimStart() : rest;
        var from = desk.Layout.BlockStartAt(start);
        return StartsLine(desk, start) && (rest.Length == 0 || rest[0] == '#') && desk.Layout.Below(end) is { } below
            ? new(from, below - from, string.Empty)
            : null;
    }
}
