using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>One disc against its window: where the mark is, how far off, how well known, and how a deeper back would move it.</summary>
internal sealed record MarkOffset(Point<SheetSpace> Place, double RightMm, double UpMm, double SdMm, double PerDepthX, double PerDepthY)
{
    public static MarkOffset Of(MarkReading mark, CameraPlace? camera) => new(
        mark.Place, mark.RightMm, mark.UpMm, mark.SdMm,
        camera is null ? 0 : (camera.FootXMm - mark.Place.XMm) / camera.HeightMm,
        camera is null ? 0 : (camera.FootYMm - mark.Place.YMm) / camera.HeightMm);
}

/// <summary>Fits the six numbers of side 2, and the paper's depth, to marks.</summary>
internal static class MarksFit
{
    public const int FewestMarks = 4;

    /// <summary>
    /// How deep below the front the back is seen, as a standard deviation about 0. Paper of 0.1 to 0.2 mm is seen two thirds as deep by refraction,
    /// and less where it scatters. Ours: no figure was found.
    /// </summary>
    public const double DepthSdMm = 0.1;

    // A mark further off than this many standard deviations, and than so many mm, does not go with the others.
    private const double FarSds = 4.5;
    private const double FarMm = 0.015;

    // What is believed of the scatter before the marks are seen weighs as so many of their numbers.
    private const double PriorFreedom = 6;
    private const double PriorSdMm = 0.002;

    // What blur and cells do to all photos alike, and no residual shows: by trials with the tests' own camera, at 0.2 to 0.4 mm of blur.
    private const double CommonSdMm = 0.0004;
    private const double CommonPerCube = 0.04;

    private const double UnitMm = 100;

    /// <summary>The fit, how far each mark lies off it, and which were used; null where too few marks tell it.</summary>
    /// <param name="marks">Of one sheet, from one photo or several.</param>
    /// <param name="blurMm">How blurred the photos are, on the sheet, as a normal spread.</param>
    public static (MisregisterFit Fit, ImmutableArray<double> ResidualsMm, ImmutableArray<bool> IsUsed)? Of(ImmutableArray<MarkOffset> marks, double blurMm)
    {
        if (marks.Length < FewestMarks)
        {
            return null;
        }

        var middle = new Point<SheetSpace>(marks.Average(mark => mark.Place.XMm), marks.Average(mark => mark.Place.YMm));

        // First by the sum of distances, which wild marks hardly move: each weighs by one over its distance.
        var weights = marks.Select(_ => 1.0).ToArray();
        var residuals = new double[marks.Length];
        for (var round = 0; round < 15; round++)
        {
            if (Solve(marks, middle, weights.Select(weight => 1 / Math.Sqrt(weight)).ToArray(), 1) is not { } fit)
            {
                return null;
            }

            residuals = Residuals(marks, middle, fit);
            weights = [.. residuals.Select(residual => 1 / Math.Max(residual, 1e-4))];
        }

        // The median length of two normal numbers is 1.1774 standard deviations.
        var used = marks.Select(_ => true).ToArray();
        for (var round = 0; round < 4; round++)
        {
            var sd = Robust.Median(residuals.Where((_, index) => used[index])) / 1.1774 * Math.Sqrt(marks.Length / Math.Max(1.0, marks.Length - 3));
            var next = residuals.Select(residual => residual <= Math.Max(FarMm, FarSds * sd)).ToArray();
            if (next.Count(isUsed => isUsed) < FewestMarks || Solve(marks, middle, [.. next.Select(isUsed => isUsed ? 1.0 : 1e6)], 1) is not { } fit)
            {
                break;
            }

            used = next;
            residuals = Residuals(marks, middle, fit);
        }

        var kept = Enumerable.Range(0, marks.Length).Where(index => used[index]).ToArray();
        var squares = kept.Sum(index => residuals[index] * residuals[index]);
        var noise = Math.Max(PriorSdMm, Robust.Median(kept.Select(index => marks[index].SdMm)));
        var common = Math.Sqrt((squares + (PriorFreedom * noise * noise)) / (Math.Max(0, (2 * kept.Length) - 6) + PriorFreedom));
        var final = Solve([.. kept.Select(index => marks[index])], middle, [.. kept.Select(_ => common)], DepthSdMm);
        var flat = Solve([.. kept.Select(index => marks[index])], middle, [.. kept.Select(_ => common)], 1e-6);
        if (final is null || flat is null)
        {
            return null;
        }

        var alike = CommonSdMm + (CommonPerCube * blurMm * blurMm * blurMm);
        var result = new MisregisterFit(
            Matrix(final.Mean, middle), Spread(final, middle, alike), Spread(flat, middle, alike), Math.Sqrt(squares / kept.Length), kept.Length);
        return (result, [.. residuals], [.. used]);
    }

