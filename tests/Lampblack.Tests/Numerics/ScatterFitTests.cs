using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Numerics;
using Xunit;

namespace Lampblack.Tests.Numerics;

public sealed class ScatterFitTests
{
    // Believed so weakly that only what was measured counts.
    private const double Hardly = 1e-6;

    /// <summary>
    /// Six rails, three travel times each (nanoseconds above 36,100): between rails 24.80547, within 4.020779, mean 66.5, by restricted maximum likelihood.
    /// J. C. Pinheiro, D. M. Bates, Mixed-Effects Models in S and S-PLUS (2000), chapter 1; from memory, and by hand from the mean squares.
    /// </summary>
    [Fact]
    public void Rails_scatter_as_published()
    {
        double[][] rails = [[55, 53, 54], [26, 37, 32], [78, 91, 85], [92, 100, 96], [49, 51, 50], [80, 85, 83]];
        var fit = ScatterFit.Of(
            [new([1], 0, 1e6)],
            [.. rails.Select(rail => rail.Select(time => new Observation([1], time, 4.020779)).ToImmutableArray())],
            [new([0], [20], Hardly)]);
        Assert.Equal(66.5, fit.Mean.Mean[0], 4);
        Assert.Equal(24.80547, fit.SdOf(0), 3);
        Assert.Equal(Math.Sqrt(((24.80547 * 24.80547) + (4.020779 * 4.020779 / 3)) / 6), fit.Mean.Sd(0), 3);
    }

    /// <summary>By hand: the scale's fixed point is (prior degrees times its square + sum of squares) / (prior degrees + n - 1).</summary>
    [Fact]
    public void A_belief_counts_as_its_degrees_of_freedom()
    {
        double[] seen = [1, 2, 4, 5];
        var fit = ScatterFit.Of([new([1], 0, 1e4)], [.. seen.Select(value => ImmutableArray.Create(new Observation([1], value, 1e-4)))], [new([0], [1], 6)]);
        Assert.Equal(3, fit.Mean.Mean[0], 4);
        Assert.Equal(Math.Sqrt((6 + 10) / (6.0 + 3)), fit.SdOf(0), 4);
        Assert.Equal(9, fit.Scatter[0].Degrees, 3);
    }

    [Fact]
    public void Nothing_measured_is_what_was_believed()
    {
        var fit = ScatterFit.Of([new([1, 0], 0, 2), new([0, 1], 0, 3)], [], [new([0], [0.5], 4), new([1], [0.7], 5)]);
        Assert.Equal([2, 3], [fit.Mean.Sd(0), fit.Mean.Sd(1)]);
        Assert.Equal([0.5, 0.7], [fit.SdOf(0), fit.SdOf(1)]);
        Assert.Equal([4, 5], fit.Scatter.Select(scatter => scatter.Degrees));
    }

    /// <summary>A reading that is much worse than the groups scatter hardly tells of the scatter, and counts as few degrees of freedom.</summary>
    [Fact]
    public void Coarse_readings_tell_little_of_the_scatter()
    {
        var coarse = ScatterFit.Of([new([1], 0, 1e4)], [.. new double[] { -8, 3, 9, -4 }.Select(value => ImmutableArray.Create(new Observation([1], value, 10)))], [new([0], [1], 6)]);
        Assert.InRange(coarse.SdOf(0), 0.95, 1.05);
        Assert.InRange(coarse.Scatter[0].Degrees, 6, 6.2);
    }

    /// <summary>
    /// Radius that holds 95 % of what comes next, in units of the pooled standard deviation of x and y: the root of 2 F(0.95; 2, 2(n - 1)) (1 + 1/n), which is 4.30,
    /// 3.27 and 2.80 for 3, 5 and 10 groups (tables of F: 6.944, 4.459, 3.555), against 2.448 if it were known.
    /// </summary>
    [Theory]
    [InlineData(3, 4.303)]
    [InlineData(5, 3.271)]
    [InlineData(10, 2.797)]
    public void What_comes_next_is_predicted_as_tables_have_it(int groups, double radius)
    {
        var chance = new Random(5);
        ImmutableArray<ImmutableArray<Observation>> seen =
            [.. Enumerable.Range(0, groups).Select(_ => ImmutableArray.Create(new Observation([1, 0], chance.NextDouble(), 1e-4), new Observation([0, 1], chance.NextDouble(), 1e-4)))];
        var fit = ScatterFit.Of([new([1, 0], 0, 1e3), new([0, 1], 0, 1e3)], seen, [new([0, 1], [0.3, 0.3], Hardly)]);
        var far = PredictedGroups.Of(fit, 40_000).Select(off => Math.Sqrt((off[0] * off[0]) + (off[1] * off[1]))).Order().ToArray();

        // The 95 % point of 40,000 draws is known to about 1.5 %.
        Assert.Equal(1, far[38_000] / (radius * fit.SdOf(0)), 0.03);
    }

    [Fact]
    public void Draws_are_always_the_same()
    {
        var fit = ScatterFit.Of([new([1], 0, 2)], [], [new([0], [0.5], 4)]);
        Assert.Equal(PredictedGroups.Of(fit, 50), PredictedGroups.Of(fit, 50));
    }

    /// <summary>With the scatter as good as known, by hand: the square of 3 over 1 + 0.25 + 0.04, against chi-square's 10.828 (tables; 99.9 %, one degree of freedom).</summary>
    [Fact]
    public void A_group_far_from_the_others_is_told_by_chi_square()
    {
        var fit = ScatterFit.Of([new([1], 0, 1)], [], [new([0], [0.5], 1e6)]);
        var near = ChangeTest.Of(fit, [new([1], 3, 0.2)]);
        Assert.Equal(9 / 1.29, near.ChiSquare, 9);
        Assert.Equal(10.828, near.Limit, 0.01);
        Assert.False(near.IsChanged);
        Assert.True(ChangeTest.Of(fit, [new([1], 4, 0.2)]).IsChanged);
    }
}
