using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Photos;

/// <summary>Where a lit panel may lie in a photo: the hull of what is bright is laid over the hull of what ought to shine, in all turns.</summary>
/// <remarks>Two hulls that an affine map takes into each other have their areas' second moments taken into each other too, so that only a turn is left open.</remarks>
internal static class BrightStarts
{
    private const int Turns = 72;

    /// <summary>Light above these shares of the brightest counts as bright: halos and dim legends belong to it or not.</summary>
    private static readonly double[] Shares = [0.04, 0.15, 0.4];

    /// <summary>All starts.</summary>
    /// <param name="photo">The photo, coarse.</param>
    /// <param name="widthPx">The photo's columns.</param>
    /// <param name="heightPx">Its rows.</param>
    /// <param name="dark">Its light where nothing shines.</param>
    /// <param name="bright">Its light where it is brightest.</param>
    /// <param name="view">The panel.</param>
    /// <param name="shapes">What shines, in one or more choices.</param>
    public static IEnumerable<PanelPose> Of(
        SoftPicture photo, int widthPx, int heightPx, double dark, double bright, Box<PanelSpace> view, IEnumerable<ImmutableArray<Region<PanelSpace>>> shapes)
    {
        var panels = shapes.Select(choice => Spread<PanelSpace>.Of(choice.SelectMany(shape => shape.Borders()).SelectMany(border => border.Points))).OfType<Spread<PanelSpace>>().ToList();
        foreach (var seen in Shares.Select(share => Spread<DotSpace>.Of(Bright(photo, dark + (share * (bright - dark))))).OfType<Spread<DotSpace>>())
        {
            foreach (var panel in panels)
            {
                for (var turn = 0; turn < Turns; turn++)
                {
                    var (sin, cos) = Math.SinCos(2 * Math.PI * turn / Turns);
                    var corners = PanelPose.CornersOf(view).Select(corner =>
                    {
                        // A photo's y goes downwards.
                        var (u, v) = panel.Normal(corner);
                        return seen.Place((cos * u) + (sin * v), (sin * u) - (cos * v));
                    });
                    if (PanelPose.Through(view, widthPx, heightPx, [.. corners]) is { } pose)
                    {
                        yield return pose;
                    }
                }
            }
        }
    }

    /// <summary>The corners of bright dots that have bright neighbours.</summary>
    private static IEnumerable<Point<DotSpace>> Bright(SoftPicture photo, double least)
    {
        var (values, width) = (photo.Values, photo.Width);
        for (var row = 1; row < photo.Height - 1; row++)
        {
            for (var column = 1; column < width - 1; column++)
            {
                var at = (row * width) + column;
                if (values[at] > least && Neighbours(at) >= 2)
                {
                    yield return new((column + 0.5) * photo.DotSize, (row + 0.5) * photo.DotSize);
                }
            }
        }

        int Neighbours(int at) => new[] { -width - 1, -width, -width + 1, -1, 1, width - 1, width, width + 1 }.Count(step => values[at + step] > least);
    }

    /// <summary>How a hull's area is spread: its middle, and the root of its second moments.</summary>
    private sealed record Spread<TSpace>(double X, double Y, double Xx, double Yx, double Yy)
        where TSpace : struct, ISpace
    {
        public static Spread<TSpace>? Of(IEnumerable<Point<TSpace>> points)
        {
            var hull = Hull.Of(points);
            if (hull.Length < 3)
            {
                return null;
            }

            // Triangles from the first corner: each has a twelfth of its corners' squares and of the square of their sum.
            double area = 0, x = 0, y = 0, xx = 0, xy = 0, yy = 0;
            var first = hull[0];
            for (var index = 1; index + 1 < hull.Length; index++)
            {
                var (a, b) = (hull[index] - first, hull[index + 1] - first);
                var size = ((a.DxMm * b.DyMm) - (a.DyMm * b.DxMm)) / 2;
                var (sumX, sumY) = (a.DxMm + b.DxMm, a.DyMm + b.DyMm);
                area += size;
                x += size * sumX / 3;
                y += size * sumY / 3;
                xx += size * ((a.DxMm * a.DxMm) + (b.DxMm * b.DxMm) + (sumX * sumX)) / 12;
                xy += size * ((a.DxMm * a.DyMm) + (b.DxMm * b.DyMm) + (sumX * sumY)) / 12;
                yy += size * ((a.DyMm * a.DyMm) + (b.DyMm * b.DyMm) + (sumY * sumY)) / 12;
            }

            (x, y) = (x / area, y / area);
            var (varX, covariance, varY) = ((xx / area) - (x * x), (xy / area) - (x * y), (yy / area) - (y * y));
            var root = Math.Sqrt(varX);
            var rest = varY - (covariance * covariance / varX);
            return varX > 0 && rest > 1e-6 * varY ? new(first.XMm + x, first.YMm + y, root, covariance / root, Math.Sqrt(rest)) : null;
        }

        public (double U, double V) Normal(Point<TSpace> place)
        {
            var u = (place.XMm - X) / Xx;
            return (u, (place.YMm - Y - (Yx * u)) / Yy);
        }

        public (double X, double Y) Place(double u, double v) => (X + (Xx * u), Y + (Yx * u) + (Yy * v));
    }
}
