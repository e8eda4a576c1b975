using System;
using System.Collections.Immutable;
using System.Linq;
using MathNet.Numerics.Distributions;

namespace Lampblack.Numerics;

/// <summary>Whether a new group fits those that were seen before.</summary>
/// <param name="ChiSquare">How far its observations lie from what was predicted, in the covariance of the prediction: chi-square distributed if the scatter were known.</param>
/// <param name="Limit">What one group in a thousand exceeds, the scatter being only estimated.</param>
/// <param name="Observations">How many observations there were.</param>
public sealed record ChangeTest(double ChiSquare, double Limit, int Observations)
{
    private const double Sure = 0.999;

    /// <summary>Whether it does not fit.</summary>
    public bool IsChanged => ChiSquare > Limit;

    /// <summary>Tests a group's observations against a fit that has not seen them.</summary>
    /// <remarks>The prediction's covariance is that of the mean, of the scatter and of the observations; as the scatter is estimated, the limit is F's and not chi-square's.</remarks>
    /// <param name="fit">What was known before.</param>
    /// <param name="seen">The group's observations; at least one.</param>
    public static ChangeTest Of(ScatterFit fit, ImmutableArray<Observation> seen)
    {
        ArgumentNullException.ThrowIfNull(fit);
        var count = seen.Length;
        var size = fit.Mean.Mean.Length;
        var scatter = Enumerable.Range(0, size).Select(unknown => fit.SdOf(unknown) * fit.SdOf(unknown)).ToArray();
        var covariance = new double[count, count];
        for (var row = 0; row < count; row++)
        {
            for (var column = 0; column < count; column++)
            {
                covariance[row, column] = fit.Mean.CovarianceOf(seen[row].Coefficients, seen[column].Coefficients)
                    + scatter.Select((variance, unknown) => variance * seen[row].Coefficients[unknown] * seen[column].Coefficients[unknown]).Sum()
                    + (row == column ? seen[row].Sd * seen[row].Sd : 0);
            }
        }

        double[] off = [.. seen.Select(one => one.Value - fit.Mean.MeanOf(one.Coefficients))];
        var solved = SmallSystem.Solve(covariance, off) ?? throw new ArgumentException("the observations say the same thing without error", nameof(seen));
        return new(off.Zip(solved).Sum(pair => pair.First * pair.Second), count * FisherSnedecor.InvCDF(count, fit.Scatter.Min(one => one.Degrees), Sure), count);
    }
}
