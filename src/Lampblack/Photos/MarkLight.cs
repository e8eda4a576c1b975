using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>Bright and dark of one window: the light of clear paper as a plane over the window, and that of the black around it.</summary>
/// <param name="Middle">Where the window is.</param>
/// <param name="Bright">Light of paper at the middle.</param>
/// <param name="PerXMm">How it grows to the right.</param>
/// <param name="PerYMm">How it grows upwards.</param>
/// <param name="Dark">Light of the front's black.</param>
internal sealed record MarkLight(Point<SheetSpace> Middle, double Bright, double PerXMm, double PerYMm, double Dark)
{
    private const int Around = 60;

    // The back's cells end at 3.1 mm; light spreads some tenths further.
    private const double NearDiscMm = 3.7;

    private static readonly ImmutableArray<double> Radii = [1.6, 2.4, 3.2, 3.6, 4, 4.4, 4.8, 5.1];

    public double At(Point<SheetSpace> place) => Bright + (PerXMm * (place.XMm - Middle.XMm)) + (PerYMm * (place.YMm - Middle.YMm));

    /// <summary>Looks at a window; null where it lies outside of the photo, or is no brighter than what is around it.</summary>
    /// <param name="light">The photo.</param>
    /// <param name="pose">From the sheet to the photo.</param>
    /// <param name="middle">The window's middle.</param>
    /// <param name="disc">The back's disc, if it is known: what is near it, or near its cells, is not clear paper.</param>
    public static MarkLight? Of(LightPlane light, SheetPose pose, Point<SheetSpace> middle, Point<SheetSpace>? disc = null)
    {
        var inside = new List<(Point<SheetSpace> Place, double Light)>();
        var outside = new List<double>();
        for (var part = 0; part < Around; part++)
        {
            var degrees = part * 360.0 / Around;
            foreach (var radius in Radii)
            {
                var place = middle.Polar(radius, degrees);
                if (disc is null ? radius >= 4 : place.DistanceMm(disc.Value) > NearDiscMm)
                {
                    inside.Add((place, Light(place)));
                }
            }

            outside.Add(Light(middle.Polar(6.65, degrees)));
        }

        if (inside.Exists(sample => double.IsNaN(sample.Light)) || outside.Exists(double.IsNaN))
        {
            return null;
        }

        // Cells and disc, if they reach so far, are dark: the clear paper is what remains.
        var top = Robust.Median(inside.OrderByDescending(sample => sample.Light).Take(inside.Count / 2).Select(sample => sample.Light));
        var clear = inside.Where(sample => sample.Light > 0.7 * top).ToList();
        var dark = Robust.Median(outside);
        for (var round = 0; round < 2; round++)
        {
            if (Plane(clear, middle) is not var (bright, perX, perY) || bright < dark * 1.3)
            {
                return null;
            }

            var plane = new MarkLight(middle, bright, perX, perY, dark);
            if (round == 1)
            {
                return plane;
            }

            var sd = Math.Max(0.005 * bright, Robust.Sd(clear.Select(sample => sample.Light - plane.At(sample.Place))));
            clear = [.. clear.Where(sample => Math.Abs(sample.Light - plane.At(sample.Place)) < 3 * sd)];
        }

        return null;

        double Light(Point<SheetSpace> place)
        {
            var (x, y) = pose.Project(place);
            return light.At(x, y);
        }
    }

    private static (double Bright, double PerX, double PerY)? Plane(List<(Point<SheetSpace> Place, double Light)> samples, Point<SheetSpace> middle)
    {
        if (samples.Count < Around)
        {
            return null;
        }

        var (normal, right) = (new double[3, 3], new double[3]);
        foreach (var (place, value) in samples)
        {
            double[] row = [1, place.XMm - middle.XMm, place.YMm - middle.YMm];
            for (var i = 0; i < 3; i++)
            {
                right[i] += row[i] * value;
                for (var j = 0; j < 3; j++)
                {
                    normal[i, j] += row[i] * row[j];
                }
            }
        }

        return SmallSystem.Solve(normal, right) is [var bright, var perX, var perY] ? (bright, perX, perY) : null;
    }
}
