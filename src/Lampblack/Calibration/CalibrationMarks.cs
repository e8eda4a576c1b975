using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Calibration;

/// <summary>Draws what a calibration sheet's photo is found and told by: register marks, the turn mark, the rows of cells.</summary>
internal static class CalibrationMarks
{
    private const double CellDegrees = 360.0 / RingCodes.Cells;

    /// <summary>The front's squares with their windows and bright cells, and its code in a bar.</summary>
    public static Region<SheetSpace> Front(CalibrationPlan plan, int copy)
    {
        var code = Code(plan, copy, isHalfTurned: false, isBack: false);
        var bar = Region<SheetSpace>.Rectangle(plan.FrontCode.Grow(SheetCode.AirMm)).Except(Row(plan.FrontCode, code));
        return Region<SheetSpace>.Union(plan.Marks.Select(FrontOf).Append(bar));
    }

    /// <summary>The back's discs with their cells, the turn mark in its place, and the back's code.</summary>
    public static Region<SheetSpace> Back(CalibrationPlan plan, int copy, bool isHalfTurned)
    {
        var turn = new RegisterMark(CalibrationPlan.TurnMarkNumber, plan.TurnPlaces[0]);
        return Region<SheetSpace>.Union(plan.Marks.Append(turn).Select(BackOf).Append(Row(plan.BackCode, Code(plan, copy, isHalfTurned, isBack: true))));
    }

    private static int Code(CalibrationPlan plan, int copy, bool isHalfTurned, bool isBack) =>
        new SheetCode(copy, PaperSize.All.IndexOf(plan.Paper), CalibrationPlan.Version, isHalfTurned, isBack).ToCells();

    /// <summary>A mark's black square with its window and bright cells.</summary>
    public static Region<SheetSpace> FrontOf(RegisterMark mark)
    {
        var square = Region<SheetSpace>.Rectangle(new Box<SheetSpace>(mark.Place.XMm, mark.Place.YMm, 0, 0).Grow(RegisterMark.HalfSquareMm));
        var window = Region<SheetSpace>.Disc(mark.Place, RegisterMark.WindowRadiusMm);
        return square.Except(window).Except(Ring(mark, RegisterMark.FrontCellsInnerMm, RegisterMark.FrontCellsOuterMm));
    }

    private static Region<SheetSpace> BackOf(RegisterMark mark) =>
        Region<SheetSpace>.Disc(mark.Place, RegisterMark.DiscRadiusMm).Union(Ring(mark, RegisterMark.BackCellsInnerMm, RegisterMark.BackCellsOuterMm));

    /// <summary>The set cells; neighbours are one arc.</summary>
    private static Region<SheetSpace> Ring(RegisterMark mark, double innerMm, double outerMm)
    {
        var arcs = new List<Region<SheetSpace>>();
        for (var cell = 0; cell < RingCodes.Cells; cell++)
        {
            if (((mark.Cells >> cell) & 1) != 0)
            {
                var (from, to) = (cell * CellDegrees, (cell + 1) * CellDegrees);
                arcs.Add(Region<SheetSpace>.FromCorners(
                [
                    .. Outline<SheetSpace>.Arc(mark.Place, outerMm, from, to).Points,
                    .. Outline<SheetSpace>.Arc(mark.Place, innerMm, to, from).Points,
                ]));
            }
        }

        return Region<SheetSpace>.Union(arcs);
    }

    /// <summary>The set cells of a row.</summary>
    public static Region<SheetSpace> Row(Box<SheetSpace> row, int cells) => Region<SheetSpace>.Union(
        Enumerable.Range(0, SheetCode.Cells).Where(cell => ((cells >> cell) & 1) != 0)
            .Select(cell => Region<SheetSpace>.Rectangle(row with { LeftMm = row.LeftMm + (cell * SheetCode.CellLengthMm), WidthMm = SheetCode.CellLengthMm })));
}
