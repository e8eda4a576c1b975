using System;
using Lampblack.Optics;
using Xunit;

namespace Lampblack.Tests.Optics;

public sealed class DensityTests
{
    // ISO 5: D = log10(1/T).
    [Theory]
    [InlineData(1, 0)]
    [InlineData(0.5, 0.30103)]
    [InlineData(0.25, 0.60206)]
    [InlineData(0.1, 1)]
    [InlineData(0.001, 3)]
    public void Density_is_the_power_of_ten_that_is_kept_back(double transmittance, double density)
    {
        Assert.Equal(density, Density.OfTransmittance(transmittance), 5);
        Assert.Equal(transmittance, Density.Transmittance(density), 6);
    }

    // Murray 1936, D = log10(1 / (1 - a (1 - r))): half-covered 1.5 gives 0.2875, half-covered 2 gives 0.2967, 70 % of 1.5 gives 0.4920.
    // Pinholes are the same equation: D 3 with 0.1 % pinholes is 2.6992, with 0.01 % 2.9586; D 2 with 1 % is 1.7011; D 4 with 0.01 % is 3.6990.
    [Theory]
    [InlineData(1.5, 0.5, 0.2875)]
    [InlineData(2, 0.5, 0.2967)]
    [InlineData(1.5, 0.7, 0.4920)]
    [InlineData(3, 0.999, 2.6992)]
    [InlineData(3, 0.9999, 2.9586)]
    [InlineData(2, 0.99, 1.7011)]
    [InlineData(4, 0.9999, 3.6990)]
    public void A_broken_layer_averages_light_and_not_density(double solid, double coverage, double density) =>
        Assert.Equal(density, Density.OfPart(solid, coverage), 5e-5);

    // Murray-Davies turned round: density 0.5 from a solid of 1.5 is 70.61 % covered.
    [Fact]
    public void Coverage_follows_from_two_densities() => Assert.Equal(0.7061, Density.Coverage(0.5, 1.5), 5e-5);

    // Yule and Nielsen 1951, D = -n log10(1 - a (1 - 10^(-Ds/n))).
    [Theory]
    [InlineData(1.5, 0.5, 2, 0.4599)]
    [InlineData(1.5, 0.5, 1.7, 0.4208)]
    [InlineData(2, 0.5, 1.7, 0.4641)]
    [InlineData(2, 0.5, 2, 0.5193)]
    [InlineData(1.5, 0.7, 1.7, 0.6918)]
    [InlineData(1.5, 0.7, 2, 0.7443)]
    [InlineData(1.5, 0.5, 1, 0.2875)]
    public void Paper_that_mixes_the_light_makes_a_screen_look_denser(double solid, double coverage, double mixing, double density) =>
        Assert.Equal(density, Density.OfScreen(solid, coverage, mixing), 5e-5);

    [Fact]
    public void Pinholes_set_a_floor_of_light() => Assert.Equal(2.6992, Density.WithPinholes(3, 0.001), 5e-5);

    // T = 10^-D cosh(d ln 10): D 2 with 0.1, 0.2 and 0.3.
    [Theory]
    [InlineData(0.1, 1.9886)]
    [InlineData(0.2, 1.9555)]
    [InlineData(0.3, 1.9037)]
    public void Bands_leak_more_than_their_middle(double swing, double density) => Assert.Equal(density, Density.OfBands(2, swing), 5e-5);

    [Fact]
    public void No_light_has_no_density() => Assert.Throws<ArgumentOutOfRangeException>(() => Density.OfTransmittance(0));
}
