using System;
using System.Collections.Generic;
using System.Collections.Immutable;
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

    // A mark for one colour: a frame of K with a round window, and in it the colour's disc.
    private const double PlaneHalfMm = 4.2;
    private const double PlaneWindowMm = 3;
    private const double PlaneDiscMm = 1.5;

    /// <summary>Width of the block of lit lines with its words.</summary>
    public const double GainWidthMm = (10 * GainPitchMm) + 1;

    /// <summary>Its height.</summary>
    public const double GainHeightMm = 23.4;

    private const double GainPitchMm = 6;

    /// <summary>Widths of the lit lines.</summary>
    public static ImmutableArray<double> GainWidthsMm { get; } = [0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.8, 1];

    /// <summary>A block of black in which each width is lit twice, upright and level; its numbers stand below.</summary>
    public static Region<SheetSpace> Gain(Box<SheetSpace> box)
    {
        var block = new Box<SheetSpace>(box.LeftMm + 0.5, box.TopMm - 20, GainWidthsMm.Length * GainPitchMm, 15.5);
        var (lit, words) = (new List<Region<SheetSpace>>(), new List<Region<SheetSpace>>());
        foreach (var (index, width) in GainWidthsMm.Index())
        {
            var x = block.LeftMm + ((index + 0.5) * GainPitchMm);
            lit.Add(Region<SheetSpace>.Rectangle(new(x - (width / 2), block.TopMm - 9, width, 7.5)));
            lit.Add(Region<SheetSpace>.Rectangle(new(x - 2, block.BottomMm + 3 - (width / 2), 4, width)));
            words.Add(SheetText.Centred(FormattableString.Invariant($"{width:0.##}"), NameMm, new(x, block.BottomMm - 1.9), Side.Front));
        }

        words.Add(SheetText.Starting("LIT LINES, mm: the thinnest that shines?", 2.4, new(box.LeftMm + 0.3, box.TopMm - 2.7, 1, 2.4), Side.Front));
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
        foreach (var (index, (name, ink)) in new[] { ("C", Ink.Cmyk(1, 0, 0, 0)), ("M", Ink.Cmyk(0, 1, 0, 0)), ("Y", Ink.Cmyk(0, 0, 1, 0)) }.Index())
        {
            var middle = PlanePlace(box, index);
            frames.Add(Region<SheetSpace>.Rectangle(new Box<SheetSpace>(middle.XMm, middle.YMm, 0, 0).Grow(PlaneHalfMm)).Except(Region<SheetSpace>.Disc(middle, PlaneWindowMm)));
            frames.Add(SheetText.Centred(name, NameMm, new(middle.XMm, box.BottomMm + 0.3 + (NameMm / 2)), Side.Front));
            discs.Add(new(Region<SheetSpace>.Disc(middle, PlaneDiscMm), ink));
        }

        return [new(Region<SheetSpace>.Union(frames), Ink.FullK), .. discs];
    }

    /// <summary>The middle of a colour's mark: 0 cyan, 1 magenta, 2 yellow.</summary>
    public static Point<SheetSpace> PlanePlace(Box<SheetSpace> box, int colour) => new(box.Centre.XMm + ((colour - 1) * 9.2), box.TopMm - PlaneHalfMm - 0.3);

    /// <summary>A mark each centimetre; the outer edges of the first and the last are as far apart as the bar is long.</summary>
    private static IEnumerable<(double AtMm, double LengthMm)> Ticks(int lengthMm) => Enumerable.Range(0, (lengthMm / 10) + 1).Select(step =>
        (step == 0 ? 0 : 10 * step == lengthMm ? lengthMm - LineMm : (10 * step) - (LineMm / 2), 10 * step == lengthMm || step % 5 == 0 ? 3.2 : 1.8));
}
