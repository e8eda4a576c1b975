using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.SourceText;

/// <summary>Takes typed values out of a table, reports what is wrong with them, and remembers which keys were asked for.</summary>
/// <remarks>
/// No method throws on what a user wrote. A key that isn't there gives null or an empty list, without a finding unless it is required; a value that can't be used gives the same,
/// with a finding. A value that the file's reader has reported already is not reported again.
/// </remarks>
/// <param name="table">The table.</param>
/// <param name="what">What it is, for messages: <c>panel 2</c>, <c>the controller</c>.</param>
/// <param name="findings">Where findings go.</param>
public sealed partial class TableReader(TableNode table, string what, ICollection<Finding> findings)
{
    /// <summary>Longer texts are slips of the pen: no panel has room for them.</summary>
    private const int LongestText = 1000;

    private readonly List<string> _asked = [];
    private string _header = string.Empty;
    private bool _finished;

    /// <summary>What the table is, for messages.</summary>
    public string What { get; } = what;

    /// <summary>Where the table stands: its header or its braces.</summary>
    public SourceSpan Span => table.Span;

    /// <summary>Id of the item that the table describes, if any; goes into every finding from then on. Readers of tables in it begin with the same.</summary>
    public string? Item { get; set; }

    /// <summary>Whether the key is there, also with a value that can't be read.</summary>
    public bool Has(string key) => Ask(key) is not null;

    /// <summary>The value as it is; null where the key isn't there or its value couldn't be read.</summary>
    public Node? Raw(string key) => Ask(key) is { } node and not BrokenNode ? node : null;

    /// <summary>Where the value of a key stands; without the key, where the table stands.</summary>
    public SourceSpan SpanOf(string key) => table.Find(key)?.Span ?? Span;

    /// <summary>A text, as written between its quotes.</summary>
    /// <param name="key">The key.</param>
    /// <param name="allowEmpty">Whether a text of nothing but blanks will do.</param>
    public string? Text(string key, bool allowEmpty = false) => Ask(key) is { } node ? TextOf(key, node, allowEmpty)?.Value : null;

    /// <summary>A text that must be there and be more than blanks.</summary>
    /// <param name="key">The key.</param>
    /// <param name="example">A value for the hint, as it would stand in the file; by default a text of the key's own name.</param>
    public string? RequiredText(string key, string? example = null)
    {
        if (!Has(key))
        {
            Missing(key, example ?? $"\"{key}\"");
            return null;
        }

        return Text(key);
    }

    /// <summary>The texts of a list, or the one text that stands there without brackets. Faulty ones are left out.</summary>
    /// <param name="key">The key.</param>
    /// <param name="allowEmpty">Whether texts of nothing but blanks will do.</param>
    public ImmutableArray<TextNode> Texts(string key, bool allowEmpty = false)
    {
        switch (Ask(key))
        {
            case null or BrokenNode:
                return [];
            case ListNode list:
                return [.. list.Items.Select(item => TextOf(key, item, allowEmpty)).OfType<TextNode>()];
            case var single:
                return TextOf(key, single, allowEmpty) is { } text ? [text] : [];
        }
    }

    /// <summary>A number.</summary>
    /// <param name="key">The key.</param>
    /// <param name="min">The least that is allowed; negative infinity for no limit.</param>
    /// <param name="max">The most that is allowed; infinity for no limit.</param>
    public double? Number(string key, double min, double max)
    {
        switch (Ask(key))
        {
            case null or BrokenNode:
                return null;
            case NumberNode number:
                return InRange(key, number.Value, min, max, number.Written, "", number.Span) ? number.Value : null;
            case var other:
                WrongKind(key, other, "a number", "Write a number without quotes, such as `" + key + " = 2.5`.");
                return null;
        }
    }

    /// <summary>A whole number; <c>3.0</c> is one too.</summary>
    /// <param name="key">The key.</param>
    /// <param name="min">The least that is allowed.</param>
    /// <param name="max">The most that is allowed.</param>
    public int? Whole(string key, int min, int max)
    {
        switch (Ask(key))
        {
            case null or BrokenNode:
                return null;
            case NumberNode number when Math.Floor(number.Value).Equals(number.Value):
                return InRange(key, number.Value, min, max, number.Written, "", number.Span) ? (int)number.Value : null;
            case var other:
                WrongKind(key, other, "a whole number", "Write a whole number without quotes, such as `" + key + " = 2`.");
                return null;
        }
    }

    /// <summary><c>true</c> or <c>false</c>.</summary>
    public bool? Flag(string key)
    {
        switch (Ask(key))
        {
            case null or BrokenNode:
                return null;
            case FlagNode flag:
                return flag.Value;
            case var other:
                WrongKind(key, other, "true or false", $"Write `{key} = true` or `{key} = false`, without quotes.");
                return null;
        }
    }

