using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text.RegularExpressions;
using Lampblack.Quantities;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>Makes the splices that put a value in the place of another one, the way its writer wrote.</summary>
/// <param name="desk">The file.</param>
internal sealed partial class ValueWriter(DeskText desk)
{
    /// <summary>A length, moved; nothing where it stays. Null where it is no length.</summary>
    /// <param name="node">The length as it stands.</param>
    /// <param name="byMm">How far.</param>
    public IReadOnlyList<Splice>? Shift(Node node, double byMm)
    {
        if (LengthOf(node) is not { } mm || !double.IsFinite(byMm))
        {
            return null;
        }

        return byMm is 0 ? [] : Length(node, mm + byMm);
    }

    /// <summary>A place <c>[x, y, ...]</c>, moved; null where it is none.</summary>
    public IReadOnlyList<Splice>? ShiftPlace(Node? node, double dxMm, double dyMm) =>
        node is ListNode { Items: [var x, var y, ..] } && Shift(x, dxMm) is { } right && Shift(y, dyMm) is { } up ? [.. right, .. up] : null;

    /// <summary>A list of places, moved; null where it is none.</summary>
    public IReadOnlyList<Splice>? ShiftPlaces(Node? node, double dxMm, double dyMm)
    {
        var all = (node as ListNode)?.Items.Select(item => ShiftPlace(item, dxMm, dyMm)).ToList();
        return all is null || all.Contains(null) ? null : [.. all.SelectMany(each => each!)];
    }

    /// <summary>A length in mm; null where it is none.</summary>
    public static double? LengthOf(Node node) => node switch
    {
        NumberNode number => number.Value,
        TextNode text when LengthText.TryRead(text.Value, out var mm, out _) => mm,
        _ => null,
    };

    /// <summary>Any value in the place of another one that does not stand under a header; null where it can't be written.</summary>
    /// <param name="node">The value as it stands.</param>
    /// <param name="value">The new value.</param>
    /// <param name="decimals">Most decimals of its numbers.</param>
    public IReadOnlyList<Splice>? Replace(Node node, KeyValue value, int decimals)
    {
        switch (node, value)
        {
            case (TextNode text, KeyText words):
                return text.Value == words.Words ? [] : [Splice.At(node.Span, TomlWriting.Quoted(words.Words, desk.Text[node.Span.Offset]))];
            case (FlagNode flag, KeyFlag wanted) when flag.Value == wanted.Flag:
                return [];
            case (NumberNode number, KeyNumber wanted) when number.Value.Equals(wanted.Value):
                return [];
            case (TextNode text, KeyNumber wanted) when LengthOf(text) is { } mm:
                return mm.Equals(wanted.Value) ? [] : Length(text, wanted.Value);
            case (ListNode list, KeyList wanted) when list.Items.Length > 0 && wanted.Items.Length > 0:
                return Items(list, wanted.Items, decimals);
            default:
                return TomlWriting.Value(value, decimals) is { } written ? [Splice.At(node.Span, written)] : null;
        }
    }

    private IReadOnlyList<Splice>? Length(Node node, double mm)
    {
        var written = node switch
        {
            TextNode text when LengthText.Rewrite(text.Value, mm) is { } length => TomlWriting.Quoted(length, desk.Text[node.Span.Offset]),
            NumberNode number => TomlWriting.Number(mm, TomlWriting.LengthDecimals, Math.Min(TomlWriting.LengthDecimals, Decimals().Match(number.Written).Groups["decimals"].Length)),
            _ => null,
        };
        return written is null ? null : [Splice.At(node.Span, written)];
    }

    /// <summary>A list item by item, so that remarks between them stay; what is too much goes from the end, what is missing comes there.</summary>
    private List<Splice>? Items(ListNode list, ImmutableArray<KeyValue> wanted, int decimals)
    {
        var splices = new List<Splice>();
        var both = Math.Min(list.Items.Length, wanted.Length);
        for (var i = 0; i < both; i++)
        {
            if (Replace(list.Items[i], wanted[i], decimals) is not { } splice)
            {
                return null;
            }

            splices.AddRange(splice);
        }

        var end = TableLayout.End(list.Items[both - 1]);
        foreach (var item in wanted[both..])
        {
            if (TomlWriting.Value(item, decimals) is not { } written)
            {
                return null;
            }

            splices.Add(new(end, 0, $", {written}"));
        }

        if (list.Items.Length > both)
        {
            var last = TableLayout.End(list.Items[^1]);
            if (desk.Text[end..list.Items[both].Span.Offset].Contains('#', StringComparison.Ordinal)
                || list.Items[both..].Zip(list.Items[(both + 1)..]).Any(pair => desk.Text[TableLayout.End(pair.First)..pair.Second.Span.Offset].Contains('#', StringComparison.Ordinal)))
            {
                return null;
            }

            splices.Add(new(end, last - end, string.Empty));
        }

        return splices;
    }

    [GeneratedRegex(@"^[+-]?[0-9_]+\.(?<decimals>[0-9]+)$", RegexOptions.CultureInvariant)]
    private static partial Regex Decimals();
}
