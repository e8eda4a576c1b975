using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>
/// A colour's disc in K's window, in the light that the colour keeps back: both edges, the light of paper as a plane, that of K and of the colour, and the blur are
/// fitted together to all dots of the mark. Window and disc are seen in the same light, so that a lens which draws colours apart moves both alike.
/// </summary>
internal static class PlaneDisc
{
    /// <summary>A colour that keeps back less of its light than this can't be told from paper's cloudiness.</summary>
    private const double LeastContrastShare = 0.12;

    private const double HalfMm = 3.85;
    private const double StepMm = 0.14;
    private const int Rounds = 14;

    // Window's middle (2), disc's (2), both radii, paper's light and its growth right and up, K's light as a share, the colour's, the blur.
    private const int Unknowns = 12;

    // Neighbouring samples of a JPEG's colours are not independent: colours are stored for two by two dots.
    private const double AlikeSamples = 4;

    // Cameras disagree whether a colour stands for the left or the middle of two dots: half a dot, seldom; of what the disc's edge shows, about a fifth.
    private const double SitingSdPx = 0.1;
    private const double LeastSdMm = 0.002;

    /// <summary>The colour's offset, or why it can't be told.</summary>
    public static (PlaneOffset? Offset, string? Why) Of(LightPlane light, SheetPose pose, PlaneMark mark)
    {
        var samples = new List<(double X, double Y, double Light)>();
        for (var y = -HalfMm; y <= HalfMm; y += StepMm)
        {
            for (var x = -HalfMm; x <= HalfMm; x += StepMm)
            {
                var (column, row) = pose.Project(new(mark.Place.XMm + x, mark.Place.YMm + y));
                samples.Add((x, y, light.At(column, row) / LightPlane.White));
            }
        }

        if (samples.Exists(sample => double.IsNaN(sample.Light)))
        {
            return (null, "its mark is not in the photo");
        }

        var bright = Ring(2, 2.5);
        if (bright > BarePaper.BlownShare)
        {
            return (null, "bare paper is as bright as the photo can show");
        }

        double[] known = [0, 0, 0, 0, PlaneMark.WindowRadiusMm, PlaneMark.DiscRadiusMm, bright, 0, 0, Math.Min(0.9, Ring(3.7, 4.5) / bright), Math.Min(0.95, Ring(0, 0.8) / bright), 0.15];
        if (Fit(samples, known) is not var (scatter, inverse))
        {
            return (null, "its mark can't be made out");
        }

        if (1 - known[10] < LeastContrastShare || known[9] > 0.7)
        {
            return (null, "it is hardly seen in its mark");
        }

        if (Math.Abs(known[4] - PlaneMark.WindowRadiusMm) > 0.5 || Math.Abs(known[5] - PlaneMark.DiscRadiusMm) > 0.5 || Math.Max(Math.Abs(known[2] - known[0]), Math.Abs(known[3] - known[1])) > 1)
        {
            return (null, "its mark can't be made out");
        }

        double Variance(int first, int second) => inverse[first, first] + inverse[second, second] - (2 * inverse[first, second]);
        var noise = scatter * scatter * AlikeSamples * Math.Max(Variance(0, 2), Variance(1, 3));
        var siting = SitingSdPx / pose.PxPerMm(mark.Place);
        return (new(mark.Letter, mark.Place, known[2] - known[0], known[3] - known[1], Math.Sqrt(noise + (siting * siting) + (LeastSdMm * LeastSdMm))), null);

        double Ring(double from, double to) => Robust.Median(samples.Where(sample => Math.Sqrt((sample.X * sample.X) + (sample.Y * sample.Y)) is var far && far >= from && far <= to).Select(sample => sample.Light));
    }

    /// <summary>Fits by Gauss's and Newton's steps; how far samples lie off, and the inverse of the normal matrix.</summary>
    private static (double Scatter, double[,] Inverse)? Fit(List<(double X, double Y, double Light)> samples, double[] known)
    {
        double[,]? inverse = null;
        for (var round = 0; round < Rounds; round++)
        {
            var (normal, right) = (new double[Unknowns, Unknowns], new double[Unknowns]);
            var (slopes, moved) = (new double[Unknowns], new double[Unknowns]);
            foreach (var (x, y, seen) in samples)
            {
                var here = Model(known, x, y);
                for (var unknown = 0; unknown < Unknowns; unknown++)
                {
                    known.CopyTo(moved, 0);
                    moved[unknown] += 1e-5;
                    slopes[unknown] = (Model(moved, x, y) - here) / 1e-5;
                }

                for (var i = 0; i < Unknowns; i++)
                {
                    right[i] += slopes[i] * (seen - here);
                    for (var j = 0; j < Unknowns; j++)
                    {
                        normal[i, j] += slopes[i] * slopes[j];
                    }
                }
            }

            if (SmallSystem.Solve(normal, right) is not { } step || (inverse = SmallSystem.Invert(normal)) is null)
            {
                return null;
            }

            for (var unknown = 0; unknown < Unknowns; unknown++)
            {
                known[unknown] += Math.Clamp(step[unknown], -0.3, 0.3);
            }

            known[11] = Math.Clamp(known[11], 0.02, 0.6);
            if (known.Any(value => !double.IsFinite(value)))
            {
                return null;
            }

            if (step.Max(Math.Abs) < 1e-6)
            {
                break;
            }
        }

        return (Math.Sqrt(samples.Sum(sample => Math.Pow(sample.Light - Model(known, sample.X, sample.Y), 2)) / (samples.Count - Unknowns)), inverse!);
    }

    private static double Model(double[] p, double x, double y)
    {
        var window = Inside(p[4] - Far(x - p[0], y - p[1]), p[11]);
        var disc = Inside(p[5] - Far(x - p[2], y - p[3]), p[11]);
        var paper = p[6] + (p[7] * x) + (p[8] * y);
        return paper * (p[9] + ((1 - p[9]) * window * (1 - ((1 - p[10]) * disc))));
    }

    private static double Far(double x, double y) => Math.Sqrt((x * x) + (y * y));

    /// <summary>The normal distribution's sum, to a thousandth: an edge under blur.</summary>
    private static double Inside(double byMm, double blurMm)
    {
        var z = byMm / blurMm;
        return 0.5 * (1 + Math.Tanh(0.7978846 * (z + (0.044715 * z * z * z))));
    }
}
