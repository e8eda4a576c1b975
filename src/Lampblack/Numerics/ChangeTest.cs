using System;
using System.Collections.Immutable;
using System.Linq;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Random;

namespace Lampblack.Numerics;

/// <summary>Whether a new group fits those that were seen before.</summary>
/// <param name="ChiSquare">How far its observations lie from what was predicted, in the covariance of the prediction: chi-square distributed if the scatter were known.</param>
/// <param name="Limit">What one group in a thousand exceeds: by chi-square, and where that is exceeded by groups drawn with a scatter that is only estimated.</param>
/// <param name="Observations">How many observations there were.</param>
public sealed record ChangeTest(double ChiSquare, double Limit, int Observations)
{
    private const double Sure = 0.999;
    private const int Draws = 10_000;
    private const int Seed = 31;

    /// <summary>Whether it does not fit.</summary>
    public bool IsChanged => ChiSquare > Limit;

    /// <summary>Tests a group's observations against a fit that has not seen them.</summary>
    /// <remarks>The prediction's covariance is that of the mean, of the scatter and of the observations.</remarks>
    /// <param name="fit">What was known before.</param>
    /// <param name="seen">The group's observations; at least one.</param>
    public static ChangeTest Of(ScatterFit fit, ImmutableArray<Observation> seen)
    {
        ArgumentNullException.ThrowIfNull(fit);
        var count = seen.Length;
        var size = fit.Mean.Mean.Length;
        var scatter = Enumerable.Range(0, size).Select(unknown => fit.SdOf(unknown) * fit.SdOf(unknown)).ToArray();
        var covariance = Matrix<double>.Build.Dense(count, count, (row, column) =>
            fit.Mean.CovarianceOf(seen[row].Coefficients, seen[column].Coefficients)
            + scatter.Select((variance, unknown) => variance * seen[row].Coefficients[unknown] * seen[column].Coefficients[unknown]).Sum()
            + (row == column ? seen[row].Sd * seen[row].Sd : 0)).Cholesky();
        var square = Square(index => seen[index].Value - fit.Mean.MeanOf(seen[index].Coefficients));
        var limit = ChiSquared.InvCDF(count, Sure);
        if (square > limit)
        {
            var chance = new MersenneTwister(Seed, threadSafe: false);
            var drawn = PredictedGroups.Of(fit, Draws).Select(off => Square(index =>
                off.Select((value, unknown) => value * seen[index].Coefficients[unknown]).Sum() + Normal.Sample(chance, 0, seen[index].Sd))).Order().ToList();
            limit = Math.Max(limit, drawn[(int)(Sure * Draws) - 1]);
        }

        return new(square, limit, count);

        double Square(Func<int, double> off)
        {
            var vector = Vector<double>.Build.Dense(count, off);
            return vector * covariance.Solve(vector);
        }
    }
}
