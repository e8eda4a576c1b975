using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>A hole as its edge tells it.</summary>
/// <param name="Middle">Its middle on the page.</param>
/// <param name="RadiusMm">Its radius.</param>
/// <param name="SdMm">How well the middle is known in each direction, by how the edge's points scatter.</param>
/// <param name="Misfit">The sum of squares of how far points lie off, in their own standard deviations.</param>
/// <param name="IsWallBright">Whether the wall was seen as bright as the plate, so that its lower rim is part of the edge.</param>
internal sealed record HoleCircle(Point<SheetSpace> Middle, double RadiusMm, double SdMm, double Misfit, bool IsWallBright);

/// <summary>
/// Fits a hole to the edge of the spot that is seen of it. Through a plate that is looked at aslant, the spot is what upper and lower rim both leave free where
/// the wall is as bright as the plate, and what the upper rim alone leaves free where it is as dark as the page.
/// </summary>
internal static class HoleEdge
{
    private const int Rays = 96;
    private const int Sectors = 24;

    // Points next to each other share what makes them wrong: a felt pen's way, a burr, a grain.
    private const double Apart = 12;

    /// <summary>The points of the edge, on the page: halfway between the inside and what lies just outside in each direction, which beside a plate's hole is now wall, now plate.</summary>
    public static List<Point<SheetSpace>> Points(LightPlane light, SheetPose pose, FoundHole hole)
    {
        var inside = Robust.Median(Enumerable.Range(0, 36).SelectMany(part => new[] { 0.2, 0.45 }.Select(share => Light(hole.Middle.Polar(share * hole.RadiusMm, part * 10)))));
        var first = Find(_ => hole.Half);
        if (first.Count < Rays / 2)
        {
            return first;
        }

        var half = new double[Sectors];
        for (var sector = 0; sector < Sectors; sector++)
        {
            var near = first.Where(place => Math.Abs(Math.IEEERemainder(Direction(place) - sector, Sectors)) < 1.5).ToList();
            var outside = near.SelectMany(place => new[] { 0.3, 0.4 }.Select(mm => Light(hole.Middle.Polar(place.DistanceMm(hole.Middle) + mm, Direction(place) * 360 / Sectors))));
            half[sector] = near.Count == 0 ? hole.Half : (inside + Robust.Median(outside)) / 2;
        }

        return Find(place =>
        {
            var at = Direction(place);
            var (whole, share) = ((int)at, at - Math.Floor(at));
            return half[whole % Sectors] + (share * (half[(whole + 1) % Sectors] - half[whole % Sectors]));
        });

        List<Point<SheetSpace>> Find(Func<Point<SheetSpace>, double> level) =>
            [.. EdgeRays.Find(light, pose, hole.Middle, hole.RadiusMm * 0.45, hole.RadiusMm * 1.5, Rays, level, hole.IsDark, hole.RadiusMm).Select(point => pose.Unproject(point.X, point.Y))];

        double Light(Point<SheetSpace> place)
        {
            var (x, y) = pose.Project(place);
            return light.At(x, y);
        }

        double Direction(Point<SheetSpace> place) => ((Math.Atan2(place.YMm - hole.Middle.YMm, place.XMm - hole.Middle.XMm) / (2 * Math.PI)) + 1) % 1 * Sectors;
    }

    /// <summary>The hole; null where too few points agree.</summary>
    /// <param name="points">Its edge.</param>
    /// <param name="guess">About where it is.</param>
    /// <param name="plate">How the plate's upper face is seen moved; null for what lies on the page itself.</param>
    /// <param name="edgeSdMm">How far points lie off by themselves.</param>
    public static HoleCircle? Fit(IReadOnlyList<Point<SheetSpace>> points, FoundHole guess, PlateFace? plate, double edgeSdMm)
    {
        if (plate is null)
        {
            return Fit(points, guess, (place, middle, radius) => place.DistanceMm(middle) - radius, edgeSdMm, isWallBright: false);
        }

        var wall = Fit(points, guess, (place, middle, radius) => Math.Max(Upper(place, middle, radius), place.DistanceMm(middle) - radius), edgeSdMm, isWallBright: true);
        var upper = Fit(points, guess, Upper, edgeSdMm, isWallBright: false);
        return wall is null || (upper is not null && upper.Misfit < wall.Misfit) ? upper : wall;

        double Upper(Point<SheetSpace> place, Point<SheetSpace> middle, double radius) => place.DistanceMm(plate.SeenAt(middle)) - (radius * plate.Larger);
    }

    private static HoleCircle? Fit(
        IReadOnlyList<Point<SheetSpace>> points, FoundHole guess, Func<Point<SheetSpace>, Point<SheetSpace>, double, double> off, double edgeSdMm, bool isWallBright)
    {
        const double StepMm = 1e-4;
        var (middle, radius, sd) = (guess.Middle, guess.RadiusMm, double.MaxValue);
        for (var round = 0; round < 14; round++)
        {
            var (normal, right, used) = (new double[3, 3], new double[3], 0);
            foreach (var place in points)
            {
                var here = off(place, middle, radius);
                if (Math.Abs(here) > 3.5 * sd)
                {
                    continue;
                }

                double[] row =
                [
                    (off(place, new(middle.XMm + StepMm, middle.YMm), radius) - here) / StepMm,
                    (off(place, new(middle.XMm, middle.YMm + StepMm), radius) - here) / StepMm,
                    (off(place, middle, radius + StepMm) - here) / StepMm,
                ];
                used++;
                for (var i = 0; i < 3; i++)
                {
                    right[i] -= row[i] * here;
                    for (var j = 0; j < 3; j++)
                    {
                        normal[i, j] += row[i] * row[j];
                    }
                }
            }

            if (used < Rays / 2 || SmallSystem.Solve(normal, right) is not [var x, var y, var r])
            {
                return null;
            }

            (middle, radius) = (new(middle.XMm + x, middle.YMm + y), radius + r);
            sd = Math.Max(edgeSdMm, Robust.Sd(points.Select(place => off(place, middle, radius))));
        }

        // Wild points count as what they are at most: so a model that makes more of them wild is no better for it.
        var misfit = points.Sum(place => Math.Min(12, Math.Pow(off(place, middle, radius) / edgeSdMm, 2)));
        return new(middle, radius, sd * Math.Sqrt(2 / Apart), misfit, isWallBright);
    }
}

/// <summary>How the upper face of a plate that lies on the page is seen: moved away from the point below the camera, and larger.</summary>
/// <param name="Camera">Where the camera stood over the page.</param>
/// <param name="ThicknessMm">The plate's thickness, times whatever the camera's height may be wrong by.</param>
internal sealed record PlateFace(CameraPlace Camera, double ThicknessMm)
{
    /// <summary>How many times as large the upper rim is seen.</summary>
    public double Larger => 1 + Share;

    private double Share => ThicknessMm / (Math.Abs(Camera.HeightMm) - ThicknessMm);

    /// <summary>Where the upper end of what stands upright at a place is seen, on the page.</summary>
    public Point<SheetSpace> SeenAt(Point<SheetSpace> place) =>
        new(place.XMm + ((place.XMm - Camera.FootXMm) * Share), place.YMm + ((place.YMm - Camera.FootYMm) * Share));
}
