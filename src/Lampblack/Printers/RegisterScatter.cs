using System.Collections.Immutable;
using Lampblack.Numerics;

namespace Lampblack.Printers;

/// <summary>How much side 2 differs from sheet to sheet: scales of Student's t, which is the normal distribution's standard deviation once many sheets are known.</summary>
/// <param name="ShiftMm">Of the shift, to the right and up alike.</param>
/// <param name="TurnDegrees">Of the turn.</param>
/// <param name="StretchPercent">Of both stretches and the shear.</param>
public sealed record RegisterScatter(double ShiftMm, double TurnDegrees, double StretchPercent)
{
    /// <summary>What sheets are believed to scatter by before any were seen: 0.1 mm, half a milliradian, 0.04 %. From memory, no source.</summary>
    public const double PriorShiftSdMm = 0.1;

    private const double PriorTurnSdRadians = 0.0005;
    private const double PriorStretchSdShare = 0.0004;

    // That belief counts as much as this many deviations: a printer twice as good or bad is no wonder. From memory, no source.
    private const double PriorDegrees = 5;

    /// <summary>Shift right and up; turn; stretch of x and y with the shear.</summary>
    internal static ImmutableArray<ScatterClass> Classes { get; } =
    [
        new([0, 1], [PriorShiftSdMm, PriorShiftSdMm], PriorDegrees),
        new([2], [PriorTurnSdRadians], PriorDegrees),
        new([3, 4, 5], [PriorStretchSdShare, PriorStretchSdShare, PriorStretchSdShare / 2], PriorDegrees),
    ];
}
