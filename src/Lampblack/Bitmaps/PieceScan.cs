using System;
using System.Collections.Generic;
using System.Runtime.InteropServices;

namespace Lampblack.Bitmaps;

/// <summary>
/// Finds the pieces of a picture row by row from the top: runs that meet, over sides or corners, are of one piece, and pieces that meet become one
/// (union-find on runs). A piece is done as soon as a row has nothing of it, so that only what crosses a row is kept, whatever the picture.
/// </summary>
/// <param name="raster">The picture.</param>
/// <param name="mostKept">The runs of a piece are kept as long as it has at most this many dots.</param>
/// <param name="done">What is done with a finished piece and its runs; no runs where it has too many dots.</param>
internal sealed class PieceScan(BitRaster raster, long mostKept, Action<DotPiece, IEnumerable<ChainedRun>> done)
{
    private readonly List<DotPiece> _pieces = [];
    private readonly Stack<int> _free = new();
    private readonly List<int> _loose = [];
    private readonly RunPool _runs = new();
    private List<(int Start, int End, int Piece)> _above = [];
    private List<(int Start, int End, int Piece)> _here = [];

    public void Run()
    {
        for (var row = 0; row < raster.HeightDots; row++)
        {
            Scan(row);
            Settle(row);
        }

        // A row without dots below the last one ends them all.
        _here.Clear();
        Settle(raster.HeightDots);
    }

    private void Scan(int row)
    {
        _here.Clear();
        var words = raster.Row(row);
        var near = 0;
        for (var start = BitRuns.Find(words, 0, raster.WidthDots, set: true); start < raster.WidthDots;)
        {
            var end = BitRuns.Find(words, start, raster.WidthDots, set: false);
            while (near < _above.Count && _above[near].End < start)
            {
                near++;
            }

            // The last of those above that meet this run may also meet the next one.
            var piece = DotPiece.None;
            for (var index = near; index < _above.Count && _above[index].Start <= end; index++)
            {
                piece = piece == DotPiece.None ? Root(_above[index].Piece) : Join(piece, Root(_above[index].Piece));
            }

            piece = piece == DotPiece.None ? New() : piece;
            Add(piece, row, start, end);
            _here.Add((start, end, piece));
            start = BitRuns.Find(words, end, raster.WidthDots, set: true);
        }
    }

    /// <summary>Names each run's piece by its root, ends the pieces that this row has nothing of, and frees the names of those that became part of others.</summary>
    private void Settle(int row)
    {
        foreach (ref var run in CollectionsMarshal.AsSpan(_here))
        {
            run.Piece = Root(run.Piece);
            Piece(run.Piece).LastRow = row;
        }

        foreach (var run in _above)
        {
            var root = Root(run.Piece);
            ref var piece = ref Piece(root);
            if (piece.LastRow != row)
            {
                done(piece, _runs.From(piece.FirstRun));
                _runs.Release(piece.FirstRun, piece.LastRun);
                piece.LastRow = row;
                _loose.Add(root);
            }
        }

        foreach (var name in _loose)
        {
            _free.Push(name);
        }

        _loose.Clear();
        (_above, _here) = (_here, _above);
    }

    private ref DotPiece Piece(int index) => ref CollectionsMarshal.AsSpan(_pieces)[index];

    private int New()
    {
        if (_free.TryPop(out var index))
        {
            _pieces[index] = DotPiece.At(index);
            return index;
        }

        _pieces.Add(DotPiece.At(_pieces.Count));
        return _pieces.Count - 1;
    }

    private int Root(int index)
    {
        while (_pieces[index].Owner != index)
        {
            // Halves the way for the next time.
            ref var piece = ref Piece(index);
            piece.Owner = _pieces[piece.Owner].Owner;
            index = piece.Owner;
        }

        return index;
    }

    private void Add(int index, int row, int start, int end)
    {
        ref var piece = ref Piece(index);
        piece.Dots += end - start;
        piece.Include(start, row, end, row + 1);
        if (piece.Dots <= mostKept)
        {
            var run = _runs.Add(row, start, end);
            Append(ref piece, run, run);
        }
        else
        {
            Forget(ref piece);
        }
    }

    /// <summary>Makes the smaller of two pieces part of the larger; gives the larger.</summary>
    private int Join(int first, int second)
    {
        if (first == second)
        {
            return first;
        }

        var (owner, part) = Piece(first).Dots >= Piece(second).Dots ? (first, second) : (second, first);
        ref var whole = ref Piece(owner);
        ref var piece = ref Piece(part);
        whole.Dots += piece.Dots;
        whole.Include(piece.Left, piece.Top, piece.Right, piece.Bottom);
        if (whole.Dots <= mostKept)
        {
            Append(ref whole, piece.FirstRun, piece.LastRun);
        }
        else
        {
            Forget(ref whole);
            Forget(ref piece);
        }

        piece.Owner = owner;
        _loose.Add(part);
        return owner;
    }

    private void Append(ref DotPiece piece, int first, int last)
    {
        if (piece.FirstRun == DotPiece.None)
        {
            piece.FirstRun = first;
        }
        else
        {
            _runs.Chain(piece.LastRun, first);
        }

        piece.LastRun = last;
    }

    private void Forget(ref DotPiece piece)
    {
        _runs.Release(piece.FirstRun, piece.LastRun);
        (piece.FirstRun, piece.LastRun) = (DotPiece.None, DotPiece.None);
    }
}
