using System.Collections.Generic;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Geometry;

namespace Lampblack.Photos;

/// <summary>Reads the row of cells by which a side of the sheet says what it is.</summary>
internal static class RowReader
{
    /// <summary>What the row says; null where it is none, or not in the photo.</summary>
    /// <param name="light">The photo.</param>
    /// <param name="place">From the plan's places to the photo's pixels.</param>
    /// <param name="row">The row's box in the plan.</param>
    /// <param name="bright">Whether set cells are bright.</param>
    public static SheetCode? Read(LightPlane light, System.Func<Point<SheetSpace>, (double X, double Y)> place, Box<SheetSpace> row, bool bright)
    {
        var levels = new List<double>();
        var around = new List<double>();
        for (var cell = 0; cell < SheetCode.Cells; cell++)
        {
            var x = row.LeftMm + ((cell + 0.5) * SheetCode.CellLengthMm);
            levels.Add((At(x - 0.3, -0.5) + At(x, -0.5) + At(x + 0.3, -0.5) + At(x - 0.3, 0.5) + At(x, 0.5) + At(x + 0.3, 0.5)) / 6);
            around.Add((At(x, 2.5) + At(x, -2.5)) / 2);
        }

        if (levels.Exists(double.IsNaN))
        {
            return null;
        }

        // First and last cell are set; what is around the row is as cells are that are not.
        var set = levels[0] + levels[^1];
        var unset = levels[^2] + around.Where(value => !double.IsNaN(value)).DefaultIfEmpty(levels[^2]).Average();
        if (bright ? set < 1.3 * unset : unset < 1.3 * set)
        {
            return null;
        }

        var half = (set + unset) / 4;
        return SheetCode.Read(Enumerable.Range(0, SheetCode.Cells).Where(cell => levels[cell] > half == bright).Sum(cell => 1 << cell));

        double At(double x, double aside)
        {
            var (u, v) = place(new(x, row.Centre.YMm + aside));
            return light.At(u, v);
        }
    }
}
