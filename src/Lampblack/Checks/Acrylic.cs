using System;
using System.Collections.Immutable;

namespace Lampblack.Checks;

/// <summary>What acrylic does: weight, growth with warmth, bending under a finger.</summary>
public static class Acrylic
{
    /// <summary>Mass by volume, in grams per cubic centimetre (makers' data, ASTM and ISO tests: 1.19 +- 0.01).</summary>
    private const double GramsPerCm3 = 1.19;

    /// <summary>Growth by length and kelvin (a maker's glazing guide: 0.00004 per degree Fahrenheit; 7e-5 is the usual rounding).</summary>
    public const double ExpansionFactor = 7.2e-5;

    /// <summary>Tensile modulus, in MPa (makers' data from 2800 to 3200; 450 000 psi is 3100).</summary>
    public const double ModulusMegapascals = 3100;

    /// <summary>Radius of a fingertip's contact, in mm (common practice, no source).</summary>
    public const double FingertipMm = 5;

    // Roark's Formulas, 7th edition, table 11.4, case 1b, Poisson's ratio 0.3.
    private static readonly ImmutableArray<(double Ratio, double Alpha, double Beta)> Roark =
        [(1, 0.1267, 0.435), (1.2, 0.1478, 0.650), (1.4, 0.1621, 0.789), (1.6, 0.1715, 0.875), (1.8, 0.1770, 0.927), (2, 0.1805, 0.958)];

    private const double AlphaOfStrip = 0.1851;
    private const double BetaOfStrip = 1;
    private const double Poisson = 0.3;

    /// <summary>Mass of a plate.</summary>
    /// <param name="widthMm">Its width.</param>
    /// <param name="heightMm">Its height.</param>
    /// <param name="thicknessMm">Its thickness.</param>
    public static double MassGrams(double widthMm, double heightMm, double thicknessMm) => widthMm * heightMm * thicknessMm / 1000 * GramsPerCm3;

    /// <summary>How much a length grows.</summary>
    /// <param name="lengthMm">The length.</param>
    /// <param name="warmerKelvin">By how many kelvins it gets warmer.</param>
    /// <param name="expansionFactor">Growth by length and kelvin.</param>
    public static double GrowthMm(double lengthMm, double warmerKelvin, double expansionFactor = ExpansionFactor) => lengthMm * warmerKelvin * expansionFactor;

    /// <summary>How far the middle of a plate that lies on all four edges gives way: alpha W b^2 / (E t^3).</summary>
    /// <param name="longMm">Longer side.</param>
    /// <param name="shortMm">Shorter side.</param>
    /// <param name="thicknessMm">Thickness.</param>
    /// <param name="forceNewtons">Force in the middle.</param>
    /// <param name="modulusMegapascals">Tensile modulus.</param>
    public static double DeflectionMm(double longMm, double shortMm, double thicknessMm, double forceNewtons, double modulusMegapascals = ModulusMegapascals) =>
        Factors(longMm / shortMm).Alpha * forceNewtons * shortMm * shortMm / (modulusMegapascals * Math.Pow(thicknessMm, 3));

    /// <summary>The stress under the force.</summary>
    /// <param name="longMm">Longer side.</param>
    /// <param name="shortMm">Shorter side.</param>
    /// <param name="thicknessMm">Thickness.</param>
    /// <param name="forceNewtons">Force in the middle.</param>
    /// <param name="radiusMm">Radius of what presses.</param>
    public static double StressMegapascals(double longMm, double shortMm, double thicknessMm, double forceNewtons, double radiusMm = FingertipMm)
    {
        var even = EvenRadiusMm(radiusMm, thicknessMm);
        return 3 * forceNewtons / (2 * Math.PI * thicknessMm * thicknessMm)
            * (((1 + Poisson) * Math.Log(2 * shortMm / (Math.PI * even))) + Factors(longMm / shortMm).Beta);
    }

    /// <summary>The radius that a small contact counts as: the root of 1.6 r^2 + t^2, less 0.675 t, below half the thickness.</summary>
    /// <param name="radiusMm">Radius of what presses.</param>
    /// <param name="thicknessMm">Thickness of the plate.</param>
    public static double EvenRadiusMm(double radiusMm, double thicknessMm) => radiusMm >= thicknessMm / 2
        ? radiusMm
        : Math.Sqrt((1.6 * radiusMm * radiusMm) + (thicknessMm * thicknessMm)) - (0.675 * thicknessMm);

    /// <summary>The table's factors, straight between its rows; from 2 on towards the endless strip's by the inverse of the ratio.</summary>
    /// <param name="ratioFactor">Longer by shorter side, 1 or more.</param>
    public static (double Alpha, double Beta) Factors(double ratioFactor)
    {
        if (ratioFactor >= 2)
        {
            var share = 2 / ratioFactor;
            return (AlphaOfStrip + ((Roark[^1].Alpha - AlphaOfStrip) * share), BetaOfStrip + ((Roark[^1].Beta - BetaOfStrip) * share));
        }

        for (var row = 1; row < Roark.Length; row++)
        {
            var (low, high) = (Roark[row - 1], Roark[row]);
            if (ratioFactor <= high.Ratio)
            {
                var share = (Math.Max(ratioFactor, 1) - low.Ratio) / (high.Ratio - low.Ratio);
                return (low.Alpha + (share * (high.Alpha - low.Alpha)), low.Beta + (share * (high.Beta - low.Beta)));
            }
        }

        return (Roark[^1].Alpha, Roark[^1].Beta);
    }
}
