using System;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Numerics;

namespace Lampblack.Lighting;

/// <summary>What must be otherwise than planned for legends to be as bright as they were seen.</summary>
/// <param name="WallReflectance">What walls throw back.</param>
/// <param name="FloorReflectance">What the floor throws back.</param>
/// <param name="WallSd">How well both are known, as a standard deviation.</param>
/// <param name="UnitFactors">How much of its light each unit gives, beside the middle one.</param>
/// <param name="UnitSds">How well each is known, as a share.</param>
/// <param name="CandelaPerM2">The pieces' luminance with all that, at the plan's exposure.</param>
/// <param name="RmsBefore">How far seen and predicted are apart, exposure free: root mean square of the logarithms.</param>
/// <param name="RmsAfter">How far seen and corrected are.</param>
internal sealed record PhotoCorrection(
    double WallReflectance,
    double FloorReflectance,
    double WallSd,
    ImmutableArray<double> UnitFactors,
    ImmutableArray<double> UnitSds,
    ImmutableArray<double> CandelaPerM2,
    double RmsBefore,
    double RmsAfter)
{
    /// <summary>Emitters of one kind differ by this much. From memory: bins of flux are that wide.</summary>
    private const double UnitSd = 0.2;

    /// <summary>Walls are white, or painted so: what they throw back is believed within this. Ours, no source.</summary>
    private const double ReflectanceSd = 0.1;

    /// <summary>What a photo and the reckoning leave open for each legend: this at first, then what the legends' own scatter says, within bounds. Ours, by drawn photos.</summary>
    private const double LegendSd = 0.04;
    private const double LeastLegendSd = 0.015;
    private const double MostLegendSd = 0.1;

    /// <summary>What is left over is smaller than the scatter, as the unknowns follow it.</summary>
    private const double FollowedFactor = 1.3;

    /// <summary>Legends further off than so many of that weigh less (Huber); after some rounds ever less (Cauchy), as something is in their way.</summary>
    private const double FarSds = 2;
    private const int FirstRounds = 5;
    private const int Rounds = 14;

    private const double StepReflectance = 0.01;
    private const double LeastReflectance = 0.02;
    private const double MostReflectance = 0.97;

    /// <summary>Least squares over the logarithms of what was seen.</summary>
    /// <param name="lighting">The plan.</param>
    /// <param name="seen">How bright each of its legends' pieces was seen, in any unit; not a number where it was not.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static PhotoCorrection Of(PanelLighting lighting, ImmutableArray<double> seen, CancellationToken cancellation)
    {
        var places = new PieceLights(lighting.Light, [.. lighting.Legends.Select(legend => legend.Piece)], cancellation);
        var box = lighting.Light.Box;
        var told = Enumerable.Range(0, seen.Length).Where(piece => seen[piece] > 0).ToArray();
        var logs = told.Select(piece => Math.Log(seen[piece])).ToArray();
        var planned = Lights(0);
        var count = planned.Length;
        var (factors, change) = (new double[count], 0.0);
        var left = Left(Model(planned, factors));
        var before = Rms(left);
        LinearFit? fit = null;
        for (var round = 0; round < Rounds && told.Length > 0; round++)
        {
            cancellation.ThrowIfCancellationRequested();
            var lights = Lights(change);
            var step = box.WallReflectance + change + StepReflectance < MostReflectance ? StepReflectance : -StepReflectance;
            var (model, moved) = (Model(lights, factors), Model(Lights(change + step), factors));
            var legendSd = round < 2 ? LegendSd : Math.Clamp(FollowedFactor * Robust.Sd(left), LeastLegendSd, MostLegendSd);
            var observations = ImmutableArray.CreateBuilder<Observation>();
            for (var index = 0; index < told.Length; index++)
            {
                var piece = told[index];
                var byUnit = Enumerable.Range(0, count).Select(unit => Math.Exp(factors[unit]) * lights[unit][piece] / model[piece]).ToArray();
                var byWalls = Math.Log(moved[piece] / model[piece]) / step;
                var value = logs[index] - Math.Log(model[piece]) + byUnit.Zip(factors, (slope, factor) => slope * factor).Sum() + (byWalls * change);
                observations.Add(new([1, .. byUnit, byWalls], value, legendSd / Math.Sqrt(Weight(left[index] / legendSd, round))));
            }

            for (var unknown = 1; unknown <= count + 1; unknown++)
            {
                observations.Add(new([.. Enumerable.Range(0, count + 2).Select(other => other == unknown ? 1.0 : 0)], 0, unknown <= count ? UnitSd : ReflectanceSd));
            }

            fit = LeastSquares.Fit(observations.ToImmutable());
            var next = fit.Mean[1..^1];
            var nextChange = Math.Clamp(fit.Mean[^1], Math.Max(-box.WallReflectance, change - 0.2), change + 0.2);
            var isDone = round > FirstRounds && Math.Abs(nextChange - change) < 1e-4 && next.Zip(factors, (one, other) => Math.Abs(one - other)).DefaultIfEmpty(0).Max() < 1e-4;
            (factors, change) = ([.. next], nextChange);
            left = Left(Model(Lights(change), factors));
            if (isDone)
            {
                break;
            }
        }

        // What all emitters do alike is exposure: each is told beside the middle one.
        var middle = Robust.Median(factors);
        return new(
            Thrown(box.WallReflectance, change),
            Thrown(box.FloorReflectance, change),
            fit?.Sd(count + 1) ?? ReflectanceSd,
            [.. factors.Select(factor => Math.Exp(factor - middle))],
            [.. Enumerable.Range(0, count).Select(unit => fit?.SdOf(BesideOthers(unit)) ?? UnitSd)],
            [.. Model(Lights(change), factors)],
            before,
            Rms(left));

        ImmutableArray<double> BesideOthers(int unit) =>
            [0, .. Enumerable.Range(0, count).Select(other => other == unit ? 1 : -1.0 / (count - 1)), 0];

        float[][] Lights(double by) => places.With(Thrown(box.WallReflectance, by), Thrown(box.FloorReflectance, by)).Of(lighting.Units, cancellation).CandelaPerM2;

        // Exposure is whatever the middle legend asks for, so that one with something in its way does not shift all others.
        double[] Left(double[] model)
        {
            var apart = told.Select((piece, index) => logs[index] - Math.Log(model[piece])).ToArray();
            var exposure = Robust.Median(apart);
            return [.. apart.Select(one => one - exposure)];
        }
    }

    private static double[] Model(float[][] lights, double[] factors) =>
        [.. Enumerable.Range(0, lights[0].Length).Select(piece => Math.Max(1e-12, lights.Select((light, unit) => Math.Exp(factors[unit]) * light[piece]).Sum()))];

    private static double Weight(double sds, int round) => round < FirstRounds
        ? Math.Abs(sds) <= FarSds ? 1 : FarSds / Math.Abs(sds)
        : 1 / (1 + (sds / FarSds * (sds / FarSds)));

    private static double Thrown(double reflectance, double by) => reflectance == 0 ? 0 : Math.Clamp(reflectance + by, Math.Min(reflectance, LeastReflectance), Math.Max(reflectance, MostReflectance));

    private static double Rms(double[] left)
    {
        var mean = left.DefaultIfEmpty(0).Average();
        return Math.Sqrt(left.Select(one => (one - mean) * (one - mean)).DefaultIfEmpty(0).Average());
    }
}
