using System;
using System.Linq;
using Lampblack.Numerics;
using MathNet.Numerics.Distributions;
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
        double[] map = [0.998, 0.0015, 0.8, -0.0012, 0.9995, -0.6];
        ((double X, double Y) From, (double X, double Y) To)[] places =
            [((0, 0), (0.8, -0.6)), ((180, 0), (180.44, -0.816)), ((180, 120), (180.62, 119.124)), ((0, 120), (0.98, 119.34)), ((90, 60), (90.71, 59.262))];
        var fit = LeastSquares.Fit([.. places.SelectMany(place => new Observation[]
        {
            new([place.From.X, place.From.Y, 1, 0, 0, 0], place.To.X, 0.01),
            new([0, 0, 0, place.From.X, place.From.Y, 1], place.To.Y, 0.01),
        })]);
        Assert.All(map.Zip(fit.Mean), pair => Assert.Equal(pair.First, pair.Second, 1e-9));
    }

    /// <summary>
    /// NIST StRD, linear regression: Longley, "higher level of difficulty". J. W. Longley, An appraisal of least squares programs for the electronic computer from the viewpoint
    /// of the user, Journal of the American Statistical Association 62 (1967) 819-841; certified values of the Statistical Reference Datasets. Data and values from memory.
    /// </summary>
    [Fact]
    public void The_nearly_dependent_columns_of_Longley_come_out_as_certified()
    {
        double[] y = [60323, 61122, 60171, 61187, 63221, 63639, 64989, 63761, 66019, 67857, 68169, 66513, 68655, 69564, 69331, 70551];
        double[][] x =
        [
            [83.0, 88.5, 88.2, 89.5, 96.2, 98.1, 99.0, 100.0, 101.2, 104.6, 108.4, 110.8, 112.6, 114.2, 115.7, 116.9],
            [234289, 259426, 258054, 284599, 328975, 346999, 365385, 363112, 397469, 419180, 442769, 444546, 482704, 502601, 518173, 554894],
            [2356, 2325, 3682, 3351, 2099, 1932, 1870, 3578, 2904, 2822, 2936, 4681, 3813, 3931, 4806, 4007],
            [1590, 1456, 1616, 1650, 3099, 3594, 3547, 3350, 3048, 2857, 2798, 2637, 2552, 2514, 2572, 2827],
            [107608, 108632, 109773, 110929, 112075, 113270, 115094, 116219, 117388, 118734, 120445, 121950, 123366, 125368, 127852, 130081],
            [.. Enumerable.Range(1947, 16)],
        ];
        double[] certified = [-3482258.63459582, 15.0618722713733, -0.0358191792925910, -2.02022980381683, -1.03322686717359, -0.0511041056535807, 1829.15146461355];
        double[] deviations = [890420.383607373, 84.9149257747669, 0.0334910077722432, 0.488399681651699, 0.214274163161675, 0.226073200069370, 455.478499142212];
        var fit = LeastSquares.Fit([.. y.Select((value, index) => new Observation([1, .. x.Select(column => column[index])], value, 1))]);
        Assert.All(certified.Zip(fit.Mean), pair => Assert.Equal(1, pair.Second / pair.First, 1e-8));
        var residual = Math.Sqrt(y.Select((value, index) => Math.Pow(value - fit.MeanOf([1, .. x.Select(column => column[index])]), 2)).Sum() / 9);
        Assert.Equal(304.854073561965, residual, 1e-6);
        Assert.All(deviations.Index(), pair => Assert.Equal(1, residual * fit.Sd(pair.Index) / pair.Item, 1e-8));
    }

    /// <summary>The same three points without a scale (B. K. P. Horn, Closed-form solution of absolute orientation, 1987, for the form): the turn is the one with the scale, the shift is fitted.</summary>
    [Fact]
    public void Without_a_scale_Umeyamas_points_give_the_rigid_shift()
    {
        (double X, double Y)[] from = [(0, 0), (1, 0), (0, 2)];
        (double X, double Y)[] to = [(0, 0), (-1, 0), (0, 2)];
        var turn = LeastSquares.Fit([.. from.Zip(to).SelectMany(pair => new Observation[]
        {
            new([pair.First.X, -pair.First.Y, 1, 0], pair.Second.X, 1),
            new([pair.First.Y, pair.First.X, 0, 1], pair.Second.Y, 1),
        })]);
        var (sine, cosine) = Math.SinCos(Math.Atan2(turn.Mean[1], turn.Mean[0]));
        var turned = from.Select(place => (X: (cosine * place.X) - (sine * place.Y), Y: (sine * place.X) + (cosine * place.Y))).ToList();
        var fit = LeastSquares.Fit([.. turned.Zip(to).SelectMany(pair => new Observation[] { new([1, 0], pair.Second.X - pair.First.X, 1), new([0, 1], pair.Second.Y - pair.First.Y, 1) })]);
        Assert.Equal(-0.9804836, fit.Mean[0], 1e-6);
        Assert.Equal(0.2968665, fit.Mean[1], 1e-6);
        var squares = turned.Zip(to).Sum(pair => Math.Pow(pair.First.X + fit.Mean[0] - pair.Second.X, 2) + Math.Pow(pair.First.Y + fit.Mean[1] - pair.Second.Y, 2));
        Assert.Equal(0.6197550, squares / 3, 1e-6);
    }

    /// <summary>Exact: a turn with one scale can't follow two scales; each corner of 180 x 120 mm is left 0.0748845 mm off (90 and 60 mm times what their scales lack of the weighted mean). That is why the fit has six numbers.</summary>
    [Fact]
    public void One_scale_for_both_directions_leaves_the_corners_off()
    {
        const double Mean = ((90 * 90 * 0.998) + (60 * 60 * 0.9995)) / ((90 * 90) + (60 * 60));
        (double X, double Y)[] corners = [(0, 0), (180, 0), (180, 120), (0, 120)];
        var fit = LeastSquares.Fit([.. corners.SelectMany(corner => new Observation[]
        {
            new([corner.X, -corner.Y, 1, 0], 0.998 * corner.X, 1),
            new([corner.Y, corner.X, 0, 1], 0.9995 * corner.Y, 1),
        })]);
        Assert.All(corners, corner => Assert.Equal(
            double.Hypot(90 * (0.998 - Mean), 60 * (0.9995 - Mean)),
            double.Hypot(fit.MeanOf([corner.X, -corner.Y, 1, 0]) - (0.998 * corner.X), fit.MeanOf([corner.Y, corner.X, 0, 1]) - (0.9995 * corner.Y)), 1e-9));
        Assert.Equal(0.0748845, double.Hypot(90 * (0.998 - Mean), 60 * (0.9995 - Mean)), 1e-7);
    }

    /// <summary>Exact: with corners at (+-100, +-60) a place is known as the formula has it, with four numbers and with six.</summary>
    [Theory]
    [InlineData(0, 0, 0.5, 0.5)]
    [InlineData(100, 60, 0.70711, 0.86603)]
    [InlineData(50, 30, 0.55902, 0.61237)]
    [InlineData(100, 0, 0.65865, 0.70711)]
    public void A_place_is_known_as_well_as_the_corners_and_its_distance_from_them_allow(double x, double y, double alike, double affine)
    {
        (double X, double Y)[] corners = [(-100, -60), (100, -60), (100, 60), (-100, 60)];
        var six = LeastSquares.Fit([.. corners.Select(corner => new Observation([1, corner.X, corner.Y], 0, 1))]);
        Assert.Equal(affine, six.SdOf([1, x, y]), 1e-5);
        var four = LeastSquares.Fit([.. corners.SelectMany(corner => new Observation[] { new([corner.X, -corner.Y, 1, 0], 0, 1), new([corner.Y, corner.X, 0, 1], 0, 1) })]);
        Assert.Equal(alike, four.SdOf([x, -y, 1, 0]), 1e-5);
    }

    /// <summary>Exact: -2 ln (1 - p); the radius that holds 95 % at 0.25 mm each way; what ellipses of one, two and three standard deviations hold. The library's distribution, from which limits are taken.</summary>
    [Fact]
    public void Chi_square_with_two_degrees_of_freedom_is_as_tables_have_it()
    {
        (double Share, double Square)[] table = [(0.9, 4.6052), (0.95, 5.9915), (0.99, 9.2103), (0.997, 11.6183), (0.999, 13.8155)];
        Assert.All(table, row => Assert.Equal(row.Square, ChiSquared.InvCDF(2, row.Share), 5e-5));
        Assert.Equal(0.611937, 0.25 * Math.Sqrt(ChiSquared.InvCDF(2, 0.95)), 1e-6);
        Assert.All(new[] { (1, 0.3935), (2, 0.8647), (3, 0.9889) }, row => Assert.Equal(row.Item2, ChiSquared.CDF(2, row.Item1 * row.Item1), 5e-5));

        // What a new sheet is tested by, where it lies near.
        var known = ScatterFit.Of([new([1, 0], 0, 1), new([0, 1], 0, 1)], [[new([1, 0], 0.01, 0.1), new([0, 1], 0.02, 0.1)]], [new([0, 1], [0.1, 0.1], 5)]);
        Assert.Equal(13.8155, ChangeTest.Of(known, [new([1, 0], 0, 0.1), new([0, 1], 0, 0.1)]).Limit, 5e-5);
    }

    /// <summary>Exact: the error ellipse of [[4, 2], [2, 3]] has half axes 5.772508 and 2.935712 at 95 %, the longer one 37.98188 degrees up: the largest and the smallest deviation of any direction.</summary>
    [Fact]
    public void Deviations_of_all_directions_span_the_error_ellipse()
    {
        var fit = new LinearFit([0, 0], [[4, 2], [2, 3]]);
        var ways = Enumerable.Range(0, 1_800_000).Select(step => step / 10_000.0).Select(degrees =>
        {
            var (y, x) = Math.SinCos(degrees * Math.PI / 180);
            return (Degrees: degrees, Axis: Math.Sqrt(5.991464547) * fit.SdOf([x, y]));
        }).ToList();
        var longest = ways.MaxBy(way => way.Axis);
        Assert.Equal(5.772508, longest.Axis, 1e-6);
        Assert.Equal(37.98188, longest.Degrees, 1e-4);
        Assert.Equal(2.935712, ways.Min(way => way.Axis), 1e-6);
    }

    /// <summary>Exact: the unit square to the trapezium (0, 0), (10, 0), (8, 8), (2, 8) by eight numbers; where the diagonals cross stays where they cross.</summary>
    [Fact]
    public void A_square_seen_aslant_keeps_the_crossing_of_its_diagonals()
    {
        (double X, double Y)[] square = [(0, 0), (1, 0), (1, 1), (0, 1)];
        (double X, double Y)[] seen = [(0, 0), (10, 0), (8, 8), (2, 8)];
        var h = LeastSquares.Fit([.. square.Zip(seen).SelectMany(pair => new Observation[]
        {
            new([pair.First.X, pair.First.Y, 1, 0, 0, 0, -pair.Second.X * pair.First.X, -pair.Second.X * pair.First.Y], pair.Second.X, 1),
            new([0, 0, 0, pair.First.X, pair.First.Y, 1, -pair.Second.Y * pair.First.X, -pair.Second.Y * pair.First.Y], pair.Second.Y, 1),
        })]).Mean;
        foreach (var (from, to) in new[] { ((0.5, 0.5), (5.0, 5.0)), ((0.5, 0), (5, 0)), ((0, 0.5), (1.25, 5)), ((1, 0.5), (8.75, 5)) })
        {
            var w = (h[6] * from.Item1) + (h[7] * from.Item2) + 1;
            Assert.Equal(to.Item1, ((h[0] * from.Item1) + (h[1] * from.Item2) + h[2]) / w, 1e-9);
            Assert.Equal(to.Item2, ((h[3] * from.Item1) + (h[4] * from.Item2) + h[5]) / w, 1e-9);
        }
    }
}
