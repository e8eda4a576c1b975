using System.Linq;
using Lampblack.Printers;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Printers;

public sealed class PrinterPropertiesTests
{
    private static readonly PaperSize A4 = PaperSize.Find("A4")!;

    [Fact]
    public void A_file_with_nothing_learned_is_common_practice_with_the_path_s_own_margins()
    {
        var printer = PrinterProperties.Of(PrinterSamples.New(PrinterSamples.Colour with { MarginMm = 4.2, LeadingEdgeMm = 12 }), A4);
        Assert.Equal(PrinterProperties.Unmeasured.SideOne, printer.SideOne);
        Assert.Equal(PrinterProperties.Unmeasured.SideTwo, printer.SideTwo);
        Assert.False(printer.HalfTurnOfBack);
        Assert.Equal(PrinterProperties.Unmeasured.Builds, printer.Builds);
        Assert.Equal((4.2, 12), (printer.MarginMm, printer.LeadingEdgeMm));
    }

    [Theory]
    [InlineData(FirstEdge.Short, Turning.ByHand, false)]
    [InlineData(FirstEdge.Long, Turning.ByHand, true)]
    [InlineData(FirstEdge.Long, Turning.Automatic, false)]
    [InlineData(FirstEdge.Unknown, Turning.ByHand, false)]
    public void Before_any_tick_a_long_edge_first_by_hand_turns_the_back_page(FirstEdge edge, Turning turning, bool isTurned) =>
        Assert.Equal(isTurned, PrinterSamples.New(PrinterSamples.Colour with { Edge = edge, Turning = turning }).HalfTurnOfBack);

    [Fact]
    public void An_answer_without_a_cross_does_not_wipe_the_face_that_is_known() => Assert.Equal(
        PrintedFace.Lower,
        (PrinterSamples.New() with { Turns = [new(Tick.Front, PrintedFace.Lower), new(Tick.A, PrintedFace.Unknown)] }).Face);

    [Theory]
    [InlineData(new[] { Tick.B }, true)]
    [InlineData(new[] { Tick.A }, false)]
    [InlineData(new[] { Tick.Front }, false)]
    [InlineData(new[] { Tick.A, Tick.B }, true)]
    [InlineData(new[] { Tick.B, Tick.A }, false)]
    [InlineData(new[] { Tick.B, Tick.Front }, true)]
    [InlineData(new Tick[0], false)]
    public void Only_a_last_tick_in_box_B_turns_the_back_page(Tick[] ticks, bool isTurned) => Assert.Equal(
        isTurned,
        PrinterProperties.Of(PrinterSamples.New() with { Turns = [.. ticks.Select(tick => new TurnEntry(tick, PrintedFace.Unknown))] }, A4).HalfTurnOfBack);

    [Fact]
    public void Bars_that_are_too_long_make_the_front_narrower_about_its_middle()
    {
        // Conjugate formula: a reading of 0.2 % noise against a prior of 0.1 % moves a fifth of the way.
        var file = PrinterSamples.New() with { Bars = [new(100.3, null)] };
        var scale = ScaleEstimate.Of(file);
        Assert.Equal(0.3 / 5, scale.StretchXPercent, 9);
        Assert.Equal(0.1 * System.Math.Sqrt(0.8), scale.StretchXSdPercent, 9);
        Assert.Equal(1, scale.Sheets);

        var map = PrinterProperties.Of(file, A4).SideOne;
        Assert.Equal(105, map.Apply(new(105, 20)).XMm, 9);
        Assert.Equal(20, map.Apply(new(105, 20)).YMm, 9);
        Assert.Equal(205 + (100 * 0.0006), map.Apply(new(205, 20)).XMm, 9);
    }

    [Theory]
    [InlineData(new[] { 3.0 }, new[] { 2.4, 2.0 }, 2.4)]
    [InlineData(new[] { 3.0, 2.2 }, new[] { 2.4, 2.0 }, 2.0)]
    [InlineData(new double[0], new[] { 2.4, 4.0 }, 4.0)]
    [InlineData(new[] { 2.0 }, new[] { 2.4 }, null)]
    [InlineData(new[] { 2.0 }, new double[0], null)]
    [InlineData(new double[0], new double[0], null)]
    [InlineData(new[] { 2.4 }, new[] { 2.4 }, null)]
    public void The_limit_is_the_highest_that_held_below_the_lowest_that_flaked(double[] flaked, double[] held, double? limit) =>
        Assert.Equal(limit, CoverageLimit.Of(PrinterSamples.New() with { Coverage = [new([], [.. held]), new([.. flaked], [])] }).HeldCoverage);

    [Fact]
    public void Above_the_limit_and_from_what_flaked_on_is_forbidden()
    {
        var known = CoverageLimit.Of(PrinterSamples.New() with { Coverage = [new([3.0], [2.8])] });
        Assert.True(known.Holds(2.8));
        Assert.False(known.Forbids(2.8));
        Assert.True(known.Forbids(2.9));

        var onlyFlaked = CoverageLimit.Of(PrinterSamples.New() with { Coverage = [new([2.6], [])] });
        Assert.False(onlyFlaked.Holds(2.4));
        Assert.False(onlyFlaked.Forbids(2.4));
        Assert.True(onlyFlaked.Forbids(2.6));

        var nothing = CoverageLimit.Of(PrinterSamples.New());
        Assert.False(nothing.Holds(1) || nothing.Forbids(4));
    }

    [Theory]
    [InlineData(1.0)]
    [InlineData(1.6)]
    [InlineData(2.8)]
    [InlineData(4.0)]
    public void A_known_limit_is_used_up_by_the_first_build(double limit)
    {
        var builds = PrinterProperties.Of(PrinterSamples.New() with { Coverage = [new([], [limit])] }, A4).Builds;
        Assert.Equal(["learned", "safe", "full", "K", "gray", "rgb"], builds.Select(build => build.Name));
        Assert.Equal(limit, builds[0].Ink.TotalCoverage, 9);
        Assert.Equal(1, builds[0].Ink.Amounts[3]);
        Assert.Single(builds[0].Ink.Amounts[..3].Distinct());
        Assert.Equal(Ink.FullK, builds[0].Edge);
    }

    [Fact]
    public void A_black_only_printer_is_offered_no_colours()
    {
        var file = PrinterSamples.New(PrinterSamples.Colour with { Colour = false }) with { Coverage = [new([], [2.4])] };
        Assert.Equal(["gray", "K"], PrinterProperties.Of(file, A4).Builds.Select(build => build.Name));
    }
}
