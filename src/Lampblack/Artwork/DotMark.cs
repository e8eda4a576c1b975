using System;
using System.Linq;
using Lampblack.Bitmaps;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Artwork;

/// <summary>Something printed in dots, as pictures are: the field's black with these dots left out of it.</summary>
/// <param name="Origin">Where it comes from.</param>
/// <param name="Name">What it is, for people.</param>
/// <param name="Style">How it is printed.</param>
/// <param name="Shown">The dots that are not field.</param>
/// <param name="Placement">Where they go.</param>
/// <param name="Colours">Their colours; null where all are bare paper, or in the style's own ink.</param>
/// <param name="Below">How many marks lie below it; all later ones lie over it.</param>
public sealed record DotMark(
    Origin Origin, string Name, MarkStyle Style, BitRaster Shown, Affine<DotSpace, PanelSpace> Placement, DotColours? Colours, int Below)
{
    /// <summary>The box around all its dots.</summary>
    public Box<PanelSpace> Bounds
    {
        get
        {
            var corners = new[] { (0, 0), (Shown.WidthDots, 0), (0, Shown.HeightDots), (Shown.WidthDots, Shown.HeightDots) }
                .Select(corner => Placement.Apply(new Point<DotSpace>(corner.Item1, corner.Item2))).ToList();
            var (left, bottom) = (corners.Min(corner => corner.XMm), corners.Min(corner => corner.YMm));
            return new(left, bottom, corners.Max(corner => corner.XMm) - left, corners.Max(corner => corner.YMm) - bottom);
        }
    }

    /// <summary>Side of a dot, in mm.</summary>
    public double MmPerDot => Math.Sqrt(Math.Abs(Placement.Determinant));
}

/// <summary>A picture in red, green and blue.</summary>
/// <param name="WidthPx">Dots in a row.</param>
/// <param name="HeightPx">Rows.</param>
/// <param name="Rgb">sRGB codes, three for each dot, row by row from the top.</param>
/// <param name="Placement">Where its dots go.</param>
public sealed record DotColours(int WidthPx, int HeightPx, ReadOnlyMemory<byte> Rgb, Affine<DotSpace, PanelSpace> Placement);
