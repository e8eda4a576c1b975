using System;
using CsCheck;
using Lampblack.Optics;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Optics;

public sealed class InkOpticsTests
{
    private static readonly InkOptics Inks = InkOptics.Assumed;
    private static readonly PaperOptics Paper = PaperOptics.Heavy;

    [Fact]
    public void Bare_paper_filters_nothing_and_looks_like_paper()
    {
        Assert.Equal(LinearColour.White, Inks.Transmission(Ink.None));
        Assert.Equal(LinearColour.Grey(Paper.Reflectance), Inks.Reflectance(Ink.None, Paper));
    }

    // Beer-Lambert: absorbing layers add their densities, here 1.6 of K and 0.76 of C, M and Y together in the red band.
    [Fact]
    public void Layers_add_their_densities()
    {
        var through = Inks.Transmission(Ink.Cmyk(1, 1, 1, 1));
        Assert.Equal(1.6 + 0.70 + 0.05 + 0.01, Density.OfTransmittance(through.Red), 1e-9);
        Assert.Equal(1.6 + 0.18 + 0.75 + 0.05, Density.OfTransmittance(through.Green), 1e-9);
        Assert.Equal(1.6 + 0.07 + 0.30 + 0.70, Density.OfTransmittance(through.Blue), 1e-9);
    }

    // Two independent layers of D 2 with 1 % pinholes: T = 3.9601e-4, D 3.4023 (pinholes meet with p squared).
    [Fact]
    public void Two_layers_with_pinholes_stop_more_than_twice_as_many_powers_as_one()
    {
        var printer = Inks with { Black = new(2, 2, 2) };
        var layer = printer.Transmission(Ink.Cmyk(0, 0, 0, 0.99));
        Assert.Equal(3.4023, Density.OfTransmittance((layer * layer).Green), 5e-5);
        Assert.Equal(1.7011, Density.OfTransmittance(layer.Green), 5e-5);
    }

    [Fact]
    public void Gray_is_black_toner_alone()
    {
        Assert.Equal(Inks.Transmission(Ink.FullK), Inks.Transmission(Ink.Gray(0)));
        Assert.Equal(Inks.Transmission(Ink.Cmyk(0, 0, 0, 0.25)), Inks.Transmission(Ink.Gray(0.75)));
    }

    [Fact]
    public void Rgb_counts_as_its_complement_in_three_inks() =>
        Assert.Equal(Inks.Transmission(Ink.Cmyk(0.8, 0.25, 0.5, 0)), Inks.Transmission(Ink.Rgb(1 - 0.8, 0.75, 0.5)));

    // Light passes coloured toner twice by day, once when lit: what passes 0.2 lit reflects 0.04 of the paper by day.
    [Fact]
    public void Colours_are_deeper_by_day_than_when_lit()
    {
        var printer = Inks with { SurfaceReflectance = 0 };
        var cyan = Ink.Cmyk(1, 0, 0, 0);
        var once = printer.Transmission(cyan).Red;
        Assert.Equal(0.2, once, 0.005);
        Assert.Equal(0.04, printer.Reflectance(cyan, Paper).Red / Paper.Reflectance, 0.002);
    }

    // A screen by day is Yule-Nielsen with n = 2 on a black that light passes twice.
    [Fact]
    public void A_screen_by_day_is_mixed_fully_by_the_paper()
    {
        var printer = Inks with { SurfaceReflectance = 0 };
        var seen = printer.Reflectance(Ink.Cmyk(0, 0, 0, 0.3), Paper).Green / Paper.Reflectance;
        Assert.Equal(Density.OfScreen(3.2, 0.3, 2), Density.OfTransmittance(seen), 9);
    }

    // Office laser prints read 1.3 to 1.6 in reflection on solid black; from memory.
    [Fact]
    public void Solid_black_reads_as_printed_black_does() =>
        Assert.InRange(Density.OfTransmittance(Inks.Reflectance(Ink.FullK, Paper).Green), 1.3, 1.6);

    [Fact]
    public void More_toner_never_lets_more_through() =>
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 1], Gen.Double[0, 1], Gen.Double[0, 1], Gen.Double[0, 1]).Sample((c, m, y, k, more) =>
        {
            var less = Inks.Transmission(Ink.Cmyk(c, m, y, k));
            var denser = Inks.Transmission(Ink.Cmyk(c, m, y, k + ((1 - k) * more)));
            Assert.True(denser.Red <= less.Red && denser.Green <= less.Green && denser.Blue <= less.Blue);
            Assert.True(less.Peak <= 1 && Math.Min(less.Red, Math.Min(less.Green, less.Blue)) > 0);
        });
}
