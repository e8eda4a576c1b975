using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>A round spot that stands out of what is around it.</summary>
/// <param name="Middle">About where its middle is.</param>
/// <param name="RadiusMm">About how large it is, by its area.</param>
/// <param name="IsDark">Whether it is darker than what is around it.</param>
/// <param name="Half">The light halfway between inside and outside.</param>
internal sealed record FoundHole(Point<SheetSpace> Middle, double RadiusMm, bool IsDark, double Half);

/// <summary>Finds a hole near where it was meant to be: the one round spot of about its size, dark or bright.</summary>
internal static class HoleFinder
{
    private const double FinestMm = 0.08;
    private const double LeastContrastShare = 0.25;
    private const double LeastAreaShare = 0.3;
    private const double MostAreaShare = 2.2;

    /// <summary>The spot; null where there is none, or where the photo does not show the place.</summary>
    /// <param name="light">The photo.</param>
    /// <param name="pose">From the page to the photo.</param>
    /// <param name="meant">Where the hole was meant to be.</param>
    /// <param name="radiusMm">Its radius.</param>
    /// <param name="reachMm">How far its edge may lie beyond where it was meant to be.</param>
    public static FoundHole? Find(LightPlane light, SheetPose pose, Point<SheetSpace> meant, double radiusMm, double reachMm)
    {
        var stepMm = Math.Max(FinestMm, Math.Max(0.7 / pose.PxPerMm(meant), (radiusMm + reachMm) / 90));
        var half = (int)Math.Ceiling((radiusMm + reachMm) / stepMm);
        var side = (2 * half) + 1;
        var grid = new double[side * side];
        for (var at = 0; at < grid.Length; at++)
        {
            var (x, y) = ((at % side) - half, (at / side) - half);
            grid[at] = double.NaN;
            if ((x * x) + (y * y) <= half * half)
            {
                var (column, row) = pose.Project(Place(x, y));
                grid[at] = light.At(column, row);
                if (double.IsNaN(grid[at]))
                {
                    return null;
                }
            }
        }

        if (Split(grid.Where(value => !double.IsNaN(value))) is not var (dark, bright) || bright - dark < LeastContrastShare * bright)
        {
            return null;
        }

        var middle = (dark + bright) / 2;
        var best = (Score: double.MaxValue, Hole: (FoundHole?)null);
        foreach (var isDark in new[] { true, false })
        {
            foreach (var spot in Spots(grid, side, value => value < middle == isDark))
            {
                var areaMm2 = spot.Count * stepMm * stepMm;
                var share = areaMm2 / (Math.PI * radiusMm * radiusMm);
                if (share is < LeastAreaShare or > MostAreaShare || spot.Exists(at => IsRim(at)) || !IsRound(spot, side))
                {
                    continue;
                }

                var (x, y) = (spot.Average(at => (at % side) - half), spot.Average(at => (at / side) - half));

                // Size tells more than place: a hole may have wandered, a drill is what it is.
                var score = Math.Abs(Math.Log(share)) + (Math.Sqrt((x * x) + (y * y)) * stepMm / reachMm / 2);
                best = score < best.Score ? (score, new(Place(x, y), Math.Sqrt(areaMm2 / Math.PI), isDark, middle)) : best;
            }
        }

        return best.Hole;

        Point<SheetSpace> Place(double x, double y) => new(meant.XMm + (x * stepMm), meant.YMm + (y * stepMm));

        bool IsRim(int at)
        {
            var (x, y) = ((at % side) - half, (at / side) - half);
            return Math.Sqrt((x * x) + (y * y)) > half - 1.6;
        }
    }

    /// <summary>Two levels that all light falls into: means of what lies nearer to one than to the other, until they stay.</summary>
    private static (double Dark, double Bright)? Split(IEnumerable<double> values)
    {
        var sorted = values.Order().ToArray();
        var (dark, bright) = (sorted[sorted.Length / 50], sorted[^((sorted.Length / 50) + 1)]);
        for (var round = 0; round < 12; round++)
        {
            var half = (dark + bright) / 2;
            var count = sorted.Count(value => value < half);
            if (count == 0 || count == sorted.Length)
            {
                return null;
            }

            (dark, bright) = (Robust.Median(sorted.Take(count)), Robust.Median(sorted.Skip(count)));
        }

        return (dark, bright);
    }

    private static List<List<int>> Spots(double[] grid, int side, Func<double, bool> isOf)
    {
        var seen = new bool[grid.Length];
        var spots = new List<List<int>>();
        for (var start = 0; start < grid.Length; start++)
        {
            if (seen[start] || !isOf(grid[start]) || double.IsNaN(grid[start]))
            {
                continue;
            }

            var spot = new List<int> { start };
            seen[start] = true;
            for (var next = 0; next < spot.Count; next++)
            {
                foreach (var to in new[] { spot[next] - 1, spot[next] + 1, spot[next] - side, spot[next] + side })
                {
                    if (to >= 0 && to < grid.Length && !seen[to] && !double.IsNaN(grid[to]) && isOf(grid[to]))
                    {
                        seen[to] = true;
                        spot.Add(to);
                    }
                }
            }

            spots.Add(spot);
        }

        return spots;
    }

    /// <summary>Whether a spot fills the ellipse of its own moments, and that one is nearly a circle.</summary>
    private static bool IsRound(List<int> spot, int side)
    {
        var (meanX, meanY) = (spot.Average(at => (double)(at % side)), spot.Average(at => (double)(at / side)));
        var (xx, xy, yy) = (
            spot.Average(at => Math.Pow((at % side) - meanX, 2)), spot.Average(at => ((at % side) - meanX) * ((at / side) - meanY)), spot.Average(at => Math.Pow((at / side) - meanY, 2)));
        var (mean, apart) = ((xx + yy) / 2, Math.Sqrt((Math.Pow(xx - yy, 2) / 4) + (xy * xy)));

        // An ellipse has pi times the half axes as its area, and these are twice the roots of its moments.
        var fill = spot.Count / (4 * Math.PI * Math.Sqrt(Math.Max(1e-9, (xx * yy) - (xy * xy))));
        return mean - apart > 0 && (mean + apart) / (mean - apart) < 2.6 && fill > 0.85;
    }
}
