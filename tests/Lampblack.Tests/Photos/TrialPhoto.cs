using System;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Photos;
using Lampblack.Quantities;
using Lampblack.Tests.Calibration;
using MathNet.Numerics.LinearAlgebra;

namespace Lampblack.Tests.Photos;

/// <summary>A drawn photo whose truth is known, and what was read of it.</summary>
internal sealed record TrialPhoto(Affine<SheetSpace, SheetSpace> Truth, PaperSize Paper, Checked<SheetPhoto?> Read)
{
    public static ImmutableArray<CalibrationPlan> Plans { get; } = [.. PaperSize.All.Select(CalibrationPlan.Of).OfType<CalibrationPlan>()];

    public MisregisterFit Fit => Read.Value!.Fit!;

    /// <summary>How far off the reading is at the worst point of the sheet: an affine map's error is largest in a corner.</summary>
    public double WorstMm => Worst(Fit);

    public double Worst(MisregisterFit fit) => new Point<SheetSpace>[] { new(0, 0), new(Paper.WidthMm, 0), new(0, Paper.HeightMm), new(Paper.WidthMm, Paper.HeightMm) }
        .Max(corner => fit.Map.Apply(corner).DistanceMm(Truth.Apply(corner)));

    /// <summary>The error of the six numbers in standard deviations, squared: chi-square with six degrees of freedom where the covariance is right.</summary>
    public double Distance(MisregisterFit fit, ImmutableArray<ImmutableArray<double>> covariance)
    {
        var error = MathNet.Numerics.LinearAlgebra.Vector<double>.Build.Dense([
            fit.Map.Xx - Truth.Xx, fit.Map.Xy - Truth.Xy, fit.Map.XMm - Truth.XMm, fit.Map.Yx - Truth.Yx, fit.Map.Yy - Truth.Yy, fit.Map.YMm - Truth.YMm]);
        var matrix = Matrix<double>.Build.Dense(6, 6, (row, column) => covariance[row][column]);
        return error * matrix.Cholesky().Solve(error);
    }

    /// <summary>A photo taken by hand, with 8 megapixels: every kind of fault at once, by chance that repeats.</summary>
    /// <param name="seed">Which.</param>
    /// <param name="thicknessMm">How deep the back is seen.</param>
    /// <param name="curlMm">How far the sheet's middle bulges or is hollow at most; flat where it is not told.</param>
    /// <param name="halfTurned">The same sheet, with it turned by 180 degrees before the camera.</param>
    public static TrialPhoto Take(int seed, double thicknessMm = 0, bool halfTurned = false, double? curlMm = null)
    {
        var chance = new Chance((ulong)seed + 1);
        var plan = Plans.Single(plan => plan.Paper.Name == (seed % 4) switch { 1 => "Letter", 3 => "A3", _ => "A4" });
        var truth = new Affine<SheetSpace, SheetSpace>(
            1 + Few(), Few(), chance.Between(-1, 1), Few(), 1 + Few(), chance.Between(-1, 1));
        var sheet = new DrawnSheet(plan, 1 + (seed % 200)) { Back = truth, GainMm = chance.Between(0, 0.08) };
        var camera = new DrawnCamera
        {
            Seed = seed + (halfTurned ? 5000 : 0),
            TiltDegrees = chance.Between(0, 25),
            TiltTowardsDegrees = chance.Between(0, 360),
            TurnDegrees = (90 * Math.Floor(chance.Between(0, 4))) + chance.Between(-10, 10) + (halfTurned ? 180 : 0),
            K1 = chance.Between(-0.1, 0.1),

            // On A3 two pixels of 8 million are more than the half millimetre from which photos are refused.
            BlurPx = chance.Between(0.7, plan.Paper.Name == "A3" ? 1.3 : 2),
            Noise = chance.Between(0.003, 0.02),
            ToneMapping = chance.Between(0, 0.4),
            Fill = chance.Between(0.7, 0.9),
            Focal = chance.Between(0.65, 0.85),
            IsFromBehind = seed % 5 == 4,
            ThicknessMm = thicknessMm,
            CurlMm = (curlMm ?? 0) * chance.Between(-1, 1),
        };
        return new(truth, plan.Paper, PhotoReading.Read($"photo-{seed}.jpg", camera.Jpeg(sheet), Plans, CancellationToken.None));

        double Few() => chance.Between(-0.003, 0.003);
    }
}
