using System;
using System.Linq;
using Lampblack.Numerics;
using Xunit;

namespace Lampblack.Tests.Numerics;

/// <summary>The solver against cases that others have published or that follow exactly.</summary>
public sealed class PublishedCasesTests
{
    /// <summary>NIST StRD, linear regression: Norris. J. Norris, calibration of ozone monitors; certified values of the Statistical Reference Datasets.</summary>
    [Fact]
    public void The_calibration_line_of_Norris_comes_out_as_certified()
    {
        double[] y =
        [
            0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3,
            0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
        ];
        double[] x =
        [
            0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3,
            0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
        ];
        Assert.Equal(36, x.Length);
        var fit = LeastSquares.Fit([.. x.Zip(y).Select(pair => new Observation([1, pair.First], pair.Second, 1))]);
        Assert.Equal(-0.262323073774029, fit.Mean[0], 1e-12);
        Assert.Equal(1.00211681802045, fit.Mean[1], 1e-13);

        // Certified: the residual standard deviation, and with it those of the estimates.
        var residual = Math.Sqrt(x.Zip(y).Sum(pair => Math.Pow(pair.Second - fit.MeanOf([1, pair.First]), 2)) / (x.Length - 2));
        Assert.Equal(0.884796396144373, residual, 1e-12);
        Assert.Equal(0.232818234301152, residual * fit.Sd(0), 1e-12);
        Assert.Equal(0.000429796848199937, residual * fit.Sd(1), 1e-15);
    }

    /// <summary>
    /// S. Umeyama, Least-squares estimation of transformation parameters between two point patterns, IEEE PAMI 13 (1991) 376-380: the worked example.
    /// A turn with a scale has two numbers in which it is linear, and can't mirror, so that our solver must come to the same minimum.
    /// </summary>
    [Fact]
    public void The_worked_example_of_Umeyama_comes_out_exactly()
    {
        (double X, double Y)[] from = [(0, 0), (1, 0), (0, 2)];
        (double X, double Y)[] to = [(0, 0), (-1, 0), (0, 2)];
        var fit = LeastSquares.Fit([.. from.Zip(to).SelectMany(pair => new Observation[]
        {
            new([pair.First.X, -pair.First.Y, 1, 0], pair.Second.X, 1),
            new([pair.First.Y, pair.First.X, 0, 1], pair.Second.Y, 1),
        })]);
        var (a, b) = (fit.Mean[0], fit.Mean[1]);
        Assert.Equal(0.7211102551, Math.Sqrt((a * a) + (b * b)), 1e-9);
        Assert.Equal(-33.690068, Math.Atan2(b, a) * 180 / Math.PI, 1e-6);
        Assert.Equal(-0.8, fit.Mean[2], 1e-12);
        Assert.Equal(0.4, fit.Mean[3], 1e-12);
        var squares = from.Zip(to).Sum(pair =>
            Math.Pow(fit.MeanOf([pair.First.X, -pair.First.Y, 1, 0]) - pair.Second.X, 2) + Math.Pow(fit.MeanOf([pair.First.Y, pair.First.X, 0, 1]) - pair.Second.Y, 2));
        Assert.Equal(8 / 15.0, squares / 3, 1e-12);
    }

    /// <summary>Exact: six numbers through four corners leave a corner that is off by 0.4 with a tenth of it, in turn plus and minus; and a corner is known as the root of 3/4 of one place.</summary>
    [Fact]
    public void Four_corners_share_one_corner_s_error_and_are_known_as_the_formula_has_it()
    {
        (double X, double Y)[] corners = [(0, 0), (180, 0), (180, 120), (0, 120)];
        var fit = LeastSquares.Fit([.. corners.Select((corner, index) => new Observation([1, corner.X, corner.Y], index == 2 ? 0.4 : 0, 1))]);
        double[] left = [.. corners.Select((corner, index) => (index == 2 ? 0.4 : 0) - fit.MeanOf([1, corner.X, corner.Y]))];
        Assert.Equal([0.1, -0.1, 0.1, -0.1], left.Select(value => Math.Round(value, 9, MidpointRounding.AwayFromZero)));
        Assert.Equal(Math.Sqrt(0.75), fit.SdOf([1, 180, 120]), 1e-9);

        // A turn with a scale about the middle has two numbers less: 0.70711 of one place.
        var alike = LeastSquares.Fit([.. corners.SelectMany(corner => new Observation[] { new([corner.X - 90, 60 - corner.Y, 1, 0], 0, 1), new([corner.Y - 60, corner.X - 90, 0, 1], 0, 1) })]);
        Assert.Equal(0.70711, alike.SdOf([90, -60, 1, 0]), 1e-5);
    }

    /// <summary>Exact: an affine map comes back from five places.</summary>
    [Fact]
    public void An_affine_map_comes_back_from_its_own_points()
    {
        double[] map = [0.999, 0.002, 0.3, -0.0015, 1.0012, -0.45];
        (double X, double Y)[] places = [(10, 10), (200, 10), (200, 287), (10, 287), (105, 148.5)];
        var fit = LeastSquares.Fit([.. places.SelectMany(place => new Observation[]
        {
            new([place.X, place.Y, 1, 0, 0, 0], (map[0] * place.X) + (map[1] * place.Y) + map[2], 0.01),
            new([0, 0, 0, place.X, place.Y, 1], (map[3] * place.X) + (map[4] * place.Y) + map[5], 0.01),
        })]);
        Assert.All(map.Zip(fit.Mean), pair => Assert.Equal(pair.First, pair.Second, 1e-9));
    }
}
