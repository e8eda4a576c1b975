using System;
using System.Collections.Generic;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>
/// Two rulers on the front, one across and one upright, and a line of the back on each: against a lamp the line stands at how far the back lies off,
/// in half millimetres, right and up positive.
/// </summary>
internal static class ReadingScale
{
    /// <summary>How far the rulers reach to either side of zero.</summary>
    public const double ReachMm = 3.5;

    private const double StepMm = 0.5;
    private const double LineMm = 0.12;
    private const double IndexMm = 0.2;
    private const double WordMm = 1.6;

    /// <summary>The front's rulers with their name.</summary>
    public static Region<SheetSpace> Front(string name, Point<SheetSpace> middle)
    {
        var (across, upright) = Zeros(middle);
        var regions = new List<Region<SheetSpace>>
        {
            Region<SheetSpace>.Rectangle(new(across.XMm - ReachMm, across.YMm - LineMm, 2 * ReachMm, LineMm)),
            Region<SheetSpace>.Rectangle(new(upright.XMm - LineMm, upright.YMm - ReachMm, LineMm, 2 * ReachMm)),
            SheetText.Centred(name, 1.9, new(across.XMm, across.YMm - 3.2), Side.Front),
            SheetText.Centred("+", WordMm, new(across.XMm + 2.9, across.YMm - 1.7), Side.Front),
            SheetText.Centred("\u2212", WordMm, new(across.XMm - 2.9, across.YMm - 1.7), Side.Front),
            SheetText.Centred("+", WordMm, new(upright.XMm - 1.5, upright.YMm + 2.9), Side.Front),
            SheetText.Centred("\u2212", WordMm, new(upright.XMm - 1.5, upright.YMm - 2.9), Side.Front),
        };
        var steps = (int)Math.Round(ReachMm / StepMm, MidpointRounding.AwayFromZero);
        for (var step = -steps; step <= steps; step++)
        {
            var lengthMm = step == 0 ? 2.2 : step % 2 == 0 ? 1.5 : 0.9;
            var offMm = (step * StepMm) - (LineMm / 2);
            regions.Add(Region<SheetSpace>.Rectangle(new(across.XMm + offMm, across.YMm, LineMm, lengthMm)));
            regions.Add(Region<SheetSpace>.Rectangle(new(upright.XMm, upright.YMm + offMm, lengthMm, LineMm)));
        }

        return Region<SheetSpace>.Union(regions);
    }

    /// <summary>The back's lines, at zero of both rulers, reaching past the marks on either side of them.</summary>
    public static Region<SheetSpace> Back(Point<SheetSpace> middle)
    {
        var (across, upright) = Zeros(middle);
        return Region<SheetSpace>.Union(
        [
            Region<SheetSpace>.Rectangle(new(across.XMm - (IndexMm / 2), across.YMm - 1.6, IndexMm, 4.2)),
            Region<SheetSpace>.Rectangle(new(upright.XMm - 1.6, upright.YMm - (IndexMm / 2), 4.2, IndexMm)),
        ]);
    }

    private static (Point<SheetSpace> Across, Point<SheetSpace> Upright) Zeros(Point<SheetSpace> middle) =>
        (new(middle.XMm - 2.8, middle.YMm + 0.9), new(middle.XMm + 4.2, middle.YMm));
}
