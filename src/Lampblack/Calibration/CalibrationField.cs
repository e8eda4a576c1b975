using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>
/// The calibration sheet's field: what is left between its groups, on both sides, so that about as much toner goes through the fuser as with panels. Paper shrinks and
/// curls by its load, and register goes with it.
/// </summary>
internal static class CalibrationField
{
    /// <summary>Free of heavy toner at either end, which may lead: common practice, no source.</summary>
    private const double EndMm = 11;

    private const double FrontAirMm = 1;

    // Where side 2 lies off, its field must not cover what is measured.
    private const double BackAirMm = 2.5;

    // Narrower pieces are left out.
    private const double HalfNarrowMm = 1.5;

    /// <summary>On the front.</summary>
    public static Region<SheetSpace> Front(CalibrationLayout layout)
    {
        var (along, across, paper) = (layout.AlongBar, layout.AcrossBar, layout.Paper);
        var whole = Box<SheetSpace>.Between(new(along.RightMm + 1, across.TopMm + 1), new(paper.WidthMm - CalibrationPlan.MarginMm, paper.HeightMm - EndMm));
        return Around(whole, FrontAirMm, layout.Groups.Where(group => group.Box != layout.BackTitle).Select(group => group.Box));
    }

    /// <summary>
    /// On the back, in front view: behind words that are read before there is a lamp, too, and behind the bars, which are measured with a ruler. Around the marks it
    /// stays as far from the front's bright cells as from everything else, and no farther.
    /// </summary>
    public static Region<SheetSpace> Back(CalibrationLayout layout)
    {
        var paper = layout.Paper;
        var whole = Box<SheetSpace>.Between(new(CalibrationPlan.MarginMm, EndMm), new(paper.WidthMm - CalibrationPlan.MarginMm, paper.HeightMm - EndMm));
        var field = Around(whole, BackAirMm, layout.Groups.Where(group => !layout.BehindField.Contains(group.Box) && !layout.Marks.Any(mark => group.Box.Contains(mark.Place))).Select(group => group.Box));
        var rest = field.Except(Region<SheetSpace>.Union(layout.Marks.Select(mark => Region<SheetSpace>.Disc(mark.Place, RegisterMark.FrontCellsOuterMm + BackAirMm))));

        // Without what became narrow, but with the corners that a disc does not reach into: 0.42 of its radius at right angles.
        return rest.Intersect(rest.Grow(-HalfNarrowMm).Grow(HalfNarrowMm * 1.45));
    }

    private static Region<SheetSpace> Around(Box<SheetSpace> whole, double airMm, IEnumerable<Box<SheetSpace>> groups) =>
        Rest(whole.Grow(-HalfNarrowMm), [.. groups.Select(box => box.Grow(airMm + HalfNarrowMm))]);

    /// <summary>
    /// What boxes leave of a whole, everything grown by half of what is too narrow: each stretch that is free between two neighbouring levels is a rectangle. So
    /// narrow pieces are gone, and all corners are sharp.
    /// </summary>
    private static Region<SheetSpace> Rest(Box<SheetSpace> whole, List<Box<SheetSpace>> boxes)
    {
        var levels = boxes.SelectMany(box => new[] { box.BottomMm, box.TopMm }).Append(whole.BottomMm).Append(whole.TopMm)
            .Where(level => level >= whole.BottomMm && level <= whole.TopMm).Distinct().Order().ToList();
        var free = new List<Region<SheetSpace>>();
        foreach (var (bottom, top) in levels.Zip(levels.Skip(1)))
        {
            var from = whole.LeftMm;
            var middle = (bottom + top) / 2;
            foreach (var box in boxes.Where(box => box.BottomMm < middle && box.TopMm > middle).OrderBy(box => box.LeftMm).Append(new(whole.RightMm, bottom, 0, top - bottom)))
            {
                if (box.LeftMm > from)
                {
                    free.Add(Region<SheetSpace>.Rectangle(Box<SheetSpace>.Between(new(from, bottom), new(Math.Min(box.LeftMm, whole.RightMm), top)).Grow(HalfNarrowMm)));
                }

                from = Math.Max(from, box.RightMm);
            }
        }

        return Region<SheetSpace>.Union(free);
    }
}
