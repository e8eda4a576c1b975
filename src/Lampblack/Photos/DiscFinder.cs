using System;
using Lampblack.Calibration;
using Lampblack.Geometry;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>A dark disc that was found near a place.</summary>
/// <param name="Middle">Where.</param>
/// <param name="ContrastShare">How much darker than paper it is, as a share of paper's light.</param>
internal readonly record struct FoundDisc(Point<SheetSpace> Middle, double ContrastShare);

/// <summary>Finds the back's disc in a window or a clear square, and reads the cells around it.</summary>
internal static class DiscFinder
{
    private const double StepMm = 0.3;
    private const double CoreMm = 1.1;

    /// <summary>The darkest spot of the disc's size; null outside of the photo.</summary>
    public static FoundDisc? Find(LightPlane light, SheetPose pose, Point<SheetSpace> middle, double reachMm, Func<Point<SheetSpace>, double> bright)
    {
        // The light on a grid, and on it the mean of every spot of the core's size.
        var half = (int)Math.Ceiling((reachMm + CoreMm) / StepMm);
        var side = (2 * half) + 1;
        var grid = new double[side, side];
        for (var row = 0; row < side; row++)
        {
            for (var column = 0; column < side; column++)
            {
                Point<SheetSpace> place = new(middle.XMm + ((column - half) * StepMm), middle.YMm + ((row - half) * StepMm));
                var (x, y) = pose.Project(place);
                grid[row, column] = light.At(x, y) / bright(place);
            }
        }

        var core = (int)(CoreMm / StepMm);
        var reach = (int)(reachMm / StepMm);
        var best = (Mean: double.MaxValue, Row: 0, Column: 0);
        for (var row = half - reach; row <= half + reach; row++)
        {
            for (var column = half - reach; column <= half + reach; column++)
            {
                if (((row - half) * (row - half)) + ((column - half) * (column - half)) > reach * reach)
                {
                    continue;
                }

                var (sum, count) = (0.0, 0);
                for (var y = -core; y <= core; y++)
                {
                    for (var x = -core; x <= core; x++)
                    {
                        if ((x * x) + (y * y) <= core * core)
                        {
                            (sum, count) = (sum + grid[row + y, column + x], count + 1);
                        }
                    }
                }

                if (sum / count < best.Mean)
                {
                    best = (sum / count, row, column);
                }
            }
        }

        return best.Mean < double.MaxValue
            ? new(new(middle.XMm + ((best.Column - half) * StepMm), middle.YMm + ((best.Row - half) * StepMm)), 1 - best.Mean)
            : null;
    }

    /// <summary>The cells around a disc, dark ones set, in the sheet's own direction; and how surely, from 0 to 1.</summary>
    public static (int Cells, double SureShare) Cells(LightPlane light, SheetPose pose, Point<SheetSpace> disc, double dark, Func<Point<SheetSpace>, double> bright)
    {
        const double RadiusMm = (RegisterMark.BackCellsInnerMm + RegisterMark.BackCellsOuterMm) / 2;
        var cells = 0;
        var sure = 1.0;
        for (var cell = 0; cell < RingCodes.Cells; cell++)
        {
            var (sum, count) = (0.0, 0);
            for (var part = -2; part <= 2; part++)
            {
                foreach (var aside in new[] { -0.15, 0.0, 0.15 })
                {
                    var place = disc.Polar(RadiusMm + aside, (cell * 30) + 15 + (part * 4));
                    var (x, y) = pose.Project(place);
                    var share = (light.At(x, y) - dark) / (bright(place) - dark);
                    (sum, count) = (sum + share, count + 1);
                }
            }

            var mean = sum / count;
            cells |= mean < 0.5 ? 1 << cell : 0;
            sure = Math.Min(sure, Math.Abs(mean - 0.5) * 2);
        }

        return (cells, sure);
    }
}
