using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Calibration;

/// <summary>A line of the calibration sheet that is lit: bare paper in a block of black, by which toner's growth is told.</summary>
/// <param name="Middle">Its middle, in front view.</param>
/// <param name="WidthMm">How wide it is meant to be.</param>
/// <param name="LengthMm">How long.</param>
/// <param name="IsUpright">Whether it runs up the sheet, so that its edges face right and left.</param>
public sealed record LitLine(Point<SheetSpace> Middle, double WidthMm, double LengthMm, bool IsUpright)
{
    /// <summary>The line as it is meant.</summary>
    public Box<SheetSpace> Box => IsUpright
        ? new(Middle.XMm - (WidthMm / 2), Middle.YMm - (LengthMm / 2), WidthMm, LengthMm)
        : new(Middle.XMm - (LengthMm / 2), Middle.YMm - (WidthMm / 2), LengthMm, WidthMm);
}

/// <summary>Where the lit lines are, and the black that they are in.</summary>
public static class CalibrationLines
{
    /// <summary>From line to line.</summary>
    internal const double PitchMm = 6;

    private const double BlockHeightMm = 15.5;
    private const double BlockTopMm = 4.5;
    private const double UprightMm = 7.5;
    private const double LevelMm = 4;

    /// <summary>Widths of the lit lines; each is there upright and level.</summary>
    public static ImmutableArray<double> WidthsMm { get; } = [0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.8, 1];

    /// <summary>The black around them: nothing is behind it on the back.</summary>
    /// <param name="plan">The sheet's plan.</param>
    public static Box<SheetSpace> Block(CalibrationPlan plan) => Block(Room(plan));

    /// <summary>All lines, upright and level ones of each width.</summary>
    /// <param name="plan">The sheet's plan.</param>
    public static ImmutableArray<LitLine> Of(CalibrationPlan plan) => Of(Block(plan));

    internal static Box<SheetSpace> Block(Box<SheetSpace> room) =>
        new(room.LeftMm + 0.5, room.TopMm - BlockTopMm - BlockHeightMm, WidthsMm.Length * PitchMm, BlockHeightMm);

    internal static ImmutableArray<LitLine> Of(Box<SheetSpace> block) => [.. WidthsMm.Index().SelectMany(line => Pair(block, line.Index, line.Item))];

    private static IEnumerable<LitLine> Pair(Box<SheetSpace> block, int index, double widthMm)
    {
        var x = block.LeftMm + ((index + 0.5) * PitchMm);
        yield return new(new(x, block.TopMm - 1.5 - (UprightMm / 2)), widthMm, UprightMm, IsUpright: true);
        yield return new(new(x, block.BottomMm + 3), widthMm, LevelMm, IsUpright: false);
    }

    // The lines have the same room whether a printer has colours or not.
    private static Box<SheetSpace> Room(CalibrationPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return new CalibrationLayout(plan, isBlackOnly: false).Gain;
    }
}
