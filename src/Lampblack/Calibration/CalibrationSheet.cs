using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>
/// The calibration sheet: register marks, verniers, a black wedge, lit lines, bars, marks of the colours, and as much field on both sides as a panel has. It is
/// always printed with nothing undone but the half-turn of its back, so that what is read off it stands for itself.
/// </summary>
public static class CalibrationSheet
{
    /// <summary>The most copies: the code on the sheet tells no more apart.</summary>
    public const int MostCopies = 255;

    /// <summary>The room of everything on the sheet, by name; no two overlap. What is on the back has the same rooms.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="isBlackOnly">Whether the printer has black only.</param>
    public static ImmutableArray<PlacedGauge> Groups(CalibrationPlan plan, bool isBlackOnly)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return new CalibrationLayout(plan, isBlackOnly).Groups;
    }

    /// <summary>What is printed on the front.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="isBlackOnly">Whether the printer has black only.</param>
    /// <param name="typed">What is typed for the printer's name.</param>
    /// <param name="copy">Number of the copy, from 1 to <see cref="MostCopies"/>.</param>
    public static ImmutableArray<Painted<SheetSpace>> Front(CalibrationPlan plan, bool isBlackOnly, string typed, int copy)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(typed);
        var (layout, black) = (new CalibrationLayout(plan, isBlackOnly), CalibrationPatches.Field(isBlackOnly));
        Region<SheetSpace>[] shapes =
        [
            CalibrationMarks.Front(plan, copy),
            .. Vernier.Of(plan).Select(VernierDrawing.Front),
            CalibrationWedge.Words(layout, isBlackOnly),
            CalibrationGauges.Gain(layout.Gain),
            CalibrationGauges.Along(layout.AlongBar),
            CalibrationGauges.Across(layout.AcrossBar),
            CalibrationWords.Steps(layout.Steps, plan.Paper.Name, copy),
            CalibrationWords.Caution(layout.Caution, isBlackOnly),
            CalibrationWords.Reading(layout.Reading, typed),
        ];
        var planes = isBlackOnly ? [] : CalibrationGauges.Planes(layout.PlanesTop).Concat(CalibrationGauges.Planes(layout.PlanesBottom));
        return
        [
            .. Field(CalibrationField.Front(layout), black),
            new(Region<SheetSpace>.Union(shapes), black.Edge),
            .. CalibrationPatches.Of(plan, isBlackOnly).Where(patch => patch.Front is not null).Select(patch => CalibrationWedge.Patch(patch.Box, patch.Front!, patch.IsImage)),
            .. planes,
        ];
    }

    /// <summary>What is printed on the back, in front view.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="isBlackOnly">Whether the printer has black only.</param>
    /// <param name="isHalfTurned">Whether its page is turned by 180 degrees for the printer.</param>
    /// <param name="copy">Number of the copy, from 1 to <see cref="MostCopies"/>.</param>
    public static ImmutableArray<Painted<SheetSpace>> Back(CalibrationPlan plan, bool isBlackOnly, bool isHalfTurned, int copy)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var (layout, black) = (new CalibrationLayout(plan, isBlackOnly), CalibrationPatches.Field(isBlackOnly));
        Region<SheetSpace>[] shapes =
        [
            CalibrationMarks.Back(plan, copy, isHalfTurned),
            .. Vernier.Of(plan).Select(VernierDrawing.Back),
            CalibrationWords.Back(layout.BackTitle, plan.Paper.Name, copy),
        ];
        return
        [
            .. Field(CalibrationField.Back(layout), black),
            new(Region<SheetSpace>.Union(shapes), black.Edge),
            .. CalibrationPatches.Of(plan, isBlackOnly).Where(patch => patch.Back is not null).Select(patch => CalibrationWedge.Patch(patch.Box, patch.Back!, patch.IsImage)),
        ];
    }

    /// <summary>The front page.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="isBlackOnly">Whether the printer has black only.</param>
    /// <param name="typed">What is typed for the printer's name.</param>
    /// <param name="copy">Number of the copy, from 1 to <see cref="MostCopies"/>.</param>
    public static PdfPage FrontPage(CalibrationPlan plan, bool isBlackOnly, string typed, int copy) =>
        Page(plan, Front(plan, isBlackOnly, typed, copy), PageMapping.Front(PrinterProperties.Unmeasured));

    /// <summary>The back page.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="isBlackOnly">Whether the printer has black only.</param>
    /// <param name="isHalfTurned">Whether it is turned by 180 degrees for the printer.</param>
    /// <param name="copy">Number of the copy, from 1 to <see cref="MostCopies"/>.</param>
    public static PdfPage BackPage(CalibrationPlan plan, bool isBlackOnly, bool isHalfTurned, int copy)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var map = PageMapping.Back(PrinterProperties.Unmeasured with { HalfTurnOfBack = isHalfTurned }, plan.Paper);
        return Page(plan, Back(plan, isBlackOnly, isHalfTurned, copy), map);
    }

    /// <summary>Field as panels have it: K to the edge, and the other inks standing back from it.</summary>
    private static IEnumerable<Painted<SheetSpace>> Field(Region<SheetSpace> field, BlackBuild black)
    {
        yield return new(field, black.Edge);
        if (black.StandsBack)
        {
            yield return new(field.Grow(-PrinterProperties.Unmeasured.StandBackMm), black.Ink);
        }
    }

    private static PdfPage Page(CalibrationPlan plan, ImmutableArray<Painted<SheetSpace>> areas, Affine<SheetSpace, PageSpace> map)
    {
        var whole = new Box<PageSpace>(0, 0, plan.Paper.WidthMm, plan.Paper.HeightMm);
        return new(plan.Paper.WidthMm, plan.Paper.HeightMm, whole, whole, [.. areas.Select(area => area.Map(map))]);
    }
}
