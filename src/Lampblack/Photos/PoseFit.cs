using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>A point of a round edge: where it was seen, and the middle of the circle that it belongs to.</summary>
internal readonly record struct EdgePoint(double X, double Y, Point<SheetSpace> Middle);

/// <summary>Fits lens and homography to the edges of windows whose places are known.</summary>
internal static class PoseFit
{
    // What lenses do, as standard deviations; and how far edges lie off a circle on paper.
    private const double LensSd = 0.2;
    private const double LensMiddleSd = 0.02;
    private const double EdgeSdMm = 0.03;

    /// <summary>The homography through places and where they were seen; no lens. Null where they lie on a line.</summary>
    public static SheetPose? Start(IReadOnlyList<(Point<SheetSpace> Place, double X, double Y)> seen, int widthPx, int heightPx)
    {
        var scale = new SheetPose([1, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0, 0], widthPx, heightPx);
        var normal = new double[8, 8];
        var right = new double[8];
        foreach (var (place, x, y) in seen)
        {
            var (u, v) = scale.Normal(x, y);
            var (px, py) = (place.XMm / 100, place.YMm / 100);
            Add([u, v, 1, 0, 0, 0, -px * u, -px * v], px);
            Add([0, 0, 0, u, v, 1, -py * u, -py * v], py);
        }

        return SmallSystem.Solve(normal, right) is { } g && g.All(double.IsFinite) ? new([.. g, 0, 0, 0, 0, 0], widthPx, heightPx) : null;

        void Add(double[] row, double value)
        {
            for (var i = 0; i < 8; i++)
            {
                right[i] += row[i] * value;
                for (var j = 0; j < 8; j++)
                {
                    normal[i, j] += row[i] * row[j];
                }
            }
        }
    }

    /// <summary>All numbers by the method of Levenberg and Marquardt, far points weighing less (Huber).</summary>
    /// <param name="start">Where to begin.</param>
    /// <param name="points">The edges.</param>
    /// <param name="radiusMm">What the windows' radius ought to be; how large they printed is fitted too.</param>
    public static (SheetPose Pose, double RadiusMm, double SdMm) Fit(SheetPose start, IReadOnlyList<EdgePoint> points, double radiusMm)
    {
        double[] numbers = [.. start.Values, radiusMm];
        var size = numbers.Length;
        var damping = 1e-3;
        var (residuals, scale) = Residuals(numbers, start, points);
        var cost = Cost(residuals, numbers, radiusMm);
        for (var round = 0; round < 25; round++)
        {
            var (normal, right) = (new double[size, size], new double[size]);
            var slopes = new double[size][];
            for (var j = 0; j < size; j++)
            {
                var moved = (double[])numbers.Clone();
                var step = 1e-6;
                moved[j] += step;
                slopes[j] = [.. Residuals(moved, start, points).Mm.Select((value, index) => (value - residuals[index]) / step)];
            }

            for (var index = 0; index < residuals.Length; index++)
            {
                var weight = Weight(residuals[index]);
                for (var i = 0; i < size; i++)
                {
                    var factor = weight * slopes[i][index];
                    right[i] -= factor * residuals[index];
                    for (var j = 0; j <= i; j++)
                    {
                        normal[i, j] += factor * slopes[j][index];
                    }
                }
            }

            for (var i = 0; i < size; i++)
            {
                for (var j = i + 1; j < size; j++)
                {
                    normal[i, j] = normal[j, i];
                }

                if (PriorSd(i) is { } sd)
                {
                    normal[i, i] += 1 / (sd * sd);
                    right[i] -= (numbers[i] - (i == size - 1 ? radiusMm : 0)) / (sd * sd);
                }
            }

            var tried = false;
            for (var attempt = 0; attempt < 6 && !tried; attempt++)
            {
                var damped = (double[,])normal.Clone();
                for (var i = 0; i < size; i++)
                {
                    damped[i, i] *= 1 + damping;
                }

                if (SmallSystem.Solve(damped, right) is not { } change)
                {
                    return (start, radiusMm, scale);
                }

                double[] next = [.. numbers.Select((value, index) => value + change[index])];
                var (nextResiduals, nextScale) = Residuals(next, start, points);
                var nextCost = Cost(nextResiduals, next, radiusMm);
                if (nextCost < cost)
                {
                    var isDone = cost - nextCost < 1e-7 * cost;
                    (numbers, residuals, scale, cost, damping, tried) = (next, nextResiduals, nextScale, nextCost, damping / 10, true);
                    round = isDone ? int.MaxValue - 1 : round;
                }
                else
                {
                    damping *= 10;
                }
            }

            if (!tried)
            {
                break;
            }
        }

        return (new(numbers[..^1], start.WidthPx, start.HeightPx), numbers[^1], scale);
    }

    /// <summary>How far each point lies outside its circle, in standard deviations; and the median of that in mm, as a standard deviation.</summary>
    private static (double[] Mm, double SdMm) Residuals(double[] numbers, SheetPose frame, IReadOnlyList<EdgePoint> points)
    {
        var pose = new SheetPose(numbers[..^1], frame.WidthPx, frame.HeightPx);
        var residuals = new double[points.Count];
        for (var index = 0; index < residuals.Length; index++)
        {
            var point = points[index];
            residuals[index] = (pose.Unproject(point.X, point.Y).DistanceMm(point.Middle) - numbers[^1]) / EdgeSdMm;
        }

        return (residuals, Robust.Sd(residuals) * EdgeSdMm);
    }

    private static double Cost(double[] residuals, double[] numbers, double radiusMm)
    {
        var cost = residuals.Sum(value => Math.Abs(value) < 2 ? value * value : (4 * Math.Abs(value)) - 4);
        for (var i = 0; i < numbers.Length; i++)
        {
            cost += PriorSd(i) is { } sd ? Math.Pow((numbers[i] - (i == numbers.Length - 1 ? radiusMm : 0)) / sd, 2) : 0;
        }

        return double.IsFinite(cost) ? cost : double.MaxValue;
    }

    private static double Weight(double residual) => Math.Abs(residual) < 2 ? 1 : 2 / Math.Abs(residual);

    private static double? PriorSd(int number) => number switch { 8 or 9 => LensMiddleSd, 10 or 11 or 12 => LensSd, 13 => 0.2, _ => null };
}
