using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.SourceText;

/// <summary>Whether two stretches of files say the same, wherever they stand.</summary>
internal static class TreeAlike
{
    /// <summary>Whether two values say the same, in the same order. What could not be read is like nothing.</summary>
    public static bool Are(Node first, Node second) => (first, second) switch
    {
        (TextNode a, TextNode b) => string.Equals(a.Value, b.Value, StringComparison.Ordinal),
        (NumberNode a, NumberNode b) => string.Equals(a.Written, b.Written, StringComparison.Ordinal),
        (FlagNode a, FlagNode b) => a.Value == b.Value,
        (TimeNode a, TimeNode b) => string.Equals(a.Written, b.Written, StringComparison.Ordinal),
        (ListNode a, ListNode b) => a.Items.Length == b.Items.Length && a.Items.Zip(b.Items).All(pair => Are(pair.First, pair.Second)),
        (TableNode a, TableNode b) => Are(a, b, []),
        _ => false,
    };

    /// <summary>Whether two tables say the same, but for some keys.</summary>
    /// <param name="first">A table.</param>
    /// <param name="second">Another.</param>
    /// <param name="leftOut">Keys of these tables that are not looked at.</param>
    public static bool Are(TableNode first, TableNode second, ImmutableArray<string> leftOut)
    {
        var (a, b) = (Kept(first, leftOut), Kept(second, leftOut));
        return first.Inline == second.Inline && a.Length == b.Length
            && a.Zip(b).All(pair => string.Equals(pair.First.Key, pair.Second.Key, StringComparison.Ordinal) && Are(pair.First.Value, pair.Second.Value));
    }

    private static ImmutableArray<Entry> Kept(TableNode table, ImmutableArray<string> leftOut) =>
        leftOut.IsEmpty ? table.Entries : [.. table.Entries.Where(entry => !leftOut.Contains(entry.Key))];
}
