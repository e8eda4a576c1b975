using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Calibration;

/// <summary>A mark that tells where a colour lies: a round window in K, and in it a disc of the colour.</summary>
/// <param name="Letter">The colour's letter: C, M or Y.</param>
/// <param name="Place">The middle of both, in front view.</param>
public sealed record PlaneMark(char Letter, Point<SheetSpace> Place)
{
    /// <summary>Half the side of K's frame.</summary>
    public const double HalfFrameMm = 4.2;

    /// <summary>Radius of the window.</summary>
    public const double WindowRadiusMm = 3;

    /// <summary>Radius of the colour's disc.</summary>
    public const double DiscRadiusMm = 1.5;

    /// <summary>The colour.</summary>
    public Ink Ink => Letter switch { 'C' => Ink.Cmyk(1, 0, 0, 0), 'M' => Ink.Cmyk(0, 1, 0, 0), _ => Ink.Cmyk(0, 0, 1, 0) };
}

/// <summary>Where the marks of the colours are.</summary>
public static class CalibrationPlanes
{
    private const double PitchMm = 9.2;
    private const double BelowTopMm = 0.3;

    /// <summary>All marks of a sheet for a printer with colours: each colour above and below the sheet's middle.</summary>
    /// <param name="plan">The sheet's plan.</param>
    public static ImmutableArray<PlaneMark> Of(CalibrationPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var layout = new CalibrationLayout(plan, isBlackOnly: false);
        return [.. Of(layout.PlanesTop), .. Of(layout.PlanesBottom)];
    }

    internal static ImmutableArray<PlaneMark> Of(Box<SheetSpace> room) =>
        [.. "CMY".Index().Select(colour => new PlaneMark(colour.Item, new(room.Centre.XMm + ((colour.Index - 1) * PitchMm), room.TopMm - PlaneMark.HalfFrameMm - BelowTopMm)))];
}
