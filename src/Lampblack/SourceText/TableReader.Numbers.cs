using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.SourceText;

/// <content>Keys that the maker chooses, and lists of numbers.</content>
public sealed partial class TableReader
{
    /// <summary>All keys of the table, in the order of the file; for tables whose keys are names that the maker chooses.</summary>
    public ImmutableArray<string> Keys => [.. table.Entries.Select(entry => entry.Key)];

    /// <summary>A list of numbers.</summary>
    /// <param name="key">The key.</param>
    /// <param name="minCount">How many there must be at least.</param>
    /// <param name="maxCount">How many there may be at most.</param>
    /// <param name="min">The least that each may be.</param>
    /// <param name="max">The most that each may be.</param>
    /// <param name="example">A value for the hint.</param>
    /// <returns>All of them, or null if any can't be used.</returns>
    public ImmutableArray<double>? Numbers(string key, int minCount, int maxCount, double min, double max, string example = "[0, 38, 100, 0]")
    {
        switch (Ask(key))
        {
            case null or BrokenNode:
                return null;
            case ListNode list:
                return CountFits(key, list, minCount, maxCount, "numbers") ? NumbersOf(key, list, min, max) : null;
            case var other:
                NoList(key, other, "a list of numbers", example);
                return null;
        }
    }

    /// <summary>A list of pairs of numbers, such as <c>[[0, -120], [10, 120]]</c>.</summary>
    /// <param name="key">The key.</param>
    /// <param name="minCount">How many pairs there must be at least.</param>
    /// <param name="maxCount">How many there may be at most.</param>
    /// <param name="min">The least that each number may be.</param>
    /// <param name="max">The most that each number may be.</param>
    /// <returns>All of them; empty if the key isn't there or any can't be used.</returns>
    public ImmutableArray<(double First, double Second)> NumberPairs(string key, int minCount, int maxCount, double min, double max)
    {
        switch (Ask(key))
        {
            case null or BrokenNode:
                return [];
            case ListNode list:
                return CountFits(key, list, minCount, maxCount, "pairs") ? PairsOf(key, list, min, max) : [];
            case var other:
                NoList(key, other, "a list of pairs", "[[0, -120], [10, 120]]");
                return [];
        }
    }

    private ImmutableArray<(double First, double Second)> PairsOf(string key, ListNode list, double min, double max)
    {
        var pairs = new List<(double, double)>();
        foreach (var item in list.Items)
        {
            if (item is not ListNode pair)
            {
                NoList(key, item, "a pair of numbers", "[10, 120]");
            }
            else if (CountFits(key, pair, 2, 2, "numbers") && NumbersOf(key, pair, min, max) is { } numbers)
            {
                pairs.Add((numbers[0], numbers[1]));
            }
        }

        return pairs.Count == list.Items.Length ? [.. pairs] : [];
    }

    private ImmutableArray<double>? NumbersOf(string key, ListNode list, double min, double max)
    {
        var numbers = new List<double>();
        foreach (var item in list.Items)
        {
            if (item is not NumberNode number)
            {
                if (item is not BrokenNode)
                {
                    WrongKind(key, item, "a number", "Write numbers without quotes.");
                }
            }
            else if (InRange(key, number.Value, min, max, number.Written, "", number.Span))
            {
                numbers.Add(number.Value);
            }
        }

        return numbers.Count == list.Items.Length ? [.. numbers] : null;
    }
}
