using System;
using System.Collections.Generic;
using Lampblack.Geometry;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>
/// How bright bare paper would be anywhere on a photo: the logarithm of the light of clear places, as a surface of second degree around each place that is asked for,
/// near places weighing more. So lamp, lens and what a camera does to parts of a picture cancel out.
/// </summary>
internal sealed class PaperLight(IReadOnlyList<(Point<SheetSpace> Place, double Light)> clear)
{
    private const int Unknowns = 6;

    // About one and a half times the distance between neighbouring windows.
    private const double ReachMm = 75;

    // Paper is cloudy: common practice, no source.
    private const double CloudSdShare = 0.01;

    /// <summary>The light of paper at a place, and how well it is known as a share of it; null where too little paper is seen.</summary>
    public (double Light, double SdShare)? At(Point<SheetSpace> place)
    {
        if (clear.Count < 2 * Unknowns)
        {
            return null;
        }

        var (normal, right) = (new double[Unknowns, Unknowns], new double[Unknowns]);
        foreach (var (where, light) in clear)
        {
            var (row, weight) = (Row(where, place), Weight(where, place));
            for (var i = 0; i < Unknowns; i++)
            {
                right[i] += weight * row[i] * Math.Log(light);
                for (var j = 0; j < Unknowns; j++)
                {
                    normal[i, j] += weight * row[i] * row[j];
                }
            }
        }

        if (SmallSystem.Solve(normal, right) is not { } surface)
        {
            return null;
        }

        var (squares, weights) = (0.0, 0.0);
        foreach (var (where, light) in clear)
        {
            var (row, off) = (Row(where, place), Math.Log(light));
            for (var i = 0; i < Unknowns; i++)
            {
                off -= row[i] * surface[i];
            }

            squares += Weight(where, place) * off * off;
            weights += Weight(where, place);
        }

        // As many as weigh fully, less what the surface takes up.
        var share = Math.Max(0.3, 1 - (Unknowns / Math.Max(Unknowns + 1, weights)));
        return (Math.Exp(surface[0]), Math.Sqrt((squares / weights / share) + (CloudSdShare * CloudSdShare)));
    }

    private static double[] Row(Point<SheetSpace> where, Point<SheetSpace> place)
    {
        var (x, y) = ((where.XMm - place.XMm) / ReachMm, (where.YMm - place.YMm) / ReachMm);
        return [1, x, y, x * x, x * y, y * y];
    }

    private static double Weight(Point<SheetSpace> where, Point<SheetSpace> place) => Math.Exp(-Math.Pow(where.DistanceMm(place) / ReachMm, 2) / 2);
}
