using System;
using System.Linq;
using Lampblack.Printers;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Printers;

public sealed class WedgeEstimateTests
{
    private static readonly PaperSize A4 = PaperSize.Find("A4")!;

    [Fact]
    public void Two_sheets_that_agree_weigh_by_their_variances_and_two_that_don_t_widen_what_is_known()
    {
        // Textbook: weights 1/0.01 and 1/0.04; variance 1/(100 + 25) = 0.008.
        var agree = Assert.Single(WedgeEstimate.Of(File([("front-K-vector", 1.5, 0.1)], [("front-K-vector", 1.6, 0.2)])).Patches);
        Assert.Equal(1.52, agree.Density, 9);
        Assert.Equal(Math.Sqrt(0.008), agree.UncertaintyDensity, 9);

        var apart = Assert.Single(WedgeEstimate.Of(File([("front-K-vector", 1.0, 0.1)], [("front-K-vector", 2.0, 0.1)])).Patches);
        Assert.Equal(1.5, apart.Density, 9);
        Assert.Equal(0.5, apart.UncertaintyDensity, 9);
    }

    [Fact]
    public void What_stray_light_hides_is_the_sum_of_its_layers()
    {
        // Two layers of density 2 with 1 % pinholes each let 0.0199 through, both 3.9601e-4: density 3.4023 (worked out).
        var single = -Math.Log10((0.99 * 0.01) + 0.01);
        var file = File([("front-K-vector", single, 0.03), ("back-K-vector", single, 0.03), ("both-K-vector", 2.2, 0)]);
        var both = WedgeEstimate.Of(file).Patches.Single(patch => patch.Id == "both-K-vector");
        Assert.Equal(3.4023, both.Density, 0.0006);
        Assert.True(both.IsInferred && !both.IsLowerBound);

        // Layers that are lighter than what was seen through both are not what they are by themselves.
        var odd = WedgeEstimate.Of(File([("front-K-vector", 0.5, 0.03), ("back-K-vector", 0.5, 0.03), ("both-K-vector", 2.2, 0)]));
        Assert.True(odd.Patches.Single(patch => patch.Id == "both-K-vector").IsLowerBound);
        Assert.Equal(2.4, WedgeEstimate.Of(File([("opaque-1", 2.2, 0)], [("opaque-1", 2.4, 0)])).Patches[0].Density);
    }

    [Theory]
    [InlineData(1.2, 1.6, 1.9, null, "safe")]
    [InlineData(1.2, 1.25, 1.9, null, "K")]
    [InlineData(1.2, 1.6, 1.9, 4.0, "learned")]
    [InlineData(1.2, 1.6, 1.65, 4.0, "safe")]
    [InlineData(1.7, 1.6, 1.65, 4.0, "K")]
    [InlineData(1.2, 1.6, 1.9, 1.0, "learned")]
    public void The_default_is_the_darkest_that_holds_and_of_equals_the_one_with_least_toner(double k, double safe, double full, double? held, string chosen)
    {
        var file = File([("front-K-vector", k, 0.03), ("front-240-vector", safe, 0.03), ("front-400-vector", full, 0.03), ("front-C100", k, 0.03), ("front-C400", full, 0.03)]);
        file = held is { } limit ? file with { Coverage = [new([], [limit])] } : file;
        var builds = PrinterProperties.Of(file, A4).Builds;
        Assert.Equal(chosen, builds[0].Name);
        Assert.Equal(builds.Length, builds.Select(build => build.Name).Distinct().Count());
    }

    [Fact]
    public void Nothing_measured_leaves_the_default_as_it_is() => Assert.Equal(
        PrinterProperties.Unmeasured.Builds, PrinterProperties.Of(File([("front-K-vector", 1.9, 0.02)]), A4).Builds);

    private static PrinterFile File(params (string Id, double Density, double Sd)[][] sheets) => PrinterSamples.New() with
    {
        Wedges = [.. sheets.Select(sheet => new WedgeEntry([.. sheet.Select(patch => new PatchDensity(patch.Id, patch.Density, patch.Sd, patch.Sd == 0))]))],
    };
}
