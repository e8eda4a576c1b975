using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>Where on a calibration sheet everything lies that a photo is measured by. All places are in front view, in mm from the sheet's lower left corner.</summary>
public sealed class CalibrationPlan
{
    /// <summary>The number in the mark that shows how the back was turned.</summary>
    public const int TurnMarkNumber = 31;

    /// <summary>Half the side of the clear square around each place that the turn mark can come to.</summary>
    public const double HalfTurnPlaceMm = 5;

    /// <summary>The layout's version.</summary>
    public const int Version = 1;

    private const int Columns = 4;
    private const int Rows = 6;

    // Printers leave up to 6.4 mm blank, and side 2 may be off by 1.5 mm.
    internal const double MarginMm = 8;

    // No mirror or half-turn of the back brings a disc into another mark's window: it would miss it by twice this.
    private const double OffRightMm = 4;
    private const double OffUpMm = 5;

    private CalibrationPlan(PaperSize paper)
    {
        Paper = paper;
        var nearestMm = MarginMm + RegisterMark.HalfSquareMm;
        PitchXMm = (paper.WidthMm - (2 * nearestMm) - (2 * OffRightMm)) / (Columns - 1);
        PitchYMm = (paper.HeightMm - (2 * nearestMm) - (2 * OffUpMm)) / (Rows - 1);
        Marks =
        [
            .. from row in Enumerable.Range(0, Rows)
               from column in Enumerable.Range(0, Columns)
               select new RegisterMark(
                   (row * Columns) + column + 1,
                   new(nearestMm + (2 * OffRightMm) + (column * PitchXMm), nearestMm + (2 * OffUpMm) + (row * PitchYMm))),
        ];

        var middle = new Point<SheetSpace>(paper.WidthMm / 2, paper.HeightMm / 2);
        var (turnX, turnY) = (20.0, PitchYMm);
        TurnPlaces = [new(middle.XMm - turnX, middle.YMm + turnY), new(middle.XMm + turnX, middle.YMm + turnY), new(middle.XMm + turnX, middle.YMm - turnY), new(middle.XMm - turnX, middle.YMm - turnY)];

        // Both rows of cells lie in the lowest lane between the marks, the back's above the front's.
        var codeLengthMm = SheetCode.Cells * SheetCode.CellLengthMm;
        var laneBottomMm = Marks[0].Place.YMm + RegisterMark.HalfSquareMm;
        var codeLeftMm = middle.XMm - (codeLengthMm / 2);
        FrontCode = new(codeLeftMm, laneBottomMm + 4 + SheetCode.AirMm, codeLengthMm, SheetCode.CellHeightMm);
        BackCode = new(codeLeftMm, FrontCode.TopMm + (2 * SheetCode.AirMm) + 3, codeLengthMm, SheetCode.CellHeightMm);
    }

    /// <summary>The paper.</summary>
    public PaperSize Paper { get; }

    /// <summary>The register marks, from the lowest row up, each row from the left; number n is the n-th.</summary>
    public ImmutableArray<RegisterMark> Marks { get; }

    /// <summary>From mark to mark along a row.</summary>
    public double PitchXMm { get; }

    /// <summary>From mark to mark up a column.</summary>
    public double PitchYMm { get; }

    /// <summary>
    /// Four clear squares of the front around the sheet's middle: the back's turn mark, a disc and cells as on every mark, belongs in the first, upper left.
    /// Mirrored in the sheet's upright axis it stands in the second, turned by 180 degrees in the third, mirrored in the level axis in the fourth.
    /// </summary>
    public ImmutableArray<Point<SheetSpace>> TurnPlaces { get; }

    /// <summary>The front's row of cells, bright in a black bar that reaches <see cref="SheetCode.AirMm"/> farther all round; the first cell on the left.</summary>
    public Box<SheetSpace> FrontCode { get; }

    /// <summary>The back's row of cells, dark where the front is clear as far as that and 1.5 mm more; the first cell on the left in front view.</summary>
    public Box<SheetSpace> BackCode { get; }

    /// <summary>The plan for a paper; null where the paper is too small for it (A5).</summary>
    public static CalibrationPlan? Of(PaperSize paper) => paper is { WidthMm: >= 200, HeightMm: >= 270 } ? new(paper) : null;
}
