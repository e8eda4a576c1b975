using System;
using System.Collections.Generic;

namespace Lampblack.VectorArt;

/// <summary>A piece as chords, with the true ways at its ends.</summary>
/// <param name="Spots">Its points, at least two, no two alike in a row.</param>
/// <param name="StartWay">The way it sets out.</param>
/// <param name="EndWay">The way it arrives.</param>
internal sealed record Stretch(List<Spot> Spots, Spot StartWay, Spot EndWay)
{
    /// <summary>
    /// A piece as chords for a pen. Near its ends chords get shorter and shorter: a pen's edge stands square on its chord, and a cut end must
    /// stand square on the curve.
    /// </summary>
    /// <param name="piece">The piece.</param>
    /// <param name="error">How far chords may lie from the curve, and a pen's corner from its place.</param>
    /// <param name="radius">Half the pen's width.</param>
    /// <param name="budget">What the corners are taken from.</param>
    public static Stretch? Of(PathPiece piece, double error, double radius, Budget budget)
    {
        if (piece.IsPoint)
        {
            return null;
        }

        var chords = piece.Chords(error);
        var turning = piece.Turning();
        var shares = new List<double> { 0 };
        if (turning > 0)
        {
            // What the first chord turns, halved until the pen's corner is off by less than the error.
            var halvings = (int)Math.Clamp(Math.Ceiling(Math.Log2(turning / chords * radius / error)), 0, 12);
            for (var index = halvings; index > 0; index--)
            {
                shares.Add(1.0 / chords / (1 << index));
            }

            for (var index = 1; index < chords; index++)
            {
                shares.Add((double)index / chords);
            }

            for (var index = 1; index <= halvings; index++)
            {
                shares.Add(1 - (1.0 / chords / (1 << index)));
            }
        }

        shares.Add(1);
        budget.Spend(shares.Count);
        var spots = new List<Spot>(shares.Count);
        foreach (var share in shares)
        {
            var spot = share == 0 ? piece.From : share == 1 ? piece.To : piece.At(share);
            if (spots.Count == 0 || spots[^1] != spot)
            {
                spots.Add(spot);
            }
        }

        return spots.Count < 2 ? null : new(spots, piece.StartWay, piece.EndWay);
    }
}
