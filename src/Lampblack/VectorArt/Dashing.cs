using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.VectorArt;

/// <summary>Cuts a line into dashes (SVG 1.1, 11.4). Curves are cut as curves, so that ends of dashes stand square on them.</summary>
internal sealed class Dashing
{
    private readonly Stroke _stroke;
    private readonly double _error;
    private readonly Budget _budget;
    private readonly List<List<PathPiece>> _dashes = [];

    // Which dash (even) or gap (odd) the line is in, and how much of it is left.
    private int _index;
    private double _left;
    private List<PathPiece>? _open;

    private Dashing(Stroke stroke, double error, Budget budget)
    {
        (_stroke, _error, _budget) = (stroke, error, budget);
        var total = stroke.Dashes.Sum();
        var rest = stroke.DashOffset % total;
        rest = rest < 0 ? rest + total : rest;
        
        // A dash without length stands where the line begins, unless the offset is beyond it.
        while (_index < stroke.Dashes.Count - 1 && rest >= stroke.Dashes[_index] && rest > 0)
        {
            rest -= stroke.Dashes[_index++];
        }

        _left = Math.Max(0, stroke.Dashes[_index] - rest);
        _open = _index % 2 == 0 ? [] : null;
    }

    /// <summary>The dashes; one of no length stays, as it may have ends that show.</summary>
    public static List<List<PathPiece>> Cut(Trail trail, Stroke stroke, double error, Budget budget)
    {
        var cut = new Dashing(stroke, error, budget);
        var startsInDash = cut._open is not null;
        foreach (var piece in trail.Pieces.Where(piece => !piece.IsPoint))
        {
            cut.Add(piece);
        }

        if (cut._open is { Count: > 0 } last)
        {
            // A closed line that ends and begins within dashes has one dash across its start.
            if (trail.IsClosed && startsInDash && cut._dashes.Count > 0)
            {
                cut._dashes[0] = [.. last, .. cut._dashes[0]];
            }
            else
            {
                cut._dashes.Add(last);
            }
        }

        return cut._dashes;
    }

    private void Add(PathPiece piece)
    {
        var chords = piece.IsStraight ? 1 : Math.Max(8, piece.Chords(_error));
        var (from, before) = (0.0, piece.From);
        for (var chord = 1; chord <= chords; chord++)
        {
            var spot = piece.At((double)chord / chords);
            var length = (spot - before).Length;
            double gone = 0;
            while (length - gone > _left)
            {
                gone += _left;
                var share = (chord - 1 + (gone / length)) / chords;
                _budget.Spend(2);
                Turn(piece, from, share);
                from = share;
            }

            _left -= length - gone;
            before = spot;
        }

        if (_open is not null && from < 1)
        {
            _open.Add(piece.Part(from, 1));
        }
    }

    /// <summary>A dash ends, or begins, at a share of a piece.</summary>
    private void Turn(PathPiece piece, double from, double share)
    {
        if (_open is not null)
        {
            if (share > from)
            {
                _open.Add(piece.Part(from, share));
            }
            else if (_open.Count == 0)
            {
                // So short that only its ends are seen.
                var at = piece.At(share);
                var way = piece.Part(Math.Min(share, 0.999), 1).StartWay;
                _open.Add(PathPiece.Line(at, at + (1e-9 * way)));
            }

            _dashes.Add(_open);
        }

        _open = _open is null ? [] : null;
        _index = (_index + 1) % _stroke.Dashes.Count;
        _left = _stroke.Dashes[_index];
    }
}
