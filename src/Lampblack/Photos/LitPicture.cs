using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Imaging;

namespace Lampblack.Photos;

/// <summary>Something that shines on a panel.</summary>
/// <param name="Shape">Where.</param>
/// <param name="Light">How bright it ought to be, beside the others.</param>
internal sealed record LitArea(Region<PanelSpace> Shape, double Light);

/// <summary>A panel as a photo of it ought to look: light where areas shine, dark else.</summary>
/// <param name="View">The panel.</param>
/// <param name="MmPerDot">Side of a dot.</param>
/// <param name="Light">The light; 1 is the mean of the areas.</param>
/// <param name="IsTold">Whether anything is known of a dot: not where something may be lit or not.</param>
internal sealed record LitPicture(Box<PanelSpace> View, double MmPerDot, SoftPicture Light, bool[] IsTold)
{
    private const double FinestMm = 0.2;
    private const double MostDots = 1.5e6;

    /// <summary>Light wanders so far out of what shines.</summary>
    private const double HaloMm = 2;

    /// <summary>Draws it.</summary>
    /// <param name="view">The panel.</param>
    /// <param name="areas">What shines.</param>
    /// <param name="unsure">What may shine or not.</param>
    public static LitPicture Of(Box<PanelSpace> view, ImmutableArray<LitArea> areas, IEnumerable<Region<PanelSpace>> unsure)
    {
        var grid = new DotGrid<PanelSpace>(view, Math.Max(FinestMm, Math.Sqrt(view.WidthMm * view.HeightMm / MostDots)));
        var (light, told) = (new float[grid.WidthPx * grid.HeightPx], new bool[grid.WidthPx * grid.HeightPx]);
        Array.Fill(told, true);
        var mean = areas.Average(area => area.Light);
        foreach (var area in areas)
        {
            Draw(grid, area.Shape, (at, share) => light[at] = Math.Max(light[at], (float)(share * area.Light / mean)));
        }

        foreach (var shape in unsure.Where(shape => !shape.IsEmpty))
        {
            Draw(grid, Region<PanelSpace>.Rectangle(shape.Bounds.Grow(HaloMm)), (at, share) => told[at] &= share == 0);
        }

        return new(view, grid.MmPerDot, new(light, grid.WidthPx, grid.HeightPx), told);
    }

    /// <summary>Where a place lies in the picture, in dots.</summary>
    public (double X, double Y) Dot(Point<PanelSpace> place) => ((place.XMm - View.LeftMm) / MmPerDot, (View.TopMm - place.YMm) / MmPerDot);

    /// <summary>Whether anything is known of a place.</summary>
    public bool Tells(Point<PanelSpace> place)
    {
        var (x, y) = Dot(place);
        var (column, row) = (Math.Clamp((int)x, 0, Light.Width - 1), Math.Clamp((int)y, 0, Light.Height - 1));
        return IsTold[(row * Light.Width) + column];
    }

    private static void Draw(DotGrid<PanelSpace> grid, Region<PanelSpace> shape, Action<int, double> set)
    {
        if (shape.IsEmpty || grid.Window(shape.Bounds) is not { } window)
        {
            return;
        }

        var map = CoverageMap.Of(shape, window.Grid);
        for (var row = 0; row < map.HeightPx; row++)
        {
            for (var column = 0; column < map.WidthPx; column++)
            {
                if (map.Row(row)[column] is > 0 and var cover)
                {
                    set(((window.TopPx + row) * grid.WidthPx) + window.LeftPx + column, cover / 255.0);
                }
            }
        }
    }
}
