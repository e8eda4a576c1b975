using System;

namespace Lampblack.Imaging;

/// <summary>Transmission density: how many powers of ten of the light a layer keeps back.</summary>
/// <remarks>
/// Definition of ISO 5: D = log10(1/T). Layers that absorb without scattering add their densities.
/// Where a layer is broken (a screen, pinholes), the light is averaged, not the density: Murray 1936 with n = 1,
/// as light that comes through a gap from behind does not pass the dots again.
/// </remarks>
public static class Density
{
    /// <summary>Density of a share of light from above 0 to 1.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The share is not above 0.</exception>
    public static double OfTransmittance(double transmittance)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(transmittance);
        return -Math.Log10(transmittance);
    }

    /// <summary>Share of light that passes a layer of this density.</summary>
    public static double Transmittance(double density) => Math.Pow(10, -density);

    /// <summary>Share of light that passes where a layer covers only a part: 1 - a (1 - 10^-D), for coverage a from 0 to 1.</summary>
    public static double Transmittance(double solidDensity, double coverage) =>
        1 - (coverage * (1 - Transmittance(solidDensity)));

    /// <summary>Density of a layer that covers only a part (Murray-Davies).</summary>
    public static double OfPart(double solidDensity, double coverage) => OfTransmittance(Transmittance(solidDensity, coverage));

    /// <summary>The coverage from 0 to 1 that gives a measured density (Murray-Davies, turned round).</summary>
    /// <exception cref="ArgumentOutOfRangeException">The solid has no density.</exception>
    public static double Coverage(double density, double solidDensity)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(solidDensity);
        return (1 - Transmittance(density)) / (1 - Transmittance(solidDensity));
    }
}
