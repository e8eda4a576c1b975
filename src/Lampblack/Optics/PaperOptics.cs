using System;

namespace Lampblack.Optics;

/// <summary>What a sheet of paper does to light; neutral in colour.</summary>
/// <param name="Reflectance">Share that the bare face throws back, from 0 to 1.</param>
/// <param name="Transmittance">Share that passes the sheet, from 0 to 1.</param>
/// <param name="SpreadMm">
/// kp, in mm: 1 / the frequency at which the sheet halves the contrast of fine detail. Papers lie between 0.15 and 0.35 mm.
/// An edge behind it is smeared over 0.5123 kp from 10 to 90 %.
/// </param>
public sealed record PaperOptics(double Reflectance, double Transmittance, double SpreadMm)
{
    /// <summary>Scattering coefficient of office paper in m2/kg; from memory (40 to 65 are usual).</summary>
    public const double ScatteringM2PerKg = 50;

    /// <summary>Reflectance of a thick pile of office paper; from memory.</summary>
    public const double PileReflectance = 0.85;

    /// <summary>kp in mm where nothing better is known: the middle of the range that Arney names.</summary>
    public const double UsualSpreadMm = 0.25;

    /// <summary>The usual heavy office paper, 120 g/m2: reflectance 0.81, transmittance 0.116.</summary>
    public static PaperOptics Heavy { get; } = OfWeight(120);

    /// <summary>Office paper of a weight in g/m2, from 40 to 400, by Kubelka-Munk from assumed scattering; a measured sheet is better.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The weight is outside 40 to 400 g/m2.</exception>
    public static PaperOptics OfWeight(double gramsPerM2)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(gramsPerM2, 40);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(gramsPerM2, 400);
        var sheet = DiffuseLayer.OfScattering(ScatteringM2PerKg * gramsPerM2 / 1000, PileReflectance);
        return new(sheet.UpperReflectance, sheet.Transmittance, UsualSpreadMm);
    }

    /// <summary>The sheet with another scattering layer (a second sheet, a diffuser) lying close behind it.</summary>
    public PaperOptics Before(DiffuseLayer behind)
    {
        var both = DiffuseLayer.Even(Transmittance, Reflectance).Over(behind);
        return this with { Reflectance = both.UpperReflectance, Transmittance = both.Transmittance };
    }
}
