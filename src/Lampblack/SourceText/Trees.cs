using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.SourceText;

/// <summary>Goes through what a file says, without places, blanks and remarks.</summary>
internal static class Trees
{
    /// <summary>All tables of a file, each before those within it, in the order of the file.</summary>
    public static IEnumerable<TableNode> Tables(Node node) => node switch
    {
        TableNode table => table.Entries.SelectMany(entry => Tables(entry.Value)).Prepend(table),
        ListNode list => list.Items.SelectMany(Tables),
        _ => [],
    };

    /// <summary>Whether two values say the same in the same order, wherever they stand. What could not be read is like nothing.</summary>
    /// <param name="first">A value.</param>
    /// <param name="second">Another.</param>
    /// <param name="leftOut">Whether a key of a table of the first, and of the table that answers to it, is not looked at; null where all are.</param>
    public static bool AreAlike(Node first, Node second, Func<TableNode, string, bool>? leftOut = null) => (first, second) switch
    {
        (TextNode a, TextNode b) => string.Equals(a.Value, b.Value, StringComparison.Ordinal),
        (NumberNode a, NumberNode b) => string.Equals(a.Written, b.Written, StringComparison.Ordinal),
        (FlagNode a, FlagNode b) => a.Value == b.Value,
        (TimeNode a, TimeNode b) => string.Equals(a.Written, b.Written, StringComparison.Ordinal),
        (ListNode a, ListNode b) => a.Items.Length == b.Items.Length && a.Items.Zip(b.Items).All(pair => AreAlike(pair.First, pair.Second, leftOut)),
        (TableNode a, TableNode b) => a.Inline == b.Inline && AreAlike(Kept(a, a, leftOut), Kept(b, a, leftOut), leftOut),
        _ => false,
    };

    private static bool AreAlike(IReadOnlyList<Entry> first, IReadOnlyList<Entry> second, Func<TableNode, string, bool>? leftOut) => first.Count == second.Count
        && first.Zip(second).All(pair => string.Equals(pair.First.Key, pair.Second.Key, StringComparison.Ordinal) && AreAlike(pair.First.Value, pair.Second.Value, leftOut));

    private static IReadOnlyList<Entry> Kept(TableNode table, TableNode asked, Func<TableNode, string, bool>? leftOut) =>
        leftOut is null ? table.Entries : [.. table.Entries.Where(entry => !leftOut(asked, entry.Key))];
}
