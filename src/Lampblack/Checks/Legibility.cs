using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Checks;

/// <summary>How large letters have to be, by several published rules that do not agree.</summary>
public static class Legibility
{
    /// <summary>Least angle of what isn't critical, in minutes of arc (a summary of HF-STD-001B, chapters 3 and 4).</summary>
    public const double LeastArcMinutes = 10;

    /// <summary>Least angle of labels, in minutes of arc (NUREG-0700 Rev. 3, 11.4.1.5-1).</summary>
    public const double LabelArcMinutes = 15;

    /// <summary>Thinnest and thickest stroke of displayed letters, as a share of their height (a summary of HF-STD-001B, chapter 4).</summary>
    public const double ThinnestStrokeShare = 1 / 12.0;

    /// <summary>See <see cref="ThinnestStrokeShare"/>.</summary>
    public const double ThickestStrokeShare = 1 / 6.0;

    /// <summary>From one size of lettering to the next: about a quarter larger (NUREG-0700 Rev. 2, 11.3.1.1-4, and HF-STD-001B).</summary>
    public const double TierFactor = 1.25;

    /// <summary>General panel lettering by the band that the distance lies in (MIL-STD-1472, editions C to F, from memory).</summary>
    private static readonly ImmutableArray<(double UpToMm, double HeightMm)> Bands = [(500, 2.3), (1000, 4.7), (2000, 9.4), (4000, 19), (8000, 38)];

    /// <summary>The height that fills an angle: 2 D tan(a/2).</summary>
    /// <param name="distanceMm">From the eye.</param>
    /// <param name="arcMinutes">The angle in minutes of arc.</param>
    public static double HeightMm(double distanceMm, double arcMinutes) => 2 * distanceMm * Math.Tan(arcMinutes / 60 * Math.PI / 180 / 2);

    /// <summary>The angle that a height fills, in minutes of arc.</summary>
    /// <param name="distanceMm">From the eye.</param>
    /// <param name="heightMm">The height.</param>
    public static double ArcMinutes(double distanceMm, double heightMm) => 2 * Math.Atan(heightMm / 2 / distanceMm) * 180 / Math.PI * 60;

    /// <summary>NUREG-0700 Rev. 3, 11.4.1.5-1, by its factors of 0.004 and 0.006, which it calls 15 and 20 minutes although they are 13.75 and 20.63.</summary>
    /// <param name="distanceMm">From the eye.</param>
    public static (double LeastMm, double PreferredMm) ByFactor(double distanceMm) => (distanceMm * 0.004, distanceMm * 0.006);

    /// <summary>ISO 9241-3: from 155 to 175 heights away.</summary>
    /// <param name="heightMm">Height of capitals.</param>
    public static (double NearestMm, double FarthestMm) IsoDistanceMm(double heightMm) => (155 * heightMm, 175 * heightMm);

    /// <summary>DIN 4844-1: lettering of signs is a 300th of the distance.</summary>
    /// <param name="distanceMm">From the eye.</param>
    public static double SignHeightMm(double distanceMm) => distanceMm / 300;

    /// <summary>MIL-STD-1472 (from memory): the height of the band that the distance lies in; null beyond 8 m.</summary>
    /// <param name="distanceMm">From the eye.</param>
    public static double? BandHeightMm(double distanceMm) => Bands.Where(band => distanceMm <= band.UpToMm).Select(band => (double?)band.HeightMm).FirstOrDefault();

    /// <summary>The best stroke (DOD-HDBK-791 6-5.3.2.3): 1/8 to 1/7 of the height for light letters on dark, 1/6 for dark ones on light.</summary>
    /// <param name="heightMm">Height of capitals.</param>
    /// <param name="isLightOnDark">Whether the letters are lighter than what is around them.</param>
    public static (double ThinMm, double ThickMm) BestStrokeMm(double heightMm, bool isLightOnDark) =>
        isLightOnDark ? (heightMm / 8, heightMm / 7) : (heightMm / 6, heightMm / 6);

    /// <summary>A digit lit from behind (MIL-STD-1472E 5.4.2.1.3.5): width 2/3 and stroke 1/10 of its height.</summary>
    /// <param name="heightMm">Its height.</param>
    public static (double WidthMm, double StrokeMm) LitDigitMm(double heightMm) => (heightMm * 2 / 3, heightMm / 10);

    /// <summary>Sizes that are told apart, each a quarter larger than the one before.</summary>
    /// <param name="smallestMm">The smallest.</param>
    /// <param name="count">How many.</param>
    public static ImmutableArray<double> TiersMm(double smallestMm, int count) => [.. Enumerable.Range(0, count).Select(step => smallestMm * Math.Pow(TierFactor, step))];
}
