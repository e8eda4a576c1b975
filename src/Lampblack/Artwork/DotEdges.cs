using System;
using Lampblack.Bitmaps;
using Lampblack.Geometry;

namespace Lampblack.Artwork;

/// <summary>Pictures whose outermost dots run on beyond their edges.</summary>
internal static class DotEdges
{
    /// <summary>A larger picture: each side's outermost dots again and again.</summary>
    public static BitRaster RunOn(BitRaster dots, int left, int top, int right, int bottom)
    {
        var wide = dots.Crop(-left, -top, dots.WidthDots + left + right, dots.HeightDots + top + bottom);
        var into = new BitRasterBuilder(wide.WidthDots, wide.HeightDots);
        for (var row = 0; row < wide.HeightDots; row++)
        {
            wide.Row(Math.Clamp(row, top, top + dots.HeightDots - 1)).CopyTo(into.Row(row));
            if (into[left, row])
            {
                into.SetRun(row, 0, left);
            }

            if (into[left + dots.WidthDots - 1, row])
            {
                into.SetRun(row, left + dots.WidthDots, wide.WidthDots);
            }
        }

        return into.ToRaster();
    }

    /// <summary>The same for colours, on all sides.</summary>
    public static DotColours RunOn(DotColours colours, double byMm)
    {
        var by = (int)Math.Ceiling(byMm / Math.Sqrt(Math.Abs(colours.Placement.Determinant)));
        var (width, height) = (colours.WidthPx + (2 * by), colours.HeightPx + (2 * by));
        var from = colours.Rgb.Span;
        var into = new byte[width * height * 3];
        for (var row = 0; row < height; row++)
        {
            var line = from.Slice(Math.Clamp(row - by, 0, colours.HeightPx - 1) * colours.WidthPx * 3, colours.WidthPx * 3);
            var to = into.AsSpan(row * width * 3, width * 3);
            line.CopyTo(to[(by * 3)..]);
            for (var column = 0; column < by; column++)
            {
                line[..3].CopyTo(to[(column * 3)..]);
                line[^3..].CopyTo(to[((by + colours.WidthPx + column) * 3)..]);
            }
        }

        return new(width, height, into, Affine<DotSpace, DotSpace>.Shift(-by, -by).Then(colours.Placement));
    }
}