    /// <summary>Unknowns: a, b, tx, c, d, ty of the offset about the middle (per 100 mm), and the depth.</summary>
    private static LinearFit? Solve(IReadOnlyList<MarkOffset> marks, Point<SheetSpace> middle, double[] sds, double depthSdMm)
    {
        var seen = ImmutableArray.CreateBuilder<Observation>();
        for (var index = 0; index < marks.Count; index++)
        {
            var mark = marks[index];
            var (x, y) = ((mark.Place.XMm - middle.XMm) / UnitMm, (mark.Place.YMm - middle.YMm) / UnitMm);
            seen.Add(new([x, y, 1, 0, 0, 0, mark.PerDepthX], mark.RightMm, sds[index]));
            seen.Add(new([0, 0, 0, x, y, 1, mark.PerDepthY], mark.UpMm, sds[index]));
        }

        seen.Add(new([0, 0, 0, 0, 0, 0, 1], 0, depthSdMm));
        try
        {
            return LeastSquares.Fit(seen.ToImmutable());
        }
        catch (ArgumentException)
        {
            // Marks on one line do not tell the six numbers.
            return null;
        }
    }

    private static double[] Residuals(ImmutableArray<MarkOffset> marks, Point<SheetSpace> middle, LinearFit fit) => [.. marks.Select(mark =>
    {
        var (x, y) = ((mark.Place.XMm - middle.XMm) / UnitMm, (mark.Place.YMm - middle.YMm) / UnitMm);
        var m = fit.Mean;
        return Math.Sqrt(
            Math.Pow(mark.RightMm - (m[0] * x) - (m[1] * y) - m[2] - (m[6] * mark.PerDepthX), 2) + Math.Pow(mark.UpMm - (m[3] * x) - (m[4] * y) - m[5] - (m[6] * mark.PerDepthY), 2));
    })];

    private static ImmutableArray<ImmutableArray<double>> Matrix(ImmutableArray<double> m, Point<SheetSpace> middle) =>
    [
        [1 + (m[0] / UnitMm), m[1] / UnitMm, m[2] - (((m[0] * middle.XMm) + (m[1] * middle.YMm)) / UnitMm)],
        [m[3] / UnitMm, 1 + (m[4] / UnitMm), m[5] - (((m[3] * middle.XMm) + (m[4] * middle.YMm)) / UnitMm)],
    ];

    private static ImmutableArray<ImmutableArray<double>> Spread(LinearFit fit, Point<SheetSpace> middle, double alikeMm)
    {
        var rows = new ImmutableArray<double>[6];
        for (var side = 0; side < 2; side++)
        {
            rows[3 * side] = Row(side, 1 / UnitMm, 0, 0);
            rows[(3 * side) + 1] = Row(side, 0, 1 / UnitMm, 0);
            rows[(3 * side) + 2] = Row(side, -middle.XMm / UnitMm, -middle.YMm / UnitMm, 1);
        }

        return [.. rows.Select(first => rows.Select(second => fit.CovarianceOf(first, second) + Alike(first, second, alikeMm)).ToImmutableArray())];
    }

    private static ImmutableArray<double> Row(int side, double a, double b, double t) => side == 0 ? [a, b, t, 0, 0, 0, 0] : [0, 0, 0, a, b, t, 0];

    /// <summary>A shift of so many mm each way, and as much over one and a half units by turn, scale and shear.</summary>
    private static double Alike(ImmutableArray<double> first, ImmutableArray<double> second, double alikeMm)
    {
        var sum = 0.0;
        for (var unknown = 0; unknown < 6; unknown++)
        {
            var sd = unknown % 3 == 2 ? alikeMm : alikeMm / 1.5;
            sum += first[unknown] * second[unknown] * sd * sd;
        }

        return sum;
    }
}
