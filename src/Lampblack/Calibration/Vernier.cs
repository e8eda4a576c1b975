using System.Collections.Immutable;
using Lampblack.Geometry;

namespace Lampblack.Calibration;

/// <summary>
/// A vernier of the calibration sheet. The front's lines are 1 mm apart and numbered, the back's eleven 0.9 mm: the whole millimetres are read where the back's
/// first line stands, the tenths where a line of the back runs straight on in one of the front. In register it reads <see cref="InRegisterMm"/>, so that no reading has a sign.
/// </summary>
/// <param name="Number">Of its pair: 1 upper left, 2 upper right, 3 middle, 4 lower left, 5 lower right.</param>
/// <param name="IsUp">Whether it tells how far side 2 lies up; else how far to the right.</param>
/// <param name="Place">Where the back's first line stands in register, and where what is read holds.</param>
/// <param name="Box">The room it takes on both sides, wherever side 2 lies within its range.</param>
public sealed record Vernier(int Number, bool IsUp, Point<SheetSpace> Place, Box<SheetSpace> Box)
{
    /// <summary>What is read where side 2 lies just right.</summary>
    public const double InRegisterMm = 5;

    /// <summary>The least that can be read.</summary>
    public const double LowestMm = 1;

    /// <summary>The most that can be read.</summary>
    public const double HighestMm = 9;

    /// <summary>From one line of the front to the next.</summary>
    public const double FrontPitchMm = 1;

    /// <summary>From one line of the back to the next.</summary>
    public const double BackPitchMm = 0.9;

    /// <summary>How it is called on the sheet and behind <c>--vernier</c>, such as <c>3y</c>.</summary>
    public string Name => $"{Number}{(IsUp ? 'y' : 'x')}";

    /// <summary>The ten verniers of a plan, by number, each x before y.</summary>
    /// <param name="plan">The plan.</param>
    public static ImmutableArray<Vernier> Of(CalibrationPlan plan)
    {
        var verniers = ImmutableArray.CreateBuilder<Vernier>();
        foreach (var pair in new CalibrationLayout(plan, isBlackOnly: false).Verniers)
        {
            verniers.Add(pair.Across);
            verniers.Add(pair.Upright);
        }

        return verniers.ToImmutable();
    }
}

/// <summary>A vernier for x and one for y beside each other.</summary>
internal sealed record VernierPair
{
    /// <param name="number">Its number.</param>
    /// <param name="content">The room; both hang from its upper edge.</param>
    public VernierPair(int number, Box<SheetSpace> content)
    {
        Number = number;
        var across = new Box<SheetSpace>(content.LeftMm, content.TopMm - VernierDrawing.AcrossHeightMm, VernierDrawing.AcrossWidthMm, VernierDrawing.AcrossHeightMm);
        var upright = new Box<SheetSpace>(content.RightMm - VernierDrawing.UprightWidthMm, content.TopMm - VernierDrawing.UprightHeightMm, VernierDrawing.UprightWidthMm, VernierDrawing.UprightHeightMm);
        Across = new(number, IsUp: false, new(across.LeftMm + VernierDrawing.AcrossNameMm + VernierDrawing.BeforeMm, across.BottomMm + VernierDrawing.BelowMm), across);
        Upright = new(number, IsUp: true, new(upright.LeftMm + VernierDrawing.BelowMm, upright.BottomMm + VernierDrawing.BeforeMm), upright);
    }

    public int Number { get; }

    public Vernier Across { get; }

    public Vernier Upright { get; }
}
