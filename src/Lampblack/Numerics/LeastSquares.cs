using System;
using System.Collections.Immutable;
using System.Linq;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;

namespace Lampblack.Numerics;

/// <summary>Fits unknowns to more observations than unknowns, each weighing by its own standard deviation.</summary>
public static class LeastSquares
{
    /// <summary>The unknowns that fit best, with their covariance.</summary>
    /// <remarks>
    /// Every observation is divided by its standard deviation; the covariance is then the inverse of the normal matrix, because the
    /// standard deviations are known and not estimated from what is left over. It is taken from the QR factors, which lose half as many digits
    /// as the normal matrix itself would.
    /// </remarks>
    /// <param name="observations">At least as many independent ones as there are unknowns.</param>
    /// <exception cref="ArgumentException">There are too few observations, a standard deviation is not above 0, or the unknowns can't be told apart.</exception>
    public static LinearFit Fit(ImmutableArray<Observation> observations)
    {
        var unknowns = observations.IsDefaultOrEmpty ? 0 : observations[0].Coefficients.Length;
        if (unknowns == 0 || observations.Length < unknowns || observations.Any(one => one.Coefficients.Length != unknowns))
        {
            throw new ArgumentException("needs at least as many observations as unknowns, each with a coefficient for each unknown", nameof(observations));
        }

        if (observations.Any(one => !double.IsFinite(one.Value) || !double.IsFinite(one.Sd) || one.Sd <= 0 || one.Coefficients.Any(factor => !double.IsFinite(factor))))
        {
            throw new ArgumentException("needs finite numbers and standard deviations above 0", nameof(observations));
        }

        var design = Matrix<double>.Build.Dense(observations.Length, unknowns, (row, column) => observations[row].Coefficients[column] / observations[row].Sd);
        var seen = Vector<double>.Build.Dense(observations.Length, row => observations[row].Value / observations[row].Sd);
        var factors = design.QR(QRMethod.Thin);
        var diagonal = factors.R.Diagonal().PointwiseAbs();
        if (diagonal.Minimum() <= diagonal.Maximum() * 1e-13)
        {
            throw new ArgumentException("the observations do not tell the unknowns apart", nameof(observations));
        }

        var back = factors.R.Inverse();
        var mean = back * (factors.Q.TransposeThisAndMultiply(seen));
        var covariance = back.TransposeAndMultiply(back);
        return new([.. mean], [.. covariance.EnumerateRows().Select(row => row.ToImmutableArray())]);
    }
}
