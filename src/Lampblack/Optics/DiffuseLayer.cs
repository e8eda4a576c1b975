using System;

namespace Lampblack.Optics;

/// <summary>A sheet that scatters: what it lets through and what it throws back, from either side, as shares from 0 to 1.</summary>
/// <param name="Transmittance">Share that passes; the same in both directions.</param>
/// <param name="UpperReflectance">Share thrown back where it is lit from above.</param>
/// <param name="LowerReflectance">Share thrown back where it is lit from below.</param>
public readonly record struct DiffuseLayer(double Transmittance, double UpperReflectance, double LowerReflectance)
{
    /// <summary>A sheet that is alike on both sides.</summary>
    public static DiffuseLayer Even(double transmittance, double reflectance) => new(transmittance, reflectance, reflectance);

    /// <summary>A film that keeps light back without scattering it.</summary>
    /// <param name="density">Its density.</param>
    /// <param name="surfaceReflectance">What its surfaces throw back.</param>
    public static DiffuseLayer Film(double density, double surfaceReflectance) => Even(Density.Transmittance(density), surfaceReflectance);

    /// <summary>A paper from its scattering power and the reflectance of a thick pile of it.</summary>
    /// <remarks>
    /// Kubelka-Munk: a = (1/R + R)/2, b = (1/R - R)/2 for the pile's reflectance R; the single sheet has
    /// R0 = sinh(bX)/(a sinh(bX) + b cosh(bX)) and T = b/(a sinh(bX) + b cosh(bX)) at the scattering power X.
    /// Without any loss (a pile that throws all back) that goes over into T = 1/(1 + X) and R0 = X/(1 + X).
    /// </remarks>
    /// <param name="scatteringPower">Scattering coefficient times mass per area, without unit; above 0.</param>
    /// <param name="pileReflectance">From above 0 to 1.</param>
    public static DiffuseLayer OfScattering(double scatteringPower, double pileReflectance)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(scatteringPower);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(pileReflectance);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(pileReflectance, 1);
        if (pileReflectance == 1)
        {
            return Even(1 / (1 + scatteringPower), scatteringPower / (1 + scatteringPower));
        }

        var a = ((1 / pileReflectance) + pileReflectance) / 2;
        var b = ((1 / pileReflectance) - pileReflectance) / 2;
        var sine = Math.Sinh(b * scatteringPower);
        var denominator = (a * sine) + (b * Math.Cosh(b * scatteringPower));
        return Even(b / denominator, sine / denominator);
    }

    /// <summary>This layer lying on another, light going to and fro between the two (Kubelka 1954).</summary>
    /// <exception cref="InvalidOperationException">Both facing sides throw everything back, so the light between them has no end.</exception>
    public DiffuseLayer Over(DiffuseLayer below)
    {
        var between = 1 - (LowerReflectance * below.UpperReflectance);
        if (!(between > 0))
        {
            throw new InvalidOperationException("two layers that throw all light back at each other have no balance");
        }

        return new(
            Transmittance * below.Transmittance / between,
            UpperReflectance + (Transmittance * Transmittance * below.UpperReflectance / between),
            below.LowerReflectance + (below.Transmittance * below.Transmittance * LowerReflectance / between));
    }
}
