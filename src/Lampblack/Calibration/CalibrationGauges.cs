using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>Draws the calibration sheet's smaller gauges: lit lines for toner's growth, bars for a ruler, marks for the places of the colours.</summary>
internal static class CalibrationGauges
{
    private const double LineMm = 0.2;
    private const double NameMm = 2.2;

    /// <summary>Width of the block of lit lines with its words.</summary>
    public const double GainWidthMm = (10 * CalibrationLines.PitchMm) + 1;

    /// <summary>Its height.</summary>
    public const double GainHeightMm = 23.4;

    /// <summary>A block of black in which each width is lit twice, upright and level; its numbers stand below.</summary>
    public static Region<SheetSpace> Gain(Box<SheetSpace> box)
    {
        var block = CalibrationLines.Block(box);
        var lines = CalibrationLines.Of(block);
        var lit = lines.Select(line => Region<SheetSpace>.Rectangle(line.Box));
        var words = lines.Where(line => line.IsUpright)
            .Select(line => SheetText.Centred(FormattableString.Invariant($"{line.WidthMm:0.##}"), NameMm, new(line.Middle.XMm, block.BottomMm - 1.9), Side.Front))
            .Append(SheetText.Starting("LIT LINES, mm: the thinnest that shines?", 2.4, new(box.LeftMm + 0.3, box.TopMm - 2.7, 1, 2.4), Side.Front));
        return Region<SheetSpace>.Rectangle(block).Except(Region<SheetSpace>.Union(lit)).Union(Region<SheetSpace>.Union(words));
    }

    /// <summary>A bar of 180 mm along the foot of the sheet.</summary>
    public static Region<SheetSpace> Across(Box<SheetSpace> box)
    {
        var bar = new Box<SheetSpace>(box.Centre.XMm - 90, box.BottomMm + 0.2, 180, LineMm);
        return Region<SheetSpace>.Union(
        [
            Region<SheetSpace>.Rectangle(bar),
            .. Ticks(180).Select(tick => Region<SheetSpace>.Rectangle(new(bar.LeftMm + tick.AtMm, bar.BottomMm, LineMm, tick.LengthMm))),
            SheetText.Centred(
                "180 mm from outer edge to outer edge, the upright bar 250 mm. Shorter than 179 and 248.5? The page was scaled: print at actual size.",
                NameMm,
                new(box.Centre.XMm, box.TopMm - 1.4),
                Side.Front),
        ]);
    }

    /// <summary>A bar of 250 mm up the left of the sheet.</summary>
    public static Region<SheetSpace> Along(Box<SheetSpace> box)
    {
        var bar = new Box<SheetSpace>(box.LeftMm + 0.4, box.BottomMm + 0.5, LineMm, 250);
        return Region<SheetSpace>.Union(
        [
            Region<SheetSpace>.Rectangle(bar),
            .. Ticks(250).Select(tick => Region<SheetSpace>.Rectangle(new(bar.LeftMm, bar.BottomMm + tick.AtMm, tick.LengthMm, LineMm))),
            SheetText.Centred("250 mm", NameMm, new(box.LeftMm + 5.2, box.Centre.YMm), Side.Front, 1),
        ]);
    }

    /// <summary>Three marks in a row, one for each colour: K's frame, and the colour's disc in the middle of its window if the colours lie on K.</summary>
    public static IEnumerable<Painted<SheetSpace>> Planes(Box<SheetSpace> box)
    {
        var frames = new List<Region<SheetSpace>>();
        var discs = new List<Painted<SheetSpace>>();
        foreach (var mark in CalibrationPlanes.Of(box))
        {
            var frame = Region<SheetSpace>.Rectangle(new Box<SheetSpace>(mark.Place.XMm, mark.Place.YMm, 0, 0).Grow(PlaneMark.HalfFrameMm));
            frames.Add(frame.Except(Region<SheetSpace>.Disc(mark.Place, PlaneMark.WindowRadiusMm)));
            frames.Add(SheetText.Centred($"{mark.Letter}", NameMm, new(mark.Place.XMm, box.BottomMm + 0.3 + (NameMm / 2)), Side.Front));
            discs.Add(new(Region<SheetSpace>.Disc(mark.Place, PlaneMark.DiscRadiusMm), mark.Ink));
        }

        return [new(Region<SheetSpace>.Union(frames), Ink.FullK), .. discs];
    }

    /// <summary>A mark each centimetre; the outer edges of the first and the last are as far apart as the bar is long.</summary>
    private static IEnumerable<(double AtMm, double LengthMm)> Ticks(int lengthMm) => Enumerable.Range(0, (lengthMm / 10) + 1).Select(step =>
        (step == 0 ? 0 : 10 * step == lengthMm ? lengthMm - LineMm : (10 * step) - (LineMm / 2), 10 * step == lengthMm || step % 5 == 0 ? 3.2 : 1.8));
}
