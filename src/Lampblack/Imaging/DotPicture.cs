using System;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Imaging;

/// <summary>Dots of print as a picture that is clear where nothing is printed.</summary>
public static class DotPicture
{
    /// <summary>Draws dots.</summary>
    /// <param name="dots">A stencil, or a picture with its mask.</param>
    /// <param name="view">What is shown.</param>
    /// <param name="mmPerDot">Side of the picture's dots, in mm.</param>
    /// <param name="colour">What a stencil is painted in.</param>
    /// <typeparam name="TSpace">The space of both.</typeparam>
    /// <exception cref="ArgumentOutOfRangeException">The view or the dots have no size, or there are more than 400 million dots.</exception>
    public static Picture Of<TSpace>(PlacedDots<TSpace> dots, Box<TSpace> view, double mmPerDot, ScreenColour colour)
        where TSpace : struct, ISpace
    {
        ArgumentNullException.ThrowIfNull(dots);
        var grid = new DotGrid<TSpace>(view, mmPerDot).Checked();
        var coverage = DotCoverage.Of(dots, grid);
        var colours = dots.Content is ColourDots many ? DotCoverage.Colours(many, dots, grid) : null;
        var picture = new Picture(grid.WidthPx, grid.HeightPx, mmPerDot);
        for (var dot = 0; dot < grid.WidthPx * grid.HeightPx; dot++)
        {
            var code = picture.Codes.Slice(4 * dot, 4);
            var seen = colours is null ? colour : DotPalette.ColourOf(colours[dot]);
            (code[0], code[1], code[2], code[3]) = (seen.Red, seen.Green, seen.Blue, coverage.Coverage.Span[dot]);
        }

        return picture;
    }
}
