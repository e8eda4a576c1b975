using System;
using System.Collections.Immutable;
using Lampblack.Findings;

namespace Lampblack.SourceText;

/// <summary>A value in a user's file, with its place.</summary>
/// <param name="Span">Where it stands.</param>
public abstract record Node(SourceSpan Span);

/// <summary>A text between quotes.</summary>
/// <param name="Value">The text without quotes and escapes; line breaks are <c>\n</c>, and there are no other control characters than that and tab.</param>
/// <param name="Span">The text with its quotes.</param>
public sealed record TextNode(string Value, SourceSpan Span) : Node(Span);

/// <summary>A number, never infinite and never not-a-number.</summary>
/// <param name="Value">The number.</param>
/// <param name="IsInteger">Whether it was written as a whole number, without point and exponent.</param>
/// <param name="Written">As it stands in the file, such as <c>1_000</c>.</param>
/// <param name="Span">The number.</param>
public sealed record NumberNode(double Value, bool IsInteger, string Written, SourceSpan Span) : Node(Span);

/// <summary><c>true</c> or <c>false</c>.</summary>
/// <param name="Value">Which of the two.</param>
/// <param name="Span">The word.</param>
public sealed record FlagNode(bool Value, SourceSpan Span) : Node(Span);

/// <summary>A date, a time or both.</summary>
/// <param name="Written">As it stands in the file.</param>
/// <param name="Span">The date or time.</param>
public sealed record TimeNode(string Written, SourceSpan Span) : Node(Span);

/// <summary>A list, or all the tables under one <c>[[name]]</c>.</summary>
/// <param name="Items">The items in the file's order.</param>
/// <param name="Span">The list with its brackets; the first header of tables under <c>[[name]]</c>.</param>
public sealed record ListNode(ImmutableArray<Node> Items, SourceSpan Span) : Node(Span);

/// <summary>A table.</summary>
/// <param name="Entries">Keys and values in the file's order; every key once.</param>
/// <param name="Inline">Whether it stands between braces.</param>
/// <param name="Span">Its header; the braces and what is between them; the key that made it (<c>a.b = 1</c> makes <c>a</c>); or the start of the file.</param>
public sealed record TableNode(ImmutableArray<Entry> Entries, bool Inline, SourceSpan Span) : Node(Span)
{
    /// <summary>The value of a key, or null. A value that couldn't be read is a <see cref="BrokenNode"/>.</summary>
    public Node? Find(string key) => FindEntry(key)?.Value;

    /// <summary>A key with its value, or null.</summary>
    internal Entry? FindEntry(string key)
    {
        foreach (var entry in Entries)
        {
            if (string.Equals(entry.Key, key, StringComparison.Ordinal))
            {
                return entry;
            }
        }

        return null;
    }
}

/// <summary>A value that can't be used and has its finding already. It keeps the key's place, so that nobody calls the key missing as well.</summary>
/// <param name="Span">Where it stands.</param>
public sealed record BrokenNode(SourceSpan Span) : Node(Span);

/// <summary>A key and its value.</summary>
/// <param name="Key">The key without quotes; one part of a dotted key.</param>
/// <param name="KeySpan">Where the key stands, with its quotes.</param>
/// <param name="Value">Its value.</param>
public sealed record Entry(string Key, SourceSpan KeySpan, Node Value);
