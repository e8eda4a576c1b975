using System;

namespace Lampblack.Sheets;

/// <summary>What the gauges of a sheet may show for the sheet to be good: every opening is then still behind its legend, whichever way the back lies off.</summary>
public static class PassLimits
{
    /// <summary>What each further dot of a row stands for, in mm.</summary>
    public const double DotStepMm = 0.1;

    /// <summary>
    /// The most dots that may shine in a row, both ways at once. A count of n stands for up to n + 1 tenths of a millimetre.
    /// Negative where the spread is too small for the rows to tell.
    /// </summary>
    /// <param name="spreadMm">The spread of the openings, in mm.</param>
    public static int MostDots(double spreadMm) => (int)Math.Floor((spreadMm / (DotStepMm * Math.Sqrt(2))) - 1 + 1e-9);

    /// <summary>How far off the reading scales may show the back, both ways at once, in whole tenths of a millimetre.</summary>
    /// <param name="spreadMm">The spread of the openings, in mm.</param>
    public static double MostReadingMm(double spreadMm) => Math.Floor((spreadMm / Math.Sqrt(2) * 10) + 1e-9) / 10;
}
