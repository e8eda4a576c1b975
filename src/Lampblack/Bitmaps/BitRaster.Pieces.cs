using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Bitmaps;

/// <content>What is too small or too thin.</content>
public sealed partial class BitRaster
{
    /// <summary>The pieces of at least so many dots, from top to bottom: where each lies, and how many dots it has.</summary>
    /// <param name="smallestDots">How many dots a piece that counts has at least.</param>
    public ImmutableArray<(DotBox Box, long Dots)> Pieces(long smallestDots)
    {
        var found = new List<(DotBox Box, long Dots)>();
        new PieceScan(this, 0, (piece, _) =>
        {
            if (piece.Dots >= smallestDots)
            {
                found.Add((piece.Box, piece.Dots));
            }
        }).Run();
        return [.. found.OrderBy(piece => piece.Box.Top).ThenBy(piece => piece.Box.Left)];
    }

    /// <summary>Clears every piece of fewer dots than given. Dots that touch at a side or at a corner are of one piece; a piece at an edge ends there.</summary>
    /// <param name="smallestDots">How many dots a piece that stays has at least.</param>
    public Despeckled WithoutSpecks(long smallestDots)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(smallestDots);
        var result = new BitRasterBuilder(WidthDots, HeightDots);
        _words.CopyTo(result.Filling, 0);
        var (pieces, dots) = (0, 0L);
        new PieceScan(this, smallestDots - 1, Clear).Run();
        return new(result.ToRaster(), pieces, dots);

