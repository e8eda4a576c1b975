using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>A text as stretches of an old one and what was put between them. Splices can be made one upon another, and what became of the old text is still known.</summary>
internal sealed class Pieces
{
    private readonly string _old;
    private readonly ImmutableArray<Piece> _pieces;

    private Pieces(string old, ImmutableArray<Piece> pieces)
    {
        _old = old;
        _pieces = pieces;
    }

    /// <summary>The text as it is now.</summary>
    public string Text => string.Concat(_pieces.Select(piece => piece.Fresh ?? _old.Substring(piece.Start, piece.Length)));

    /// <summary>The whole old text.</summary>
    public static Pieces Of(string old) => new(old, [new(0, old.Length, null)]);

    /// <summary>The text with stretches of it exchanged.</summary>
    /// <param name="splices">Stretches, counted in the text as it is now. Only those that take away may overlap: two last lines both take the break between them.</param>
    public Pieces With(IEnumerable<Splice> splices)
    {
        var next = ImmutableArray.CreateBuilder<Piece>();
        var at = 0;
        foreach (var splice in splices.OrderBy(splice => splice.Offset))
        {
            next.AddRange(Cut(at, splice.Offset));
            if (splice.Text.Length > 0)
            {
                next.Add(new(0, splice.Text.Length, splice.Text));
            }

            at = Math.Max(at, splice.Offset + splice.Length);
        }

        next.AddRange(Cut(at, _pieces.Sum(piece => piece.Length)));
        return new(_old, next.ToImmutable());
    }

    /// <summary>What was exchanged in the old bytes.</summary>
    /// <param name="mark">How many bytes stand before the text.</param>
    public ImmutableArray<ByteChange> Changes(int mark)
    {
        var changes = ImmutableArray.CreateBuilder<ByteChange>();
        var (at, bytes, counted) = (0, mark, 0);
        var fresh = new StringBuilder();
        foreach (var piece in _pieces.Append(new(_old.Length, 0, null)))
        {
            if (piece.Fresh is { } words)
            {
                fresh.Append(words);
                continue;
            }

            Add(at, piece.Start, fresh.ToString());
            fresh.Clear();
            at = piece.Start + piece.Length;
        }

        return changes.ToImmutable();

        void Add(int from, int to, string text)
        {
            var removed = _old[from..to];
            var most = Math.Min(removed.Length, text.Length);
            var head = 0;
            while (head < most && removed[head] == text[head] && !char.IsSurrogate(text[head]))
            {
                head++;
            }

            var tail = 0;
            while (tail < most - head && removed[^(tail + 1)] == text[^(tail + 1)] && !char.IsSurrogate(text[^(tail + 1)]))
            {
                tail++;
            }

            if (removed.Length == text.Length && head == removed.Length)
            {
                return;
            }

            bytes += Encoding.UTF8.GetByteCount(_old.AsSpan(counted, from + head - counted));
            counted = from + head;
            changes.Add(new(bytes, [.. Encoding.UTF8.GetBytes(removed[head..^tail])], [.. Encoding.UTF8.GetBytes(text[head..^tail])]));
        }
    }

    private IEnumerable<Piece> Cut(int from, int to)
    {
        var at = 0;
        foreach (var piece in _pieces)
        {
            var (start, end) = (Math.Max(from, at), Math.Min(to, at + piece.Length));
            if (start < end)
            {
                yield return piece.Fresh is { } words
                    ? new(0, end - start, words[(start - at)..(end - at)])
                    : piece with { Start = piece.Start + start - at, Length = end - start };
            }

            at += piece.Length;
        }
    }

    /// <summary>A stretch of the old text, or a fresh one.</summary>
    private readonly record struct Piece(int Start, int Length, string? Fresh);
}
