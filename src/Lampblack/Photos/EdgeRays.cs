using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>A circle on the sheet, fitted to its edge.</summary>
/// <param name="Middle">Its middle.</param>
/// <param name="RadiusMm">Its radius as printed.</param>
/// <param name="SdMm">How well the middle is known in each direction, by how the edge's points scatter.</param>
internal sealed record EdgeCircle(Point<SheetSpace> Middle, double RadiusMm, double SdMm);

/// <summary>
/// Looks for a round edge along rays from its middle, in the sheet's own mm, so that a circle stays one whatever the camera's direction;
/// the middle of its image in the photo would not be the image of its middle.
/// </summary>
internal static class EdgeRays
{
    private const int Neighbours = 3;

    /// <summary>Where the light crosses the middle between dark and bright, one place for each ray that shows it.</summary>
    public static List<(double X, double Y)> Find(LightPlane light, SheetPose pose, Point<SheetSpace> middle, double fromMm, double toMm, int rays, Func<Point<SheetSpace>, double> half, bool risesOutwards, double radiusMm)
    {
        var steps = Math.Clamp((int)Math.Ceiling((toMm - fromMm) * pose.PxPerMm(middle) * 2), 6, 400);
        var profiles = new double[rays, steps + 1];
        var seen = new (double X, double Y)[rays, steps + 1];
        for (var ray = 0; ray < rays; ray++)
        {
            // A part of a ray off, so that none runs along rows or columns only.
            var degrees = (ray + 0.37) * 360 / rays;
            for (var step = 0; step <= steps; step++)
            {
                var place = middle.Polar(fromMm + ((toMm - fromMm) * step / steps), degrees);
                var at = pose.Project(place);
                seen[ray, step] = at;
                profiles[ray, step] = (light.At(at.X, at.Y) - half(place)) * (risesOutwards ? 1 : -1);
            }
        }

        // Each ray with its neighbours: noise grows less by that, and the edge no wider. What it takes from the first harmonic, the rounds that follow give back.
        var found = new List<(double, double)>();
        var profile = new double[steps + 1];
        for (var ray = 0; ray < rays; ray++)
        {
            for (var step = 0; step <= steps; step++)
            {
                var sum = 0.0;
                for (var way = -Neighbours; way <= Neighbours; way++)
                {
                    sum += profiles[(ray + way + rays) % rays, step];
                }

                profile[step] = sum;
            }

            // Noise may cross several times all the same: the crossing nearest to where the edge ought to be.
            var (best, far) = (-1, double.MaxValue);
            for (var step = 0; step < steps; step++)
            {
                if (profile[step] < 0 && profile[step + 1] >= 0)
                {
                    var off = Math.Abs(fromMm + ((toMm - fromMm) * (step + 0.5) / steps) - radiusMm);
                    (best, far) = off < far ? (step, off) : (best, far);
                }
            }

            if (best >= 0)
            {
                var share = profile[best] / (profile[best] - profile[best + 1]);
                var (from, to) = (seen[ray, best], seen[ray, best + 1]);
                found.Add((from.X + (share * (to.X - from.X)), from.Y + (share * (to.Y - from.Y))));
            }
        }

        return found;
    }

    /// <summary>The circle through points of an edge, wild ones left out; null where too few are left.</summary>
    /// <param name="pose">From pixels to the sheet.</param>
    /// <param name="points">The edge.</param>
    /// <param name="guess">About where the middle is.</param>
    /// <param name="fewest">How many points are needed.</param>
    public static EdgeCircle? Circle(SheetPose pose, IReadOnlyList<(double X, double Y)> points, Point<SheetSpace> guess, int fewest)
    {
        var places = points.Select(point => pose.Unproject(point.X, point.Y)).ToList();
        var radius = Robust.Median(places.Select(place => place.DistanceMm(guess)));
        var middle = guess;
        var sd = double.MaxValue;
        for (var round = 0; round < 6; round++)
        {
            var (normal, right) = (new double[3, 3], new double[3]);
            var used = 0;
            var squares = 0.0;
            foreach (var place in places)
            {
                var way = place - middle;
                var off = way.LengthMm - radius;
                if (Math.Abs(off) > 3.5 * sd)
                {
                    continue;
                }

                (used, squares) = (used + 1, squares + (off * off));
                double[] row = [way.DxMm / way.LengthMm, way.DyMm / way.LengthMm, 1];
                for (var i = 0; i < 3; i++)
                {
                    right[i] += row[i] * off;
                    for (var j = 0; j < 3; j++)
                    {
                        normal[i, j] += row[i] * row[j];
                    }
                }
            }

            if (used < fewest || SmallSystem.Solve(normal, right) is not [var x, var y, var r])
            {
                return null;
            }

            middle = new(middle.XMm + x, middle.YMm + y);
            radius += r;
            sd = Math.Max(0.0005, round == 0 ? Robust.Sd(places.Select(place => place.DistanceMm(middle) - radius)) * 1.5 : Robust.Sd(places.Select(place => place.DistanceMm(middle) - radius)));
            if (round == 5)
            {
                return new(middle, radius, Math.Sqrt(squares / used * 2 / used * ((2 * Neighbours) + 1)));
            }
        }

        return null;
    }
}
