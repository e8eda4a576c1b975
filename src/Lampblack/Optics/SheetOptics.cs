using System;
using Lampblack.Quantities;

namespace Lampblack.Optics;

/// <summary>How a figure is known.</summary>
public enum Knowledge
{
    /// <summary>Usual, or from memory: nobody looked at this printer.</summary>
    Assumed,

    /// <summary>Worked out from what was measured, such as a black too dark to be measured from its single layers.</summary>
    Inferred,

    /// <summary>Measured on this printer's sheets.</summary>
    Measured,
}

/// <summary>What the field's black does to light on one side of the sheet, passed once.</summary>
/// <param name="SolidDensity">Transmission density of the toner without holes.</param>
/// <param name="PinholeShare">Share of its area that is open, from 0 to 1.</param>
/// <param name="Known">How that is known.</param>
public sealed record SideBlack(double SolidDensity, double PinholeShare, Knowledge Known)
{
    /// <summary>Density with the light of its pinholes, as a mean over many of them.</summary>
    public double MeanDensity => Density.WithPinholes(SolidDensity, PinholeShare);

    /// <summary>Share of light that passes.</summary>
    public double MeanTransmittance => Density.Transmittance(MeanDensity);
}

/// <summary>The field's black on both sides.</summary>
/// <param name="Build">What is sent to the printer for it.</param>
/// <param name="Front">On the front.</param>
/// <param name="Mask">On the back.</param>
public sealed record FieldBlack(Ink Build, SideBlack Front, SideBlack Mask);

/// <summary>
/// All that is known of a printed sheet's way with light. Whoever measured more than the usual makes another one: with a paper, with inks, with the field's
/// black as it came out on either side.
/// </summary>
/// <param name="Paper">The paper.</param>
/// <param name="Inks">Each ink.</param>
/// <param name="Field">The field's black; null where it is no more than what <paramref name="Inks"/> make of it.</param>
public sealed record SheetOptics(PaperOptics Paper, InkOptics Inks, FieldBlack? Field = null)
{
    /// <summary>Share of a toner layer that is open where nobody counted pinholes. Ours: low enough to leave single layers as they are, and it keeps two from looking perfect.</summary>
    public const double AssumedPinholeShare = 0.001;

    /// <summary>Whether the paper was measured.</summary>
    public Knowledge PaperKnown { get; init; }

    /// <summary>A sheet that nobody measured.</summary>
    /// <param name="build">The field's black.</param>
    /// <param name="gramsPerM2">The paper's weight; null for the usual heavy one.</param>
    public static SheetOptics Unmeasured(Ink build, double? gramsPerM2 = null)
    {
        ArgumentNullException.ThrowIfNull(build);
        var inks = InkOptics.Assumed;
        var side = new SideBlack(Density.OfTransmittance(inks.Transmission(build).Luminance), AssumedPinholeShare, Knowledge.Assumed);
        return new(gramsPerM2 is { } weight ? PaperOptics.OfWeight(weight) : PaperOptics.Heavy, inks, new(build, side, side));
    }

    /// <summary>What an ink on the front lets through once; paper not included.</summary>
    public LinearColour FrontTransmission(Ink ink) => Field is { } black && black.Build == ink ? LinearColour.Grey(black.Front.MeanTransmittance) : Inks.Transmission(ink);

    /// <summary>What an ink on the back lets through once; paper not included.</summary>
    public LinearColour MaskTransmission(Ink ink) => Field is { } black && black.Build == ink ? LinearColour.Grey(black.Mask.MeanTransmittance) : Inks.Transmission(ink);

    /// <summary>What an ink on the front throws back in room light.</summary>
    public LinearColour Reflectance(Ink ink) => Inks.Reflectance(ink, Paper);

    /// <summary>How the weaker known of the two sides' blacks is known.</summary>
    public Knowledge BlackKnown => Field is { } black ? (Knowledge)Math.Min((int)black.Front.Known, (int)black.Mask.Known) : Knowledge.Assumed;
}
