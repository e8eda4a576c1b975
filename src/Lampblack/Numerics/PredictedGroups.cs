using System;
using System.Collections.Immutable;
using System.Linq;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Random;

namespace Lampblack.Numerics;

/// <summary>Groups that may come next, drawn from what a fit knows: how far each lies from the mean as it was estimated.</summary>
public static class PredictedGroups
{
    private const int Seed = 20261;

    /// <summary>Deviations of groups that nobody has seen yet; always the same for the same fit.</summary>
    /// <remarks>
    /// Each deviation is that of the mean from its estimate plus that of the group from the mean, both widened class by class as Student's t is against the normal
    /// distribution: the scatter is not known, it was estimated.
    /// </remarks>
    /// <param name="fit">What is known.</param>
    /// <param name="count">How many are drawn.</param>
    public static double[][] Of(ScatterFit fit, int count)
    {
        var size = fit.Mean.Mean.Length;
        var chance = new MersenneTwister(Seed, threadSafe: false);
        var root = Root(fit.Mean.Covariance);
        var classes = Enumerable.Range(0, size).Select(fit.ClassOf).ToArray();
        var sds = Enumerable.Range(0, size).Select(fit.SdOf).ToArray();
        var drawn = new double[count][];
        for (var group = 0; group < count; group++)
        {
            var ofMean = root * Vector<double>.Build.Dense(size, _ => Normal.Sample(chance, 0, 1));
            // Chi-square as the gamma distribution that it is: the library draws one of whole degrees as a sum of so many squares.
            var widths = fit.Scatter.Select(scatter => Math.Sqrt(scatter.Degrees / Gamma.Sample(chance, scatter.Degrees / 2, 0.5))).ToArray();
            drawn[group] = [.. Enumerable.Range(0, size).Select(unknown => widths[classes[unknown]] * (ofMean[unknown] + (sds[unknown] * Normal.Sample(chance, 0, 1))))];
        }

        return drawn;
    }

    /// <summary>A matrix whose product with its own transposed is the covariance, each unknown scaled by its standard deviation first.</summary>
    private static Matrix<double> Root(ImmutableArray<ImmutableArray<double>> covariance)
    {
        var size = covariance.Length;
        var sds = covariance.Select((row, index) => Math.Sqrt(row[index])).ToArray();
        var scaled = Matrix<double>.Build.Dense(size, size, (row, column) => covariance[row][column] / (sds[row] * sds[column]));
        return Matrix<double>.Build.DiagonalOfDiagonalArray(sds) * scaled.Cholesky().Factor;
    }
}
