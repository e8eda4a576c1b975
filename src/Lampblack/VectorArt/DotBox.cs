using System;
using Lampblack.Geometry;

namespace Lampblack.VectorArt;

/// <summary>Square dots over a box: row 0 at the top. The box is made a whole number of dots.</summary>
internal readonly record struct DotBox(double LeftMm, double TopMm, int WidthPx, int HeightPx, double Dpi)
{
    public double MmPerDot => 25.4 / Dpi;

    public Box<ItemSpace> Box => new(LeftMm, TopMm - (HeightPx * MmPerDot), WidthPx * MmPerDot, HeightPx * MmPerDot);

    /// <summary>Dots over a box, as fine as asked for or as the room allows; null where that would be too coarse to be of use.</summary>
    public static DotBox? Over(Box<ItemSpace> box, double dpi, long mostDots)
    {
        const double coarsest = 50;
        var squareInches = Math.Max(box.WidthMm, 0.01) * Math.Max(box.HeightMm, 0.01) / (25.4 * 25.4);

        // A thousandth less, as dots at the borders are whole ones.
        var finest = Math.Sqrt(mostDots * 0.99 / squareInches);
        for (var fitting = Math.Min(dpi, finest); fitting >= coarsest; fitting *= 0.97)
        {
            var (width, height) = (Math.Ceiling((box.WidthMm / 25.4 * fitting) - 1e-6), Math.Ceiling((box.HeightMm / 25.4 * fitting) - 1e-6));
            if (Math.Max(1, width) * Math.Max(1, height) <= mostDots)
            {
                return new(box.LeftMm, box.TopMm, (int)Math.Max(1, width), (int)Math.Max(1, height), fitting);
            }
        }

        return null;
    }
}
