using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Numerics;

/// <summary>The unknowns as the observations tell them, and how well they are known.</summary>
/// <param name="Mean">The most likely value of each unknown.</param>
/// <param name="Covariance">Their covariances, row by row.</param>
public sealed record LinearFit(ImmutableArray<double> Mean, ImmutableArray<ImmutableArray<double>> Covariance)
{
    /// <summary>The most likely value of a sum of coefficient times unknown.</summary>
    /// <param name="coefficients">One for each unknown.</param>
    public double MeanOf(ImmutableArray<double> coefficients) => Dot(coefficients, Mean);

    /// <summary>The standard deviation of such a sum.</summary>
    /// <param name="coefficients">One for each unknown.</param>
    public double SdOf(ImmutableArray<double> coefficients) => Math.Sqrt(Math.Max(0, CovarianceOf(coefficients, coefficients)));

    /// <summary>The covariance of two such sums.</summary>
    /// <param name="first">The coefficients of one, one for each unknown.</param>
    /// <param name="second">The coefficients of the other.</param>
    public double CovarianceOf(ImmutableArray<double> first, ImmutableArray<double> second) =>
        Dot(first, [.. Covariance.Select(row => Dot(row, second))]);

    /// <summary>The standard deviation of one unknown.</summary>
    /// <param name="unknown">Its number, from 0.</param>
    public double Sd(int unknown) => Math.Sqrt(Math.Max(0, Covariance[unknown][unknown]));

    private static double Dot(ImmutableArray<double> first, ImmutableArray<double> second)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(first.Length, second.Length);
        var sum = 0.0;
        for (var i = 0; i < first.Length; i++)
        {
            sum += first[i] * second[i];
        }

        return sum;
    }
}
