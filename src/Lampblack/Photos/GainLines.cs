using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>
/// Toner's growth from the lit lines of one photo. Of a line meant to be w wide the light says c (w - 2 g): c, near 1, takes up what paper's light, blur and veil do to all
/// lines alike, so that in the end lines are compared with the widest ones; c may drift along the row, as widths do.
/// </summary>
internal static class GainLines
{
    private const int FewestLines = 8;

    // Less light than this may be a line that is closed, by whatever shines through its black.
    private const double LeastOpenMm = 0.03;

    // Lines weigh by what toner and dots of 600 to the inch make of each, and by paper's cloudiness.
    private const double LineSdMm = 0.004;
    private const double CloudSdShare = 0.012;

    // c, and its drift from the middle of the row to either end.
    private const double FactorSd = 0.1;
    private const double DriftSd = 0.02;

    // What is believed of the lines' scatter before they are seen weighs as so many lines.
    private const double PriorFreedom = 4;

    /// <summary>A camera's curve is taken for that of sRGB: it may be steeper or flatter by so much, as for the black wedge.</summary>
    private const double CurveSd = 0.04;

    // What blur and a file's rounding do to all lines alike: by trials with the tests' own camera.
    private const double CommonSdMm = 0.001;

    // Of the growth nothing is believed.
    private static readonly ImmutableArray<Observation> Beliefs = [new([1, 0, 0, 0], 1, FactorSd), new([0, 1, 0, 0], 0, DriftSd), new([0, 0, 1, 0], 0, 1), new([0, 0, 0, 1], 0, 1)];

    /// <summary>The reading, or why there is none.</summary>
    public static (GainReading? Reading, string? Why) Of(LightPlane light, SheetPose pose, CalibrationPlan plan, double blurMm, BarePaper? bare)
    {
        if (bare is null)
        {
            return (null, "too little bare paper is seen to compare them with");
        }

        if (bare.IsBlown)
        {
            return (null, "bare paper is as bright as the photo can show");
        }

        if (blurMm > LineLight.MostBlurMm)
        {
            return (null, "the photo is too blurred");
        }

        if (Fit(light, pose, plan, blurMm, bare, 1) is not { } fit)
        {
            return (null, "too few of them are seen open");
        }

        var curve = Fit(light, pose, plan, blurMm, bare, 1 + CurveSd) is { } steeper ? Math.Max(Math.Abs(steeper.AcrossMm - fit.AcrossMm), Math.Abs(steeper.AlongMm - fit.AlongMm)) : 0;
        return (fit with { CurveSdMm = Math.Sqrt((curve * curve) + (CommonSdMm * CommonSdMm)) }, null);
    }

    private static GainReading? Fit(LightPlane light, SheetPose pose, CalibrationPlan plan, double blurMm, BarePaper bare, double curve)
    {
        var block = CalibrationLines.Block(plan);
        var seen = CalibrationLines.Of(plan)
            .Select(line => (
                line.IsUpright, line.WidthMm, Along: (line.Middle.XMm - block.Centre.XMm) / (block.WidthMm / 2),
                OpenMm: bare.Light.At(line.Middle) is { } paper ? LineLight.OpenMm(light, pose, line, blurMm, paper.Light, curve) : null))
            .Where(line => line.OpenMm > LeastOpenMm).Select(line => (line.IsUpright, line.WidthMm, line.Along, OpenMm: line.OpenMm!.Value)).ToList();
        if (seen.Count(line => line.IsUpright) < FewestLines / 2 || seen.Count(line => !line.IsUpright) < FewestLines / 2)
        {
            return null;
        }

        // Unknowns: c, its drift, and the growth at either kind of edges.
        double[] known = [1, 0, 0, 0];
        LinearFit? fit = null;
        var used = seen;
        for (var round = 0; round < 6; round++)
        {
            var observations = ImmutableArray.CreateBuilder<Observation>();
            observations.AddRange(Beliefs);
            foreach (var line in used)
            {
                var (factor, open, at) = (known[0] + (known[1] * line.Along), line.WidthMm - (2 * known[line.IsUpright ? 2 : 3]), line.IsUpright ? 2 : 3);
                var row = new double[4];
                (row[0], row[1], row[at]) = (open, open * line.Along, -2 * factor);

                // Linear about what is known: the value of c and its drift stands in the row already.
                observations.Add(new([.. row], line.OpenMm - (2 * factor * known[at]), Sd(line.WidthMm)));
            }

            fit = LeastSquares.Fit(observations.ToImmutable());
            known = [.. fit.Mean];

            // A line that does not go with the others: dust, or a dot of toner in it.
            var limit = Math.Max(4, 4.5 * Robust.Sd(used.Select(line => Off(line, known))));
            var next = seen.Where(line => Math.Abs(Off(line, known)) < limit && line.WidthMm - (2 * known[line.IsUpright ? 2 : 3]) > LeastOpenMm).ToList();
            if (next.Count < FewestLines)
            {
                return null;
            }

            used = next;
        }

        var squares = used.Sum(line => Math.Pow(Off(line, known), 2));
        var scatter = Math.Sqrt((squares + PriorFreedom) / (Math.Max(0, used.Count - 4) + PriorFreedom));
        return new(known[2], known[3], scatter * Math.Max(fit!.Sd(2), fit.Sd(3)), 0, used.Count);
    }

    private static double Sd(double widthMm) => Math.Sqrt((LineSdMm * LineSdMm) + Math.Pow(CloudSdShare * widthMm, 2));

    private static double Off((bool IsUpright, double WidthMm, double Along, double OpenMm) line, double[] known) =>
        (line.OpenMm - ((known[0] + (known[1] * line.Along)) * (line.WidthMm - (2 * known[line.IsUpright ? 2 : 3])))) / Sd(line.WidthMm);
}
