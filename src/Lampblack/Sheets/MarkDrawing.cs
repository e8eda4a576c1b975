using System.Collections.Generic;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>Draws both sides of a register mark.</summary>
internal static class MarkDrawing
{
    private const double CellDegrees = 360.0 / RingCodes.Cells;

    /// <summary>A mark's black square with its window and bright cells.</summary>
    public static Region<SheetSpace> Front(RegisterMark mark)
    {
        var square = Region<SheetSpace>.Rectangle(new Box<SheetSpace>(mark.Place.XMm, mark.Place.YMm, 0, 0).Grow(RegisterMark.HalfSquareMm));
        var window = Region<SheetSpace>.Disc(mark.Place, RegisterMark.WindowRadiusMm);
        return square.Except(window).Except(Ring(mark, RegisterMark.FrontCellsInnerMm, RegisterMark.FrontCellsOuterMm));
    }

    /// <summary>A mark's disc with its dark cells.</summary>
    public static Region<SheetSpace> Back(RegisterMark mark) =>
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
}
