using System;

namespace Lampblack.Optics;

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

    /// <summary>Density of a layer that covers only a part and lies on what scatters: the light that goes in beside a dot may come out through it (Yule-Nielsen).</summary>
    /// <param name="solidDensity">Density where the layer is whole.</param>
    /// <param name="coverage">From 0 to 1.</param>
    /// <param name="mixingFactor">1 where nothing mixes, as in transmission; 2 where the light is mixed fully, as on paper by day.</param>
    public static double OfScreen(double solidDensity, double coverage, double mixingFactor) =>
        mixingFactor * OfPart(solidDensity / mixingFactor, coverage);

    /// <summary>Density of a layer with pinholes: the light of the holes is added, so a share of 0.001 never lets it be above 3.</summary>
    public static double WithPinholes(double solidDensity, double pinholeShare) => OfPart(solidDensity, 1 - pinholeShare);

    /// <summary>Density of a layer that lies in bands, half of it denser and half of it thinner by the same: always less than their middle.</summary>
    /// <param name="middleDensity">The middle of the two.</param>
    /// <param name="swingDensity">How far either is from it.</param>
    public static double OfBands(double middleDensity, double swingDensity) =>
        OfTransmittance((Transmittance(middleDensity - swingDensity) + Transmittance(middleDensity + swingDensity)) / 2);

    /// <summary>The coverage from 0 to 1 that gives a measured density (Murray-Davies, turned round).</summary>
    /// <exception cref="ArgumentOutOfRangeException">The solid has no density.</exception>
    public static double Coverage(double density, double solidDensity)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(solidDensity);
        return (1 - Transmittance(density)) / (1 - Transmittance(solidDensity));
    }
}
