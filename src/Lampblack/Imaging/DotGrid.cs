using System;
using Lampblack.Geometry;

namespace Lampblack.Imaging;

/// <summary>Square dots laid over a view: column 0 at its left edge, row 0 at its upper edge.</summary>
/// <typeparam name="TSpace">The space of the view.</typeparam>
/// <param name="View">What is covered; dots at the right and lower edge may stick out.</param>
/// <param name="MmPerDot">Side of a dot, in mm.</param>
internal readonly record struct DotGrid<TSpace>(Box<TSpace> View, double MmPerDot)
    where TSpace : struct, ISpace
{
    /// <summary>400 million dots: an A3 sheet at 1200 dpi still fits, a slip of the decimal point does not.</summary>
    private const double MostDots = 4e8;

    public int WidthPx => Dots(View.WidthMm);

    public int HeightPx => Dots(View.HeightMm);

    /// <summary>The same grid after its numbers were looked at.</summary>
    public DotGrid<TSpace> Checked()
    {
        if (!(MmPerDot > 0) || double.IsInfinity(MmPerDot))
        {
            throw new ArgumentOutOfRangeException(nameof(MmPerDot), MmPerDot, "a dot has a size above 0 mm");
        }

        if (!(View.WidthMm > 0 && View.HeightMm > 0))
        {
            throw new ArgumentOutOfRangeException(nameof(View), View, "a view has a width and a height above 0 mm");
        }

        if (!(View.WidthMm / MmPerDot * (View.HeightMm / MmPerDot) <= MostDots))
        {
            throw new ArgumentOutOfRangeException(nameof(MmPerDot), MmPerDot, "a picture has at most 400 million dots");
        }

        return this;
    }

    /// <summary>The dots that a box touches, as a grid of their own with its place in this one; nothing where it lies outside.</summary>
    public (DotGrid<TSpace> Grid, int LeftPx, int TopPx)? Window(Box<TSpace> box)
    {
        // One dot more on each side, as anti-aliasing may round an edge outwards.
        var left = Math.Max(0, Math.Floor((box.LeftMm - View.LeftMm) / MmPerDot) - 1);
        var top = Math.Max(0, Math.Floor((View.TopMm - box.TopMm) / MmPerDot) - 1);
        var right = Math.Min(WidthPx, Math.Ceiling((box.RightMm - View.LeftMm) / MmPerDot) + 1);
        var bottom = Math.Min(HeightPx, Math.Ceiling((View.TopMm - box.BottomMm) / MmPerDot) + 1);
        if (!(right > left && bottom > top))
        {
            return null;
        }

        var window = new Box<TSpace>(
            View.LeftMm + (left * MmPerDot), View.TopMm - (bottom * MmPerDot), (right - left) * MmPerDot, (bottom - top) * MmPerDot);
        return (new(window, MmPerDot), (int)left, (int)top);
    }

    // A view of 10 mm at 0.1 mm per dot has 100 dots, even if the division says 100.00000000000001.
    private int Dots(double lengthMm) => Math.Max(1, (int)Math.Ceiling((lengthMm / MmPerDot) - 1e-6));
}