        void Clear(DotPiece piece, IEnumerable<ChainedRun> runs)
        {
            if (piece.Dots >= smallestDots)
            {
                return;
            }

            pieces++;
            dots += piece.Dots;
            foreach (var run in runs)
            {
                BitRuns.Write(result.Row(run.Row), run.Start, run.End, set: false);
            }
        }
    }

    /// <summary>Sets every piece of clear dots of fewer dots than given: holes, and what is cut off at an edge. Clear dots hang together over corners too.</summary>
    /// <param name="smallestDots">How many dots a hole that stays has at least.</param>
    public Despeckled WithoutHoles(long smallestDots)
    {
        var filled = Complement().WithoutSpecks(smallestDots);
        return filled with { Raster = filled.Raster.Complement() };
    }

    /// <summary>Sets holes that a disc of a diameter fits nowhere into; what reaches an edge is no hole.</summary>
    /// <param name="diameterDots">The disc's width, 1 or more.</param>
    /// <param name="mostDots">Holes of more dots than this are left alone.</param>
    public BitRaster WithoutThinHoles(int diameterDots, long mostDots)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(diameterDots, 1);
        ArgumentOutOfRangeException.ThrowIfNegative(mostDots);
        var result = new BitRasterBuilder(WidthDots, HeightDots);
        _words.CopyTo(result.Filling, 0);
        new PieceScan(Complement(), mostDots, Fill).Run();
        return result.ToRaster();

        void Fill(DotPiece piece, IEnumerable<ChainedRun> runs)
        {
            var isAtEdge = piece.Left == 0 || piece.Top == 0 || piece.Right == WidthDots || piece.Bottom == HeightDots;
            if (isAtEdge || piece.Dots > mostDots || Holds(piece, runs, diameterDots))
            {
                return;
            }

            foreach (var run in runs)
            {
                result.SetRun(run.Row, run.Start, run.End);
            }
        }
    }

    /// <summary>Whether a disc fits into a piece somewhere.</summary>
    private static bool Holds(DotPiece piece, IEnumerable<ChainedRun> runs, int diameterDots)
    {
        var box = piece.Box;
        if (Math.Min(box.WidthDots, box.HeightDots) < diameterDots)
        {
            return false;
        }

        var alone = new BitRasterBuilder(box.WidthDots, box.HeightDots);
        foreach (var run in runs)
        {
            alone.SetRun(run.Row - box.Top, run.Start - box.Left, run.End - box.Left);
        }

        return alone.ToRaster().Open(diameterDots, BeyondEdge.Clear).Count() > 0;
    }

    /// <summary>Keeps what a disc of a diameter reaches while it stays within the set dots: strokes narrower than that go, and corners are rounded.</summary>
    /// <param name="diameterDots">The disc's width, 1 or more; a stroke along rows or columns just as wide stays.</param>
    /// <param name="beyond">What counts as being beyond the edges.</param>
    /// <exception cref="ArgumentOutOfRangeException">The diameter is less than 1.</exception>
    public BitRaster Open(int diameterDots, BeyondEdge beyond)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(diameterDots, 1);
        if (beyond == BeyondEdge.Set)
        {
            // A frame as wide as the disc is as good as no end.
            var framed = Complement().Crop(-diameterDots, -diameterDots, WidthDots + (2 * diameterDots), HeightDots + (2 * diameterDots)).Complement();
            return framed.Open(diameterDots, BeyondEdge.Clear).Crop(diameterDots, diameterDots, WidthDots, HeightDots);
        }

        var most = Math.Max(WidthDots, HeightDots);
        var shrunk = new DiscSpread(Complement(), Disc.OfDiameter(diameterDots, most, 1)).Spread(0).Complement();

        // Dots from which the disc reaches beyond an edge don't hold it: half of its other dots to either side, of an even disc one more to the right and below.
        var (before, after) = ((diameterDots - 1) / 2, diameterDots / 2);
        var middles = shrunk.Crop(before, before, Math.Max(1, WidthDots - before - after), Math.Max(1, HeightDots - before - after));
        return diameterDots > Math.Min(WidthDots, HeightDots)
            ? BitRaster.Clear(WidthDots, HeightDots)
            : new DiscSpread(middles.Crop(-before, -before, WidthDots, HeightDots), Disc.OfDiameter(diameterDots, most, -1)).Spread(0);
    }

    /// <summary>What is narrower than a stroke must be: what <see cref="Open"/> takes away. Sharp corners count for a few dots each.</summary>
    /// <param name="diameterDots">The narrowest stroke, in dots.</param>
    /// <param name="beyond">What counts as being beyond the edges.</param>
    /// <param name="most">How many places are named at most.</param>
    public ThinStrokes Thinner(int diameterDots, BeyondEdge beyond, int most = 5)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(most);
        var lost = Except(Open(diameterDots, beyond));
        var places = new List<ThinPlace>();
        new PieceScan(lost, 0, (piece, _) =>
        {
            places.Add(new(piece.Box, piece.Dots));
            if (places.Count > (2 * most) + 100)
            {
                Largest();
            }
        }).Run();
        Largest();
        return new(lost.Count(), Count(), [.. places]);

        void Largest()
        {
            places.Sort((first, second) => (-first.Dots, first.Box.Top, first.Box.Left).CompareTo((-second.Dots, second.Box.Top, second.Box.Left)));
            places.RemoveRange(Math.Min(most, places.Count), Math.Max(0, places.Count - most));
        }
    }
}

/// <summary>A picture without what was too small.</summary>
/// <param name="Raster">The picture.</param>
/// <param name="Pieces">How many pieces went.</param>
/// <param name="Dots">How many dots they had.</param>
public sealed record Despeckled(BitRaster Raster, int Pieces, long Dots);

/// <summary>What of a picture is narrower than a stroke must be.</summary>
/// <param name="Dots">How many dots.</param>
/// <param name="AllDots">How many dots are set in the picture.</param>
/// <param name="Places">The places with the most such dots, the largest first.</param>
public sealed record ThinStrokes(long Dots, long AllDots, ImmutableArray<ThinPlace> Places)
{
    /// <summary>The part of the set dots that is too thin.</summary>
    public double LostShare => AllDots == 0 ? 0 : (double)Dots / AllDots;
}

/// <summary>A place that is too thin.</summary>
/// <param name="Box">Where it is.</param>
/// <param name="Dots">How many dots are too thin there.</param>
public readonly record struct ThinPlace(DotBox Box, long Dots);