    /// <summary>One of several words, with small and capital letters as given.</summary>
    /// <typeparam name="T">What the words stand for.</typeparam>
    /// <param name="key">The key.</param>
    /// <param name="choices">The words and what they stand for.</param>
    public T? Choice<T>(string key, IReadOnlyList<(string Word, T Value)> choices)
        where T : struct
    {
        var node = Ask(key);
        if (node is null or BrokenNode)
        {
            return null;
        }

        if (node is not TextNode text)
        {
            WrongKind(key, node, "a text", $"Write one of {Shown.List(choices.Select(choice => Shown.Quoted(choice.Word)))}.");
            return null;
        }

        foreach (var (word, value) in choices)
        {
            if (string.Equals(word, text.Value, StringComparison.Ordinal))
            {
                return value;
            }
        }

        var nearest = Nearest.To(text.Value, choices.Select(choice => choice.Word));
        findings.Add(Finding.Stop(
            "choice-unknown",
            $"{Shown.Code(key)} must be one of {Shown.List(choices.Select(choice => Shown.Quoted(choice.Word)))}, found {Shown.Quoted(text.Value)}",
            nearest is null ? "Write one of them, with the same small and capital letters." : $"Did you mean {Shown.Quoted(nearest)}?",
            text.Span,
            Item));
        return null;
    }

    /// <summary>Reports every key that nobody asked for. Call it last; a second call does nothing. Tables in this table have readers, and so ends, of their own.</summary>
    /// <param name="belowKey">A list of tables in this one; null for none.</param>
    /// <param name="below">Tables that belong to one of those, and that makers write one level too high.</param>
    public void Finish(string? belowKey = null, IReadOnlyCollection<string>? below = null)
    {
        if (_finished)
        {
            return;
        }

        _finished = true;
        foreach (var entry in table.Entries)
        {
            if (_asked.Contains(entry.Key, StringComparer.Ordinal))
            {
                continue;
            }

            var nearest = Nearest.To(entry.Key, _asked);
            findings.Add(Finding.Stop(
                "key-unknown",
                $"{Shown.Code(entry.Key)} is not a key of {What}",
                nearest is not null ? $"Did you mean {Shown.Code(nearest)}?"
                    : below is not null && belowKey is not null && Nearest.To(entry.Key, below) is { } lower ? $"It belongs to a {belowKey}: write [[{Header(belowKey)}.{lower}]] below its [[{Header(belowKey)}]]."
                    : _asked.Count == 0 ? "It has no keys; delete the line."
                    : $"Its keys are {string.Join(", ", _asked.Select(Shown.Code))}.",
                entry.KeySpan,
                Item));
        }
    }

    private static string KindOf(Node node) => node switch
    {
        TextNode text => $"the text {Shown.Quoted(text.Value)}",
        NumberNode number => $"the number {Shown.Short(number.Written)}",
        FlagNode flag => flag.Value ? "true" : "false",
        TimeNode time => $"the date or time {Shown.Short(time.Written)}",
        ListNode => "a list",
        TableNode => "a table",
        _ => "something else",
    };

    private Node? Ask(string key)
    {
        if (!_asked.Contains(key, StringComparer.Ordinal))
        {
            _asked.Add(key);
        }

        return table.Find(key);
    }

    private TextNode? TextOf(string key, Node node, bool allowEmpty)
    {
        if (node is BrokenNode)
        {
            return null;
        }

        if (node is not TextNode text)
        {
            // A legend 10 or true is a text that wants quotes, not a mistake of meaning.
            var written = node switch
            {
                NumberNode number => number.Written,
                FlagNode flag => flag.Value ? "true" : "false",
                TimeNode time => time.Written,
                _ => key,
            };
            WrongKind(key, node, "a text", $"Put it between double quotes: `{key} = {Shown.Quoted(written)}`.");
            return null;
        }

        if (text.Value.Length > LongestText)
        {
            findings.Add(Finding.Stop(
                "text-too-long",
                string.Create(CultureInfo.InvariantCulture, $"{Shown.Code(key)} has {text.Value.Length} characters; at most {LongestText} are read"),
                "Shorten it, or split it into several items.",
                text.Span,
                Item));
            return null;
        }

        if (!allowEmpty && string.IsNullOrWhiteSpace(text.Value))
        {
            findings.Add(Finding.Stop(
                "text-empty",
                $"{Shown.Code(key)} is empty",
                "Write a text between the quotes, or delete the line.",
                text.Span,
                Item));
            return null;
        }

        return text;
    }

    private bool InRange(string key, double value, double min, double max, string found, string unit, SourceSpan span)
    {
        if (value >= min && value <= max)
        {
            return true;
        }

        var allowed = double.IsInfinity(max) ? $"at least {Shown.Number(min)}{unit}"
            : double.IsInfinity(min) ? $"at most {Shown.Number(max)}{unit}"
            : $"between {Shown.Number(min)}{unit} and {Shown.Number(max)}{unit}";
        findings.Add(Finding.Stop(
            "value-range",
            $"{Shown.Code(key)} must be {allowed}, found {Shown.Short(found)}",
            unit.Length > 0 ? "Write a length within these limits; a number without a unit is in mm." : "Write a number within these limits.",
            span,
            Item));
        return false;
    }

    private void WrongKind(string key, Node found, string wanted, string hint) => findings.Add(Finding.Stop(
        "value-kind",
        $"{Shown.Code(key)} must be {wanted}, found {KindOf(found)}",
        hint,
        found.Span,
        Item));

    private void Missing(string key, string example) => findings.Add(Finding.Stop(
        "key-missing",
        $"{Shown.Code(key)} is missing in {What}",
        $"Add it, for example `{key} = {example}`.",
        Span,
        Item));
}
