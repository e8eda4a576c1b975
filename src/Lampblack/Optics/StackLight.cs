using System;

namespace Lampblack.Optics;

/// <summary>What of black lies in the light's way, the lightest work first.</summary>
public enum Layering
{
    /// <summary>The front alone.</summary>
    OneSide,

    /// <summary>Front and mask on one sheet.</summary>
    TwoSides,

    /// <summary>The same with a second pass of the mask.</summary>
    SecondPass,

    /// <summary>Front and mask, and the mask on a clear film behind them.</summary>
    Film,

    /// <summary>Front and mask, and a second sheet behind them that carries the mask again.</summary>
    SecondSheet,
}

/// <summary>What comes through a stack of toner and paper, as shares of what comes through one bare sheet.</summary>
/// <param name="Layering">The stack.</param>
/// <param name="LegendShare">Where the mask is open and the front bare.</param>
/// <param name="FieldShare">Where all blacks are.</param>
/// <param name="RingShare">Where the mask is open and only the front is black.</param>
/// <remarks>
/// Kubelka's law of two layers, one after the other: toner throws a little light back at the paper, which throws most of it on again, so that a black
/// on paper keeps back 0.01 to 0.02 less than its density. Two papers lose far less than their densities added.
/// Pinholes count as a mean over many; those of two sides lie at random to each other.
/// </remarks>
public sealed record StackLight(Layering Layering, double LegendShare, double FieldShare, double RingShare)
{
    /// <summary>Clear film of index 1.5, from both surfaces of 4 %: passes 0.92 and throws 0.08 back.</summary>
    private static readonly DiffuseLayer ClearFilm = DiffuseLayer.Even(0.92, 0.08);

    /// <summary>Legend against field.</summary>
    public double ContrastFactor => LegendShare / FieldShare;

    /// <summary>A stack's light.</summary>
    /// <param name="layering">What lies in the light's way.</param>
    /// <param name="sheet">The printed sheet; it must tell of the field's black.</param>
    /// <param name="frontPasses">How often the front's field is printed; a second pass stays out of the ring around a legend.</param>
    public static StackLight Of(Layering layering, SheetOptics sheet, int frontPasses = 1)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var black = sheet.Field ?? throw new ArgumentException("nothing is known of the field's black", nameof(sheet));
        var bare = DiffuseLayer.Even(sheet.Paper.Transmittance, sheet.Paper.Reflectance);
        var front = DiffuseLayer.Film(black.Front.MeanDensity, sheet.Inks.SurfaceReflectance);
        var mask = DiffuseLayer.Film(black.Mask.MeanDensity, sheet.Inks.SurfaceReflectance);
        var (open, dark) = layering switch
        {
            Layering.OneSide => (bare, bare),
            Layering.TwoSides => (bare, bare.Over(mask)),
            Layering.SecondPass => (bare, bare.Over(mask).Over(mask)),
            Layering.Film => (bare.Over(ClearFilm), bare.Over(mask).Over(mask).Over(ClearFilm)),
            _ => (bare.Over(bare), bare.Over(mask).Over(bare).Over(mask)),
        };
        var all = frontPasses > 1 ? front.Over(front) : front;
        return new(layering, open.Transmittance / bare.Transmittance, all.Over(dark).Transmittance / bare.Transmittance, front.Over(open).Transmittance / bare.Transmittance);
    }
}
