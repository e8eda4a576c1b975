using System;
using System.Linq;
using System.Numerics;
using Lampblack.Formats;
using Lampblack.Geometry;

namespace Lampblack.Imaging;

/// <summary>How much of a page each toner covers, as a share of one full layer over all of the page.</summary>
/// <param name="CyanCoverage">Cyan.</param>
/// <param name="MagentaCoverage">Magenta.</param>
/// <param name="YellowCoverage">Yellow.</param>
/// <param name="BlackCoverage">Black.</param>
public sealed record TonerCoverage(double CyanCoverage, double MagentaCoverage, double YellowCoverage, double BlackCoverage)
{
    // Dots that a shape covers in part count by their share, so that coarse dots are exact enough: what is lost lies where two edges share a dot.
    private const double MmPerDot = 0.5;

    private static readonly Lazy<Vector4[]> Palette = new(() => [.. Enumerable.Range(0, DotPalette.Count).Select(place => DotPalette.ColourOf(place))
        .Select(colour => new Vector4(255 - colour.Red, 255 - colour.Green, 255 - colour.Blue, 0) / 255)]);

    /// <summary>No toner.</summary>
    public static TonerCoverage None { get; } = new(0, 0, 0, 0);

    /// <summary>All four together.</summary>
    public double TotalCoverage => CyanCoverage + MagentaCoverage + YellowCoverage + BlackCoverage;

    /// <summary>Two pages' toner.</summary>
    public static TonerCoverage operator +(TonerCoverage first, TonerCoverage second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        return new(first.CyanCoverage + second.CyanCoverage, first.MagentaCoverage + second.MagentaCoverage, first.YellowCoverage + second.YellowCoverage, first.BlackCoverage + second.BlackCoverage);
    }

    /// <summary>A page's toner. Gray is black alone; RGB is taken as its complement in three toners, though a driver may make it of others.</summary>
    public static TonerCoverage Of(PdfPage page)
    {
        ArgumentNullException.ThrowIfNull(page);
        var grid = new DotGrid<PageSpace>(new(0, 0, page.WidthMm, page.HeightMm), MmPerDot);
        var dots = new Vector4[grid.WidthPx * grid.HeightPx];
        foreach (var area in page.Areas.Where(area => !area.Region.IsEmpty))
        {
            if (grid.Window(area.Region.Bounds) is { } window)
            {
                Paint(dots, grid.WidthPx, area, window);
            }
        }

        var sum = Vector4.Zero;
        for (var row = 0; row < grid.HeightPx; row++)
        {
            // Row by row, as a million small numbers added to a large one lose their last digits.
            var across = Vector4.Zero;
            foreach (var dot in dots.AsSpan(row * grid.WidthPx, grid.WidthPx))
            {
                across += dot;
            }

            sum += across / grid.WidthPx;
        }

        sum *= (float)(grid.WidthPx * MmPerDot / page.WidthMm * MmPerDot / page.HeightMm);
        return new(sum.X, sum.Y, sum.Z, sum.W);
    }

    private static void Paint(Vector4[] dots, int widthPx, Painted<PageSpace> area, (DotGrid<PageSpace> Grid, int LeftPx, int TopPx) window)
    {
        var coverage = area.Dots is { } placed ? DotCoverage.Of(placed, window.Grid) : CoverageMap.Of(area.Region, window.Grid);
        var colours = area.Dots is { Content: ColourDots many } drawn ? DotCoverage.Colours(many, drawn, window.Grid) : null;
        var (cyan, magenta, yellow, black) = area.Ink.Toners;
        var ink = new Vector4((float)cyan, (float)magenta, (float)yellow, (float)black);
        for (var row = 0; row < coverage.HeightPx; row++)
        {
            var covered = coverage.Row(row);
            var line = dots.AsSpan(((row + window.TopPx) * widthPx) + window.LeftPx, coverage.WidthPx);
            if (colours is null)
            {
                LightField.PaintRow(covered, line, ink);
                continue;
            }

            for (var column = 0; column < line.Length; column++)
            {
                line[column] += covered[column] / 255f * (Palette.Value[colours[(row * coverage.WidthPx) + column]] - line[column]);
            }
        }
    }
}
