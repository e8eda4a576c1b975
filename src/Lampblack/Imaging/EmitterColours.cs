using System;
using Lampblack.Optics;

namespace Lampblack.Imaging;

/// <summary>Colours of usual light emitters as linear light, the strongest band at 1.</summary>
/// <remarks>
/// A single-colour emitter is taken as light of one wavelength, a white one as the black body of its colour temperature. What lies outside
/// the sRGB triangle (all single wavelengths do) is cut off at its border. Real emitters differ by batch: the pictures are for judging
/// contrast and legibility, not for matching colours.
/// </remarks>
public static class EmitterColours
{
    /// <summary>White of 3000 K: chromaticity x 0.4369, y 0.4041.</summary>
    public static LinearColour WarmWhite { get; } = OfChromaticity(0.4369, 0.4041);

    /// <summary>White of 6500 K: chromaticity x 0.3135, y 0.3236.</summary>
    public static LinearColour CoolWhite { get; } = OfChromaticity(0.3135, 0.3236);

    /// <summary>Red of 630 nm.</summary>
    public static LinearColour Red { get; } = OfXyz(0.6424, 0.2650, 0.00005);

    /// <summary>Amber of 590 nm.</summary>
    public static LinearColour Amber { get; } = OfXyz(1.0263, 0.7570, 0.0011);

    /// <summary>Green of 525 nm.</summary>
    public static LinearColour Green { get; } = OfXyz(0.1096, 0.7932, 0.05725);

    /// <summary>Blue of 470 nm.</summary>
    public static LinearColour Blue { get; } = OfXyz(0.19536, 0.09098, 1.28764);

    /// <summary>The colour of a CIE 1931 chromaticity, cut off at the border of sRGB, its strongest band at 1.</summary>
    /// <param name="x">Chromaticity x, from 0 to 1.</param>
    /// <param name="y">Chromaticity y, above 0.</param>
    public static LinearColour OfChromaticity(double x, double y)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(y);
        return OfXyz(x / y, 1, (1 - x - y) / y);
    }

    private static LinearColour OfXyz(double x, double y, double z)
    {
        var linear = Srgb.FromXyz(x, y, z);
        var inside = new LinearColour(Math.Max(0, linear.Red), Math.Max(0, linear.Green), Math.Max(0, linear.Blue));
        return (1 / inside.Peak) * inside;
    }
}
