using System.Linq;
using Lampblack.Calibration;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Xunit;

namespace Lampblack.Tests.Sheets;

/// <summary>The numbers of the register marks in a sheet's waste.</summary>
public sealed class WasteMarkTests
{
    /// <summary>A sheet of an earlier lesson must not be taken for one of the newest: of 60 that are close to each other no two are marked alike.</summary>
    [Fact]
    public void Sheets_with_other_things_undone_have_other_numbers()
    {
        var printer = PrinterProperties.Unmeasured;
        var known = Enumerable.Range(0, 20).Select(step => printer with { SideTwo = Affine<SheetSpace, SheetSpace>.Shift(0.05 * step, 0) })
            .Concat(Enumerable.Range(1, 20).Select(step => printer with { SideTwo = Affine<SheetSpace, SheetSpace>.Scale(1 + (0.0001 * step), 1) }))
            .Concat(Enumerable.Range(1, 18).Select(step => printer with { SideOne = Affine<SheetSpace, SheetSpace>.Shift(0, 0.05 * step) }))
            .Append(printer with { HalfTurnOfBack = true })
            .Append(printer with { Revision = 1 }).ToList();
        var marked = known.Select(one => string.Join(' ', Numbers(one))).ToList();
        Assert.Equal(60, marked.Count);
        Assert.Equal(60, marked.Distinct().Count());
        Assert.Equal(marked[0], string.Join(' ', Numbers(printer)));
    }

    [Fact]
    public void Each_number_stands_on_a_sheet_once_and_on_no_calibration_sheet()
    {
        var numbers = Numbers(PrinterProperties.Unmeasured);
        Assert.Equal(6, numbers.Distinct().Count());
        Assert.All(numbers, number => Assert.True(WasteMarks.IsNumber(number)));
        var calibration = CalibrationPlan.Of(PaperSize.Find("A4")!)!;
        Assert.NotEmpty(calibration.Marks);
        Assert.DoesNotContain(calibration.Marks, mark => WasteMarks.IsNumber(mark.Number));
    }

    private static int[] Numbers(PrinterProperties printer) =>
    [
        .. WasteMarks.Of(Assert.Single(SheetsOf.Panels(
            "T", [new("p", "P", 100, 60, 3, [], [], Region<PanelSpace>.Empty)], PaperSize.Find("A4")!, printer, printer.Builds[0], new(false)).Value)).Select(mark => mark.Number),
    ];
}
