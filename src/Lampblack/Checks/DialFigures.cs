using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Checks;

/// <summary>Published figures for scales.</summary>
public static class DialFigures
{
    /// <summary>Most marks between two numbered ones (MIL-HDBK-759B Notice 2, 5.2.2.3.1.4.1).</summary>
    public const int MostBetween = 9;

    /// <summary>How far a mark's length may be off GOST 27626-88's figure.</summary>
    public const double LengthToleranceMm = 0.2;

    /// <summary>Least distance of marks in normal and in low light at 710 mm (MIL-STD-1472 figures 2 and 3, from memory).</summary>
    private const double SpacingMm = 0.89;

    private const double SpacingDimMm = 1.75;
    private const double FiguresDistanceMm = 710;

    // GOST 27626-88, marks by the scale's radius: major length and width, shortest and longest minor, minor width.
    private static readonly ImmutableArray<(double UpToMm, MarkSize Size)> Sizes =
    [
        (15, new(3, 1, 2, 2, 0.4)),
        (30, new(4, 1.2, 2, 3, 0.4)),
        (60, new(5, 1.2, 2, 4, 0.4)),
    ];

    // GOST 27626-88, numbered marks by the scale's length.
    private static readonly ImmutableArray<(double UpToMm, int Fewest, int Most)> Numbers =
        [(50, 3, 5), (100, 4, 6), (150, 5, 8), (200, 6, 10), (double.PositiveInfinity, 6, 12)];

    /// <summary>Sizes of marks by the scale's radius (GOST 27626-88); beyond 60 mm those of 60 mm.</summary>
    /// <param name="radiusMm">Radius of the scale.</param>
    public static MarkSize MarksFor(double radiusMm) => Sizes.Where(row => radiusMm <= row.UpToMm).Select(row => row.Size).FirstOrDefault() ?? Sizes[^1].Size;

    /// <summary>How many numbered marks a scale of that length has (GOST 27626-88).</summary>
    /// <param name="lengthMm">Along the arc.</param>
    public static (int Fewest, int Most) NumbersFor(double lengthMm) => Numbers.Where(row => lengthMm <= row.UpToMm).Select(row => (row.Fewest, row.Most)).First();

    /// <summary>Length of an arc.</summary>
    /// <param name="radiusMm">Its radius.</param>
    /// <param name="sweepDegrees">Its angle.</param>
    public static double ArcMm(double radiusMm, double sweepDegrees) => radiusMm * Math.Abs(sweepDegrees) * Math.PI / 180;

    /// <summary>Least distance of marks, from middle to middle (MIL-STD-1472 figures 2 and 3, from memory).</summary>
    /// <param name="distanceMm">From the eye.</param>
    /// <param name="dim">Whether eyes are used to the dark.</param>
    public static double LeastSpacingMm(double distanceMm, bool dim) => (dim ? SpacingDimMm : SpacingMm) * distanceMm / FiguresDistanceMm;

    /// <summary>Steps of numbers and marks for a scale: 1, 2 or 5 times a power of ten (MIL-HDBK-759B).</summary>
    /// <param name="range">From its first value to its last.</param>
    /// <param name="mostNumbers">Most numbered marks.</param>
    public static (double Major, double Minor) StepsFor(double range, int mostNumbers)
    {
        var power = Math.Pow(10, Math.Floor(Math.Log10(range / mostNumbers)));
        foreach (var lead in new[] { 1, 2, 5, 10, 20, 50 })
        {
            if (Math.Floor((range / (lead * power)) + 1e-9) + 1 <= mostNumbers)
            {
                // Five parts to a step of 1 or 5, four to a step of 2.
                return (lead * power, lead * power / (lead is 2 or 20 ? 4 : 5));
            }
        }

        return (100 * power, 20 * power);
    }
}

/// <summary>Sizes of a scale's marks.</summary>
/// <param name="MajorLengthMm">Length of numbered marks.</param>
/// <param name="MajorWidthMm">Width of numbered marks.</param>
/// <param name="MinorShortestMm">Shortest of the small marks.</param>
/// <param name="MinorLongestMm">Longest of the small marks.</param>
/// <param name="MinorWidthMm">Width of small marks.</param>
public sealed record MarkSize(double MajorLengthMm, double MajorWidthMm, double MinorShortestMm, double MinorLongestMm, double MinorWidthMm);
