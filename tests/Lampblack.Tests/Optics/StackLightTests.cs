using System;
using System.Collections.Generic;
using System.Linq;
using CsCheck;
using Lampblack.Optics;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Optics;

public sealed class StackLightTests
{
    private static readonly SheetOptics Sheet = new(new(0.80, 0.155, 0.25), InkOptics.Assumed with { SurfaceReflectance = 0.04 }, Field(1.5, 1.5));

    // Kubelka 1954, worked by hand: a film of D 1.5 and R 0.04 on a paper of 0.155 and 0.80 has D 2.2955; the paper alone 0.8097.
    [Fact]
    public void A_front_alone_leaks_a_little_more_than_its_density() =>
        Assert.Equal(2.2955 - 0.80967, Density.OfTransmittance(StackLight.Of(Layering.OneSide, Sheet).FieldShare), 1e-4);

    [Fact]
    public void A_ring_around_a_legend_is_as_dark_as_the_front() =>
        Assert.Equal(StackLight.Of(Layering.OneSide, Sheet).FieldShare, StackLight.Of(Layering.TwoSides, Sheet).RingShare, 12);

    // Two layers that reflect nothing add: 1.5 + 1.7 = 3.2 (definition of density).
    [Fact]
    public void Blacks_that_throw_nothing_back_add_their_densities()
    {
        var mirrorless = Sheet with { Inks = Sheet.Inks with { SurfaceReflectance = 0 }, Field = Field(1.5, 1.7) };
        Assert.Equal(3.2, Density.OfTransmittance(StackLight.Of(Layering.TwoSides, mirrorless).FieldShare), 9);
    }

    // Two independent layers of D 2 with 1 % pinholes: 3.4023 (area mean).
    [Fact]
    public void Pinholes_of_two_sides_meet_with_their_shares_multiplied()
    {
        var side = new SideBlack(2, 0.01, Knowledge.Measured);
        var sheet = Sheet with { Inks = Sheet.Inks with { SurfaceReflectance = 0 }, Field = new(Ink.FullK, side, side) };
        Assert.Equal(3.4023, Density.OfTransmittance(StackLight.Of(Layering.TwoSides, sheet).FieldShare), 5e-5);
    }

    // A second paper sheet leaves a third of the light: 0.12 / (1 - 0.8 x 0.8) = 1/3.
    [Fact]
    public void A_second_sheet_costs_two_thirds_of_the_legends_light()
    {
        var sheet = Sheet with { Paper = new(0.80, 0.12, 0.25) };
        Assert.Equal(1.0 / 3, StackLight.Of(Layering.SecondSheet, sheet).LegendShare, 9);
        Assert.InRange(StackLight.Of(Layering.Film, sheet).LegendShare, 0.9, 1);
        Assert.Equal(1, StackLight.Of(Layering.SecondPass, sheet).LegendShare);
    }

    [Fact]
    public void Every_further_layer_darkens_the_field()
    {
        var shares = Enum.GetValues<Layering>().Select(layering => StackLight.Of(layering, Sheet)).ToList();
        Assert.True(shares[0].FieldShare > shares[1].FieldShare && shares[2..].TrueForAll(more => more.FieldShare < shares[1].FieldShare));
        Assert.True(shares.TrueForAll(stack => stack.ContrastFactor > 10));
    }

    // Kubelka 1954: reflectance depends on the side that is lit, transmittance does not.
    [Fact]
    public void Any_stack_passes_as_much_from_behind_as_from_the_front() =>
        Gen.Select(Gen.Double[0.001, 0.5], Gen.Double[0, 0.49], Gen.Double[0, 0.49]).List[2, 7].Sample(layers =>
        {
            var stack = layers.Select(layer => new DiffuseLayer(layer.Item1, layer.Item2, layer.Item3)).ToList();
            var turned = stack.Select(layer => new DiffuseLayer(layer.Transmittance, layer.LowerReflectance, layer.UpperReflectance)).Reverse();
            var (front, back) = (Through(stack), Through(turned));
            Assert.Equal(1, back.Transmittance / front.Transmittance, 9);
            Assert.Equal(front.UpperReflectance, back.LowerReflectance, 9);
        });

    [Fact]
    public void A_sheet_of_whose_black_nothing_is_known_has_no_stack() =>
        Assert.Throws<ArgumentException>(() => StackLight.Of(Layering.TwoSides, Sheet with { Field = null }));

    private static DiffuseLayer Through(IEnumerable<DiffuseLayer> layers) => layers.Aggregate((upper, lower) => upper.Over(lower));

    private static FieldBlack Field(double front, double mask) => new(Ink.FullK, new(front, 0, Knowledge.Measured), new(mask, 0, Knowledge.Measured));
}
