using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>
/// How a round window comes out of the photo where the sheet does not lie flat: larger or smaller than the others, and longer one way. What lies in it is as large and as long.
/// </summary>
/// <param name="Share">Its radius as a share of what it was printed with.</param>
/// <param name="Along">By which share it is longer along the sheet's x than the mean, and shorter along y.</param>
/// <param name="Aslant">The same along the way half-way between x and y.</param>
internal sealed record WindowShape(double Share, double Along, double Aslant)
{
    // More is no sheet that curls but an edge that was misread.
    private const double LargestShare = 0.05;

    private const double WildSds = 3.5;
    private const double LeastSdMm = 0.01;

    /// <summary>A window like all others.</summary>
    public static WindowShape Round { get; } = new(1, 0, 0);

    /// <summary>The shape by the window's edge: its radius goes with the cosine and the sine of twice the angle.</summary>
    /// <param name="pose">From pixels to the sheet.</param>
    /// <param name="points">The edge.</param>
    /// <param name="window">The circle through it.</param>
    /// <param name="radiusMm">The radius as printed.</param>
    public static WindowShape Of(SheetPose pose, IReadOnlyList<(double X, double Y)> points, EdgeCircle window, double radiusMm)
    {
        var (normal, right) = (new double[3, 3], new double[3]);
        var ways = points.Select(point => pose.Unproject(point.X, point.Y) - window.Middle).ToList();
        var farMm = WildSds * Math.Max(LeastSdMm, Robust.Sd(ways.Select(way => way.LengthMm - window.RadiusMm)));
        foreach (var way in ways)
        {
            var off = way.LengthMm - window.RadiusMm;
            if (Math.Abs(off) > farMm)
            {
                continue;
            }

            var (sine, cosine) = Math.SinCos(2 * Math.Atan2(way.DyMm, way.DxMm));
            double[] row = [1, cosine, sine];
            for (var i = 0; i < 3; i++)
            {
                right[i] += row[i] * off;
                for (var j = 0; j < 3; j++)
                {
                    normal[i, j] += row[i] * row[j];
                }
            }
        }

        if (SmallSystem.Solve(normal, right) is not [var more, var along, var aslant])
        {
            return Round;
        }

        var shape = new WindowShape((window.RadiusMm + more) / radiusMm, along / window.RadiusMm, aslant / window.RadiusMm);
        return Math.Abs(shape.Share - 1) < LargestShare && Math.Abs(shape.Along) < LargestShare && Math.Abs(shape.Aslant) < LargestShare ? shape : Round;
    }

    /// <summary>A way from the window's middle as it lies on the paper; terms of the second order in the shape are left out.</summary>
    /// <param name="seen">As it comes out of the photo.</param>
    public Vector<SheetSpace> Flat(Vector<SheetSpace> seen) => new(
        ((seen.DxMm * (1 - Along)) - (seen.DyMm * Aslant)) / Share,
        ((seen.DyMm * (1 + Along)) - (seen.DxMm * Aslant)) / Share);
}
