using System;
using System.Runtime.CompilerServices;
using System.Threading.Tasks;
using Lampblack.Bitmaps;
using Lampblack.Imaging;

namespace Lampblack.PictureArt;

/// <summary>The picture in greys, with every place that could be either field or opening striped in magenta and yellow.</summary>
public static class DoubtPicture
{
    private const int MostDotsOfSide = 1600;

    /// <summary>Stripes are this wide, slanting, so that they show without colour too.</summary>
    private const int StripeDots = 3;

    /// <summary>A place is shown at least this far around its dots, so that a single dot can be seen.</summary>
    private const int AroundDots = 1;

    private static ReadOnlySpan<byte> Magenta => [230, 0, 120];

    private static ReadOnlySpan<byte> Yellow => [255, 235, 60];

    /// <summary>Draws it, with at most 1600 dots a side.</summary>
    /// <param name="found">The field that was found.</param>
    /// <param name="widthMm">The width that the picture is to have.</param>
    public static Picture Of(FoundField found, double widthMm)
    {
        ArgumentNullException.ThrowIfNull(found);
        var plane = found.Plane;
        var square = Math.Max(1, (Math.Max(plane.Width, plane.Height) + MostDotsOfSide - 1) / MostDotsOfSide);
        var (width, height) = ((plane.Width + square - 1) / square, (plane.Height + square - 1) / square);
        var picture = new Picture(width, height, widthMm / plane.Width * square);
        var doubtful = Reduced(found.Doubtful, square, width, height);
        var marked = doubtful.Grow(AroundDots);
        var dark = (int)Lightness.GreyCode(Math.Min(25, found.FieldLightness));
        Parallel.For(0, height, row =>
        {
            var codes = picture.Codes.Slice(row * width * 4, width * 4);
            var marks = marked.Row(row);
            var (first, end) = (row * square, Math.Min((row + 1) * square, plane.Height));
            Span<int> sums = new int[width];
            for (var y = first; y < end; y++)
            {
                Add(plane.Row(y), square, sums);
            }

            for (var column = 0; column < width; column++)
            {
                var dot = codes.Slice(column * 4, 4);
                if (((marks[column / BitRaster.DotsPerWord] >> (column % BitRaster.DotsPerWord)) & 1) != 0)
                {
                    ((column + row) / StripeDots % 2 == 0 ? Magenta : Yellow).CopyTo(dot);
                }
                else
                {
                    var count = (end - first) * Math.Min(square, plane.Width - (column * square));
                    var grey = (byte)Math.Min(255, dark + (sums[column] / count));
                    (dot[0], dot[1], dot[2]) = (grey, grey, grey);
                }

                dot[3] = 255;
            }
        });
        return picture;
    }

    /// <summary>Adds the gains of each square's dots in one row.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Add(ReadOnlySpan<byte> gains, int square, Span<int> sums)
    {
        var column = 0;
        for (var at = 0; at < sums.Length; at++)
        {
            var sum = 0;
            for (var end = Math.Min(column + square, gains.Length); column < end; column++)
            {
                sum += gains[column];
            }

            sums[at] += sum;
        }
    }

    /// <summary>A square is set where any of its dots is.</summary>
    private static BitRaster Reduced(BitRaster raster, int square, int width, int height)
    {
        var bits = new BitRasterBuilder(width, height);
        for (var row = 0; row < raster.HeightDots; row++)
        {
            var to = row / square;
            GainPlane.ForEach(raster.Row(row), column => bits[column / square, to] = true);
        }

        return bits.ToRaster();
    }
}
