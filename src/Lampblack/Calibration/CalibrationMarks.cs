using System.Linq;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>Draws what a calibration sheet's photo is found and told by: register marks, the turn mark, the rows of cells.</summary>
internal static class CalibrationMarks
{
    /// <summary>The front's squares with their windows and bright cells, and its code in a bar.</summary>
    public static Region<SheetSpace> Front(CalibrationPlan plan, int copy)
    {
        var code = Code(plan, copy, isHalfTurned: false, isBack: false);
        var bar = Region<SheetSpace>.Rectangle(plan.FrontCode.Grow(SheetCode.AirMm)).Except(Row(plan.FrontCode, code));
        return Region<SheetSpace>.Union(plan.Marks.Select(MarkDrawing.Front).Append(bar));
    }

    /// <summary>The back's discs with their cells, the turn mark in its place, and the back's code.</summary>
    public static Region<SheetSpace> Back(CalibrationPlan plan, int copy, bool isHalfTurned)
    {
        var turn = new RegisterMark(CalibrationPlan.TurnMarkNumber, plan.TurnPlaces[0]);
        return Region<SheetSpace>.Union(plan.Marks.Append(turn).Select(MarkDrawing.Back).Append(Row(plan.BackCode, Code(plan, copy, isHalfTurned, isBack: true))));
    }

    private static int Code(CalibrationPlan plan, int copy, bool isHalfTurned, bool isBack) =>
        new SheetCode(copy, PaperSize.All.IndexOf(plan.Paper), CalibrationPlan.Version, isHalfTurned, isBack).ToCells();

    /// <summary>The set cells of a row.</summary>
    public static Region<SheetSpace> Row(Box<SheetSpace> row, int cells) => Region<SheetSpace>.Union(
        Enumerable.Range(0, SheetCode.Cells).Where(cell => ((cells >> cell) & 1) != 0)
            .Select(cell => Region<SheetSpace>.Rectangle(row with { LeftMm = row.LeftMm + (cell * SheetCode.CellLengthMm), WidthMm = SheetCode.CellLengthMm })));
}
