using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Bitmaps;
using Lampblack.Findings;

namespace Lampblack.PictureArt;

/// <summary>What a laser printer can hold, in mm; common practice, no source.</summary>
public static class ArtLimits
{
    /// <summary>A single speck of toner or of paper is held from this diameter on: three dots of 600 to the inch.</summary>
    public const double SmallestSpeckMm = 0.13;

    /// <summary>A stroke that shines stays open from this width on: five dots of 600 to the inch, the least of the hatches' lines less a dot on each side.</summary>
    public const double ThinnestStrokeMm = 0.2;

    /// <summary>The points of needles and the corners of letters are thin too, and nobody misses them: only what is thin over this length is told of.</summary>
    private const double ShortestStrokeMm = 1;

    /// <summary>Dots that a speck must have to stay: those of a disc of the smallest diameter.</summary>
    public static long SmallestSpeckDots(double mmPerDot) =>
        Math.Max(1, (long)Math.Ceiling(Math.PI / 4 * Math.Pow(SmallestSpeckMm / mmPerDot, 2)));

    /// <summary>The width in dots below which a stroke is too thin.</summary>
    public static int ThinnestStrokeDots(double mmPerDot) => Math.Max(1, (int)Math.Round(ThinnestStrokeMm / mmPerDot, MidpointRounding.AwayFromZero));

    /// <summary>Says how many specks were taken away.</summary>
    /// <param name="fileName">The picture.</param>
    /// <param name="specks">Openings that were too small.</param>
    /// <param name="holes">Spots of field within openings that were too small.</param>
    public static ImmutableArray<Finding> Specks(string fileName, int specks, int holes) => specks + holes == 0
        ? []
        : [Finding.Note(
            "art-specks",
            string.Create(CultureInfo.InvariantCulture, $"{specks} openings and {holes} black spots of {Shown.Quoted(fileName)} are smaller than {SmallestSpeckMm} mm, less than a printer holds; they were left out."),
            "Draw dots larger if they are meant; specks of a scan are best gone.")];

    /// <summary>Says how much of the openings is too thin, and where most of it lies.</summary>
    /// <param name="fileName">The picture.</param>
    /// <param name="thin">What an opening by <see cref="ThinnestStrokeDots"/> loses.</param>
    /// <param name="mmPerDot">The side of a dot.</param>
    public static ImmutableArray<Finding> Strokes(string fileName, ThinStrokes thin, double mmPerDot)
    {
        ArgumentNullException.ThrowIfNull(thin);
        if (thin.Places.Where(place => Math.Max(place.Box.WidthDots, place.Box.HeightDots) * mmPerDot >= ShortestStrokeMm).ToImmutableArray() is not [var longest, ..])
        {
            return [];
        }

        var box = longest.Box;
        return [Finding.Warn(
            "art-strokes-thin",
            string.Create(CultureInfo.InvariantCulture, $"Strokes of {Shown.Quoted(fileName)} are thinner than {ThinnestStrokeMm} mm ({FieldFindings.Percent(thin.LostShare)} of what shines); the most at {box.Left * mmPerDot:0.0} mm from the left and {box.Top * mmPerDot:0.0} mm from the top."),
            "Draw them thicker; toner closes what is thinner.")];
    }
}
