using System;
using System.Collections.Immutable;
using System.Linq;
using CsCheck;
using Lampblack.Numerics;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearRegression;
using Xunit;

namespace Lampblack.Tests.Numerics;

public sealed class LeastSquaresTests
{
    /// <summary>Textbook formulas of a straight line with known errors: slope Sxy / Sxx, its variance s² / Sxx, the mean's s² / n.</summary>
    [Fact]
    public void A_straight_line_comes_out_as_the_textbook_formulas_have_it()
    {
        double[] x = [-2, -1, 0, 1, 2, 3, 7];
        double[] y = [1.1, 1.9, 3.2, 3.9, 5.1, 5.8, 10.3];
        const double Sd = 0.25;
        var middle = x.Average();
        var sxx = x.Sum(value => (value - middle) * (value - middle));
        var slope = x.Zip(y).Sum(pair => (pair.First - middle) * (pair.Second - y.Average())) / sxx;

        var fit = LeastSquares.Fit([.. x.Zip(y).Select(pair => new Observation([1, pair.First], pair.Second, Sd))]);

        Assert.Equal(slope, fit.Mean[1], 12);
        Assert.Equal(y.Average() - (slope * middle), fit.Mean[0], 12);
        Assert.Equal(Sd / Math.Sqrt(sxx), fit.Sd(1), 12);
        Assert.Equal(Sd / Math.Sqrt(x.Length), fit.SdOf([1, middle]), 12);
        Assert.Equal(0, fit.CovarianceOf([1, middle], [0, 1]), 12);
        Assert.Equal(-middle * Sd * Sd / sxx, fit.Covariance[0][1], 12);
    }

    /// <summary>The normal law's conjugate formula: precisions add, means are weighed by them.</summary>
    [Fact]
    public void Prior_knowledge_weighs_as_much_as_it_is_precise()
    {
        var fit = LeastSquares.Fit([new([1], 0, 1.5), new([1], 1.2, 0.1), new([1], 1.0, 0.2)]);
        var precision = (1 / (1.5 * 1.5)) + (1 / 0.01) + (1 / 0.04);
        Assert.Equal(((1.2 / 0.01) + (1.0 / 0.04)) / precision, fit.Mean[0], 12);
        Assert.Equal(1 / Math.Sqrt(precision), fit.Sd(0), 12);
    }

    /// <summary>Against MathNet's own weighted regression (by the normal matrix, another way than ours) and the normal matrix' inverse.</summary>
    [Fact]
    public void Any_weighted_fit_agrees_with_the_library_s_regression() =>
        Gen.Select(Gen.Double[-3, 3].Array[5].Array[8, 30], Gen.Double[-5, 5].Array[30], Gen.Double[0.05, 2].Array[30]).Sample(
            (rows, values, sds) =>
            {
                ImmutableArray<Observation> observations =
                [
                    .. Enumerable.Range(0, 5).Select(unknown => new Observation([.. Enumerable.Range(0, 5).Select(i => i == unknown ? 1.0 : 0)], 0, 0.7)),
                    .. rows.Select((row, i) => new Observation([.. row], values[i], sds[i])),
                ];
                var fit = LeastSquares.Fit(observations);

                var design = Matrix<double>.Build.DenseOfRowArrays(observations.Select(one => one.Coefficients.ToArray()));
                var seen = Vector<double>.Build.DenseOfEnumerable(observations.Select(one => one.Value));
                var weights = Matrix<double>.Build.DiagonalOfDiagonalArray([.. observations.Select(one => 1 / (one.Sd * one.Sd))]);
                var expected = WeightedRegression.Weighted(design, seen, weights);
                var covariance = (design.Transpose() * weights * design).Inverse();
                for (var i = 0; i < 5; i++)
                {
                    Assert.Equal(expected[i], fit.Mean[i], 8);
                    for (var j = 0; j < 5; j++)
                    {
                        Assert.Equal(covariance[i, j], fit.Covariance[i][j], 8);
                    }
                }
            },
            iter: 200);

    [Fact]
    public void What_cannot_be_fitted_is_refused()
    {
        Assert.Throws<ArgumentException>(() => LeastSquares.Fit([]));
        Assert.Throws<ArgumentException>(() => LeastSquares.Fit([new([1, 0], 1, 1)]));
        Assert.Throws<ArgumentException>(() => LeastSquares.Fit([new([1, 1], 1, 1), new([2, 2], 1, 1), new([3, 3], 1, 1)]));
        Assert.Throws<ArgumentException>(() => LeastSquares.Fit([new([1], 1, 0)]));
        Assert.Throws<ArgumentException>(() => LeastSquares.Fit([new([1], double.NaN, 1)]));
        Assert.Throws<ArgumentException>(() => LeastSquares.Fit([new([1], 1, 1), new([1, 2], 1, 1)]));
    }
}
