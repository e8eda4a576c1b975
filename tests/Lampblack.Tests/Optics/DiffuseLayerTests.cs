using System;
using CsCheck;
using Lampblack.Optics;
using Xunit;

namespace Lampblack.Tests.Optics;

/// <summary>Kubelka, J. Opt. Soc. Am. 44 (1954) 330: two layers, and the single-sheet solutions of Kubelka and Munk.</summary>
public sealed class DiffuseLayerTests
{
    [Fact]
    public void Two_scattering_sheets_pass_more_than_their_densities_added()
    {
        var sheet = DiffuseLayer.Even(0.2, 0.75);
        var two = sheet.Over(sheet);
        Assert.Equal(0.0914286, two.Transmittance, 1e-7);
        Assert.Equal(0.8185714, two.UpperReflectance, 1e-7);
    }

    // Without absorption T = 1 / (1 + X): X = 4 gives 0.2, and two sheets of it are one with X = 8.
    [Fact]
    public void Two_loss_free_sheets_pass_a_ninth()
    {
        var sheet = DiffuseLayer.Even(0.2, 0.8);
        Assert.Equal(1.0 / 9, sheet.Over(sheet).Transmittance, 12);
    }

    [Fact]
    public void A_toner_film_on_paper_nearly_adds_its_density()
    {
        var film = DiffuseLayer.Even(Density.Transmittance(1.5), 0.04);
        var both = film.Over(DiffuseLayer.Even(0.155, 0.80));
        Assert.Equal(2.2955, Density.OfTransmittance(both.Transmittance), 1e-4);
    }

    [Fact]
    public void A_stack_passes_the_same_from_both_sides() =>
        Gen.Select(Gen.Double[0.01, 0.5], Gen.Double[0, 0.49], Gen.Double[0.01, 0.5], Gen.Double[0, 0.49]).Sample((t1, r1, t2, r2) =>
        {
            var upper = DiffuseLayer.Even(t1, r1);
            var lower = new DiffuseLayer(t2, r2, r2 / 2);
            var turned = new DiffuseLayer(t2, r2 / 2, r2).Over(upper);
            var stack = upper.Over(lower);
            Assert.Equal(stack.Transmittance, turned.Transmittance, 12);
            Assert.Equal(stack.UpperReflectance, turned.LowerReflectance, 12);
            Assert.Equal(stack.LowerReflectance, turned.UpperReflectance, 12);
        });

    // X = 4 and a pile of 0.85 gives R0 0.7705 and T 0.1796.
    [Fact]
    public void A_sheet_follows_from_its_scattering_and_its_pile()
    {
        var sheet = DiffuseLayer.OfScattering(4, 0.85);
        Assert.Equal(0.7705, sheet.UpperReflectance, 5e-5);
        Assert.Equal(0.1796, sheet.Transmittance, 5e-5);
    }

    [Fact]
    public void Two_sheets_are_one_of_twice_the_scattering() =>
        Gen.Select(Gen.Double[0.5, 10], Gen.Double[0.5, 0.98]).Sample((power, pile) =>
        {
            var one = DiffuseLayer.OfScattering(power, pile);
            var two = one.Over(one);
            var thick = DiffuseLayer.OfScattering(2 * power, pile);
            Assert.Equal(thick.Transmittance, two.Transmittance, 1e-9);
            Assert.Equal(thick.UpperReflectance, two.UpperReflectance, 1e-9);
        });

    // The Kubelka-Munk table for s = 50 m2/kg and a pile of 0.85: 75 g/m2 0.1910, 90 0.1597, 100 0.1429, 120 0.1160.
    [Theory]
    [InlineData(75, 0.1910)]
    [InlineData(80, 0.1796)]
    [InlineData(90, 0.1597)]
    [InlineData(100, 0.1429)]
    [InlineData(120, 0.1160)]
    public void Heavier_paper_passes_less(double gramsPerM2, double transmittance) =>
        Assert.Equal(transmittance, PaperOptics.OfWeight(gramsPerM2).Transmittance, 5e-5);

    [Fact]
    public void A_second_sheet_as_mask_leaves_a_third_of_the_light()
    {
        var paper = new PaperOptics(0.80, 0.12, 0.25);
        var doubled = paper.Before(DiffuseLayer.Even(0.12, 0.80));
        Assert.Equal(1.0 / 3, doubled.Transmittance / paper.Transmittance, 1e-9);
        Assert.Equal(0.25, doubled.SpreadMm);
    }

    [Theory]
    [InlineData(39)]
    [InlineData(401)]
    [InlineData(double.NaN)]
    public void A_weight_that_is_no_paper_is_refused(double gramsPerM2) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => PaperOptics.OfWeight(gramsPerM2));
}
