using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Findings;

namespace Lampblack.SourceText;

/// <summary>A stretch of a user's text to be replaced. What is written back is the old bytes with such stretches exchanged, never a tree.</summary>
/// <param name="Offset">Where it starts, counted as in <see cref="SourceSpan"/>.</param>
/// <param name="Length">How long it is; zero to insert.</param>
/// <param name="Text">What stands there afterwards.</param>
internal sealed record Splice(int Offset, int Length, string Text)
{
    /// <summary>Puts a text in the place of a stretch.</summary>
    public static Splice At(SourceSpan span, string text) => new(span.Offset, span.Length, text);

    /// <summary>The bytes with all stretches exchanged; every other byte is the same, the byte-order mark too.</summary>
    /// <param name="bytes">The file's bytes.</param>
    /// <param name="text">The text in them, without its byte-order mark; must be faultless UTF-8.</param>
    /// <param name="splices">Stretches that do not overlap.</param>
    public static ImmutableArray<byte> Apply(ReadOnlySpan<byte> bytes, string text, IEnumerable<Splice> splices)
    {
        var done = ImmutableArray.CreateBuilder<byte>(bytes.Length + 100);
        var at = bytes.Length - Encoding.UTF8.GetByteCount(text);
        done.AddRange(bytes[..at]);
        var from = 0;
        foreach (var splice in splices.OrderBy(splice => splice.Offset))
        {
            var kept = Encoding.UTF8.GetByteCount(text.AsSpan(from, splice.Offset - from));
            done.AddRange(bytes.Slice(at, kept));
            done.AddRange(Encoding.UTF8.GetBytes(splice.Text));
            at += kept + Encoding.UTF8.GetByteCount(text.AsSpan(splice.Offset, splice.Length));
            from = splice.Offset + splice.Length;
        }

        done.AddRange(bytes[at..]);
        return done.ToImmutable();
    }
}
