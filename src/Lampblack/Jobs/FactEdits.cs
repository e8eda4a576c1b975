using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Edits;

namespace Lampblack.Jobs;

/// <summary>Turns what a maker writes on a tag into an edit. Whether the value will do is for the desk's reader to say.</summary>
public static class FactEdits
{
    /// <summary>The edit that gives a fact another value; an empty one takes the key away, so that the usual holds.</summary>
    /// <param name="tableAddress">Panel id, '/', item id; empty for the desk's own facts.</param>
    /// <param name="fact">The fact.</param>
    /// <param name="typed">What was written.</param>
    public static DeskEdit Of(string tableAddress, ItemFact fact, string typed)
    {
        ArgumentNullException.ThrowIfNull(fact);
        ArgumentNullException.ThrowIfNull(typed);
        var words = typed.Trim();
        if (fact.Key is "legend" or "text" && fact.Kind == FactKind.Words)
        {
            return new SetWords(tableAddress, words.Length == 0 ? [] : [.. typed.ReplaceLineEndings("\n").Split('\n').Select(line => line.Trim())]);
        }

        // One of several words, or the number of an output.
        var kind = fact.Key == LightFacts.LightKey && int.TryParse(words, NumberStyles.None, CultureInfo.InvariantCulture, out _) ? FactKind.Number : fact.Kind;
        return new SetKey(tableAddress, fact.Key, words.Length == 0 ? null : Value(kind, words));
    }

    private static KeyValue Value(FactKind kind, string words) => kind switch
    {
        FactKind.WordList => new KeyList([.. words.Split(',').Select(word => (KeyValue)new KeyText(word.Trim()))]),
        FactKind.Length => Length(words),
        FactKind.TwoLengths when words.Contains(" x ", StringComparison.Ordinal) => Value(kind, words.Replace(" x ", ", ", StringComparison.Ordinal)),
        FactKind.TwoLengths when words.Split([',', ';', ' '], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries) is { Length: > 1 } both && !words.Any(char.IsLetter) => new KeyList([.. both.Select(Length)]),
        FactKind.TwoLengths when words.Contains(',', StringComparison.Ordinal) => new KeyList([.. words.Split(',').Select(Length)]),
        FactKind.TwoLengths => Length(words),
        FactKind.Number => double.TryParse(words, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? new KeyNumber(number) : new KeyText(words),
        FactKind.Ranges => new KeyList([.. words.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(Range)]),
        FactKind.Flag => new KeyFlag(words.Equals("yes", StringComparison.OrdinalIgnoreCase)),
        _ => new KeyText(words),
    };

    /// <summary>One stretch: <c>8 to 10 amber</c>; what is not understood is left out, so that the desk's reader says what is missing.</summary>
    private static KeyTable Range(string words)
    {
        var parts = words.Split(' ', StringSplitOptions.RemoveEmptyEntries).Where(word => word != "to").ToList();
        var keys = ImmutableArray.CreateBuilder<(string Key, KeyValue Value)>();
        foreach (var (key, word) in new[] { "from", "to" }.Zip(parts))
        {
            keys.Add((key, Value(FactKind.Number, word)));
        }

        if (parts.Count > 2)
        {
            keys.Add(("ink", new KeyText(string.Join('-', parts.Skip(2)))));
        }

        return new(keys.ToImmutable());
    }

    /// <summary>A plain number is mm; anything else is a text with a unit, which the desk's reader understands or not.</summary>
    private static KeyValue Length(string words) =>
        double.TryParse(words.Trim(), NumberStyles.Float, CultureInfo.InvariantCulture, out var mm) ? new KeyNumber(mm) : new KeyText(words.Trim());
}
