using System;
using Lampblack.Calibration;
using Lampblack.Geometry;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>
/// How much of paper's light the back's cells take away at the disc's edge, by the photo's blur: without this the edge would seem to lie further out towards cells,
/// and the disc's middle aside, by some hundredths of a pixel.
/// </summary>
internal sealed class CellShade
{
    private const int Directions = 72;
    private const int PerCell = 6;
    private const int Across = 5;

    private readonly double[] _share = new double[Directions];
    private readonly Point<SheetSpace> _disc;

    /// <param name="cells">The cells that are dark.</param>
    /// <param name="disc">The disc's middle.</param>
    /// <param name="radiusMm">The disc's radius as printed: toner grew by what it is larger than meant.</param>
    /// <param name="pose">From the sheet to the photo, in which the blur is alike in all directions.</param>
    /// <param name="blurPx">The blur, as a normal spread.</param>
    public CellShade(int cells, Point<SheetSpace> disc, double radiusMm, SheetPose pose, double blurPx)
    {
        _disc = disc;
        var gain = radiusMm - RegisterMark.DiscRadiusMm;
        var (inner, outer) = (RegisterMark.BackCellsInnerMm - gain, RegisterMark.BackCellsOuterMm + gain);
        var (left, right) = (pose.Project(new(disc.XMm - 0.5, disc.YMm)), pose.Project(new(disc.XMm + 0.5, disc.YMm)));
        var (below, above) = (pose.Project(new(disc.XMm, disc.YMm - 0.5)), pose.Project(new(disc.XMm, disc.YMm + 0.5)));
        var (xx, xy, yx, yy) = ((right.X - left.X) / blurPx, (above.X - below.X) / blurPx, (right.Y - left.Y) / blurPx, (above.Y - below.Y) / blurPx);
        var peak = Math.Abs((xx * yy) - (xy * yx)) / (2 * Math.PI);
        var (gainDegrees, step) = (gain / ((inner + outer) / 2) * 180 / Math.PI, (outer - inner) / Across);
        for (var cell = 0; cell < RingCodes.Cells; cell++)
        {
            if (((cells >> cell) & 1) == 0)
            {
                continue;
            }

            // Toner grows at a cell's ends too, where no dark cell follows.
            var from = (cell * 30) - (((cells >> ((cell + 11) % 12)) & 1) == 0 ? gainDegrees : 0);
            var to = ((cell + 1) * 30) + (((cells >> ((cell + 1) % 12)) & 1) == 0 ? gainDegrees : 0);
            for (var part = 0; part < PerCell * Across; part++)
            {
                var radius = inner + (((part % Across) + 0.5) * step);
                var degrees = from + (((part / Across) + 0.5) * (to - from) / PerCell);
                var area = radius * (to - from) / PerCell * Math.PI / 180 * step;
                var at = default(Point<SheetSpace>).Polar(radius, degrees);
                for (var direction = 0; direction < Directions; direction++)
                {
                    var way = at - default(Point<SheetSpace>).Polar(radiusMm, direction * 360.0 / Directions);
                    var (u, v) = ((xx * way.DxMm) + (xy * way.DyMm), (yx * way.DxMm) + (yy * way.DyMm));
                    var far = (u * u) + (v * v);
                    _share[direction] += far < 30 ? area * peak * Math.Exp(-far / 2) : 0;
                }
            }
        }
    }

    /// <summary>The share at the disc's edge in the direction of a place.</summary>
    public double At(Point<SheetSpace> place)
    {
        var way = place - _disc;
        var direction = ((Math.Atan2(way.DyMm, way.DxMm) / (2 * Math.PI)) + 1) * Directions;
        var whole = (int)direction;
        return _share[whole % Directions] + ((direction - whole) * (_share[(whole + 1) % Directions] - _share[whole % Directions]));
    }
}
