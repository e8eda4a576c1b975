using System;
using Lampblack.Calibration;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>What lies around a round mark, in its own radii.</summary>
/// <param name="CellsRadius">The cells' middles.</param>
/// <param name="BetweenRadius">Where there is nothing between edge and cells.</param>
/// <param name="InsideRadius">Where the inside's own light is met.</param>
/// <param name="IsBright">Whether the inside is bright.</param>
internal sealed record RingForm(double CellsRadius, double BetweenRadius, double InsideRadius, bool IsBright);

/// <summary>Reads the cells around a round mark whose outline is known.</summary>
internal static class RingReader
{
    private const int PerCell = 12;
    private const int Samples = RingCodes.Cells * PerCell;

    /// <summary>The mark, or null where the cells are no code.</summary>
    /// <param name="light">The photo.</param>
    /// <param name="outline">The window's edge or the disc's.</param>
    /// <param name="form">What lies around it.</param>
    public static SeenMark? Read(LightPlane light, Ellipse outline, RingForm form)
    {
        var (cellsRadius, betweenRadius, insideRadius, _) = form;

        // Counter-clockwise as seen: the photo's rows go down.
        var ring = new double[Samples];
        var (inside, between) = (0.0, 0.0);
        for (var index = 0; index < Samples; index++)
        {
            var (u, v) = Direction(outline, index * 2 * Math.PI / Samples);
            ring[index] = (Light(cellsRadius * 0.96) + Light(cellsRadius) + Light(cellsRadius * 1.04)) / 3;
            inside += Light(insideRadius) / Samples;
            between += Light(betweenRadius) / Samples;

            double Light(double radius)
            {
                var (x, y) = outline.At(u * radius, v * radius);
                return light.At(x, y);
            }
        }

        if (double.IsNaN(inside) || double.IsNaN(between) || Array.Exists(ring, double.IsNaN))
        {
            return null;
        }

        // Cells stand out of what is between; the inside is as they are.
        var half = (inside + between) / 2;
        var isBright = inside > between;
        var best = (Misfit: int.MaxValue, Phase: 0, Cells: 0);
        for (var phase = 0; phase < PerCell; phase++)
        {
            var (misfit, cells) = (0, 0);
            for (var cell = 0; cell < RingCodes.Cells; cell++)
            {
                var set = 0;
                for (var part = 1; part < PerCell - 1; part++)
                {
                    set += ring[((cell * PerCell) + part + phase) % Samples] > half == isBright ? 1 : 0;
                }

                misfit += Math.Min(set, PerCell - 2 - set);
                cells |= set > (PerCell - 2) / 2 ? 1 << cell : 0;
            }

            best = misfit < best.Misfit ? (misfit, phase, cells) : best;
        }

        if (best.Misfit > Samples / 12 || RingCodes.Read(best.Cells) is not var (number, turn, isMirrored))
        {
            return null;
        }

        // Cell 0 of the number begins at this angle, seen from behind too: there it follows clockwise.
        var angle = ((best.Phase / (double)PerCell) + turn) * 2 * Math.PI / RingCodes.Cells;
        var right = Direction(outline, angle);
        var up = Direction(outline, isMirrored ? angle - (Math.PI / 2) : angle + (Math.PI / 2));
        return new(number, Turned(outline, right, up), isMirrored);
    }

    /// <summary>A direction in the outline's own frame, counter-clockwise as seen from the photo's right; the outline's matrix is symmetric, so that its frame is not turned.</summary>
    private static (double U, double V) Direction(Ellipse outline, double angle)
    {
        // The fitted matrices need not be symmetric after two refinements, but keep their sense.
        var sense = (outline.Ax * outline.By) - (outline.Ay * outline.Bx) > 0 ? -1 : 1;
        return (Math.Cos(angle), sense * Math.Sin(angle));
    }

    private static Ellipse Turned(Ellipse outline, (double U, double V) right, (double U, double V) up) => new(
        outline.X, outline.Y,
        (outline.Ax * right.U) + (outline.Bx * right.V), (outline.Ay * right.U) + (outline.By * right.V),
        (outline.Ax * up.U) + (outline.Bx * up.V), (outline.Ay * up.U) + (outline.By * up.V));
}
