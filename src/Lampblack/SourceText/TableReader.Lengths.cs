using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using Lampblack.Findings;
using Lampblack.Quantities;

namespace Lampblack.SourceText;

/// <content>Lengths and places: numbers in mm, or texts with a unit.</content>
public sealed partial class TableReader
{
    private const string LengthHint = "Write a number of mm such as 12.5, or a text with a unit such as \"6,35 mm\" or \"1/4 in\".";

    /// <summary>A length in mm.</summary>
    /// <param name="key">The key.</param>
    /// <param name="minMm">The least that is allowed, in mm.</param>
    /// <param name="maxMm">The most that is allowed, in mm.</param>
    public double? LengthMm(string key, double minMm, double maxMm) =>
        Ask(key) is { } node ? LengthOf(key, node, minMm, maxMm) : null;

    /// <summary>A length in mm that must be there.</summary>
    /// <param name="key">The key.</param>
    /// <param name="minMm">The least that is allowed, in mm.</param>
    /// <param name="maxMm">The most that is allowed, in mm.</param>
    /// <param name="example">A value for the hint, as it would stand in the file.</param>
    public double? RequiredLengthMm(string key, double minMm, double maxMm, string example = "12.5")
    {
        if (!Has(key))
        {
            Missing(key, example);
            return null;
        }

        return LengthMm(key, minMm, maxMm);
    }

    /// <summary>A list of lengths in mm; where one is enough, it may stand without brackets.</summary>
    /// <param name="key">The key.</param>
    /// <param name="minCount">How many there must be at least.</param>
    /// <param name="maxCount">How many there may be at most.</param>
    /// <param name="minMm">The least that each may be, in mm.</param>
    /// <param name="maxMm">The most that each may be, in mm.</param>
    /// <returns>All of them, or null if any can't be used.</returns>
    public ImmutableArray<double>? LengthsMm(string key, int minCount, int maxCount, double minMm, double maxMm) => Ask(key) switch
    {
        null or BrokenNode => null,
        (NumberNode or TextNode) and var single when minCount <= 1 => LengthOf(key, single, minMm, maxMm) is { } mm ? [mm] : null,
        ListNode list => LengthsOf(key, list, minCount, maxCount, minMm, maxMm),
        var other => NoList(key, other, "a list of lengths", minCount == 2 ? "[180, 110]" : "[10, 20, 30]"),
    };

    /// <summary>A place, written as a list of two lengths.</summary>
    /// <param name="key">The key.</param>
    /// <param name="minMm">The least that each may be, in mm.</param>
    /// <param name="maxMm">The most that each may be, in mm.</param>
    /// <returns>x to the right and y up, in mm; or null.</returns>
    public (double XMm, double YMm)? PlaceMm(string key, double minMm, double maxMm) =>
        Ask(key) is { } node ? PlaceOf(key, node, minMm, maxMm) : null;

    /// <summary>A list of places, each a list of two lengths.</summary>
    /// <param name="key">The key.</param>
    /// <param name="minCount">How many there must be at least.</param>
    /// <param name="maxCount">How many there may be at most.</param>
    /// <param name="minMm">The least that each length may be, in mm.</param>
    /// <param name="maxMm">The most that each length may be, in mm.</param>
    /// <returns>The places, x to the right and y up, in mm; faulty ones are left out. Empty where the key isn't there or the count is wrong.</returns>
    public ImmutableArray<(double XMm, double YMm)> PlacesMm(string key, int minCount, int maxCount, double minMm, double maxMm)
    {
        switch (Ask(key))
        {
            case null or BrokenNode:
                return [];
            case ListNode list:
                if (!CountFits(key, list, minCount, maxCount, "places"))
                {
                    return [];
                }

                var places = ImmutableArray.CreateBuilder<(double, double)>(list.Items.Length);
                foreach (var item in list.Items)
                {
                    if (PlaceOf(key, item, minMm, maxMm) is { } place)
                    {
                        places.Add(place);
                    }
                }

                return places.ToImmutable();
            case var other:
                NoList(key, other, "a list of places", "[[10, 20], [30, 20]]");
                return [];
        }
    }

    private double? LengthOf(string key, Node node, double minMm, double maxMm)
    {
        switch (node)
        {
            case BrokenNode:
                return null;
            case NumberNode number:
                return InRange(key, number.Value, minMm, maxMm, number.Written, " mm", number.Span) ? number.Value : null;
            case TextNode text:
                if (!LengthText.TryRead(text.Value, out var mm, out var problem))
                {
                    findings.Add(Finding.Stop("length-unreadable", $"{Shown.Code(key)} = {Shown.Quoted(text.Value)} {problem}", LengthHint, text.Span, Item));
                    return null;
                }

                return InRange(key, mm, minMm, maxMm, $"{Shown.Short(text.Value)} ({Shown.Mm(mm)})", " mm", text.Span) ? mm : null;
            default:
                WrongKind(key, node, "a length", LengthHint);
                return null;
        }
    }

    private ImmutableArray<double>? LengthsOf(string key, ListNode list, int minCount, int maxCount, double minMm, double maxMm)
    {
        if (!CountFits(key, list, minCount, maxCount, "lengths"))
        {
            return null;
        }

        var lengths = new List<double>();
        foreach (var item in list.Items)
        {
            if (LengthOf(key, item, minMm, maxMm) is { } mm)
            {
                lengths.Add(mm);
            }
        }

        return lengths.Count == list.Items.Length ? [.. lengths] : null;
    }

    private (double XMm, double YMm)? PlaceOf(string key, Node node, double minMm, double maxMm)
    {
        switch (node)
        {
            case BrokenNode:
                return null;
            case ListNode list:
                return LengthsOf(key, list, 2, 2, minMm, maxMm) is { } xy ? (xy[0], xy[1]) : null;
            default:
                NoList(key, node, "a place [x, y]", "[30, 40]");
                return null;
        }
    }

    private ImmutableArray<double>? NoList(string key, Node found, string wanted, string example)
    {
        WrongKind(key, found, wanted, $"Write a list between brackets, such as `{key} = {example}`.");
        return null;
    }

    private bool CountFits(string key, ListNode list, int minCount, int maxCount, string things)
    {
        var count = list.Items.Length;
        if (count >= minCount && count <= maxCount)
        {
            return true;
        }

        var allowed = minCount == maxCount ? Count(minCount)
            : maxCount == int.MaxValue ? $"at least {Count(minCount)}"
            : $"{Count(minCount)} to {Count(maxCount)}";
        findings.Add(Finding.Stop(
            "value-range",
            $"{Shown.Code(key)} must have {allowed} {things}, found {Count(count)}",
            count < minCount ? "Add what is missing." : "Delete what is too much; a comma parts two values, the decimals stand behind a point.",
            list.Span,
            Item));
        return false;
    }

    private static string Count(int count) => count.ToString(CultureInfo.InvariantCulture);
}
