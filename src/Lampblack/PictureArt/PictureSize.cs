using System;
using System.Collections.Immutable;
using System.Globalization;
using Lampblack.Findings;

namespace Lampblack.PictureArt;

/// <summary>What a picture says of its size, beside the size that is wanted.</summary>
public static class PictureSize
{
    /// <summary>How far the stated width may be off before it is asked about.</summary>
    public const double ToleranceShare = 0.01;

    /// <summary>Asks where a picture states another size than the wanted one.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="widthMm">The width that it is to have.</param>
    public static ImmutableArray<Finding> Check(SourcePicture picture, double widthMm)
    {
        ArgumentNullException.ThrowIfNull(picture);
        return picture.StatedWidthMm is { } stated && Math.Abs(stated - widthMm) > ToleranceShare * widthMm
            ? [Finding.Warn(
                "art-size-differs",
                string.Create(CultureInfo.InvariantCulture, $"{Shown.Quoted(picture.FileName)} says it is {stated:0.0} mm wide, and {widthMm:0.0} mm are asked for. Which is right?"),
                string.Create(CultureInfo.InvariantCulture, $"Ask for {stated:0.0} mm if the drawing was made at true size; leave it if it was only exported with another resolution."))]
            : [];
    }

    /// <summary>A resolution that somebody chose: 100 to 9600 dots to the inch, both ways alike within 1 %. 72 and 96 are written unasked by many programs.</summary>
    internal static (double? X, double? Y) Plausible(double? x, double? y) =>
        x is >= 100 and <= 9600 && y is >= 100 and <= 9600 && Math.Abs(x.Value - y.Value) <= 0.01 * x.Value ? (x, y) : (null, null);
}
