using System;
using System.Collections.Generic;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Bitmaps;
using Lampblack.Desks;
using Lampblack.Imaging;
using Lampblack.Quantities;
using Lampblack.VectorArt;

namespace Lampblack.Art;

/// <summary>Parts of a drawing that are dots: gradients, patterns, embedded pictures. Black lies below all of such a part, and what is not field is left out of it.</summary>
/// <param name="Layers">What is printed of it.</param>
/// <param name="FieldMm2">How much of it is field.</param>
/// <param name="DoubtfulMm2">How much of it lies near the border between field and the rest.</param>
internal sealed record DrawnDots(IReadOnlyList<ArtLayer> Layers, double FieldMm2, double DoubtfulMm2)
{
    /// <summary>Dots this near to the border (L*) could be either. Ours.</summary>
    private const double DoubtfulWithin = 8;

    /// <param name="picture">The dots.</param>
    /// <param name="ground">What lies where nothing is drawn; null where everything is drawn over.</param>
    /// <param name="level">The border.</param>
    /// <param name="reading">How it is read.</param>
    public static DrawnDots Of(DrawnPicture picture, ScreenColour? ground, FieldLevel level, ArtReading reading)
    {
        var placement = GlassPicture.Placement(picture);
        var shown = new BitRasterBuilder(picture.WidthPx, picture.HeightPx);
        var doubtful = new BitRasterBuilder(picture.WidthPx, picture.HeightPx);
        var rgb = new byte[picture.WidthPx * picture.HeightPx * 3];
        var coloured = 0;
        Parallel.For(0, picture.HeightPx, row =>
        {
            var rgba = picture.Rgba.AsSpan(4 * row * picture.WidthPx, 4 * picture.WidthPx);
            var line = rgb.AsSpan(3 * row * picture.WidthPx, 3 * picture.WidthPx);
            var isShown = shown.Row(row);
            var isDoubtful = doubtful.Row(row);
            var isColoured = false;
            var last = default(Kind);
            var lastCode = (uint?)null;
            for (var column = 0; column < picture.WidthPx; column++)
            {
                var dot = rgba.Slice(4 * column, 4);
                var code = BitConverter.ToUInt32(dot);

                // Most dots are like their left neighbour.
                if (code != lastCode)
                {
                    var colour = VectorContent.Over(new(dot[0], dot[1], dot[2], dot[3] / 255.0), ground ?? new(255, 255, 255));
                    (last, lastCode) = (KindOf(colour, level, reading), code);
                }

                var bit = 1UL << (column % BitRaster.DotsPerWord);
                isShown[column / BitRaster.DotsPerWord] |= last.IsField ? 0 : bit;
                isDoubtful[column / BitRaster.DotsPerWord] |= last.IsDoubtful ? bit : 0;
                isColoured |= !last.IsPaper;
                (line[3 * column], line[(3 * column) + 1], line[(3 * column) + 2]) = last.IsPaper ? ((byte)255, (byte)255, (byte)255) : (last.Colour.Red, last.Colour.Green, last.Colour.Blue);
            }

            if (isColoured)
            {
                Interlocked.Exchange(ref coloured, 1);
            }
        });

        var within = RegionDots.Of(picture.Shape, placement.Inverse(), picture.WidthPx, picture.HeightPx);
        var (seen, dotMm2) = (shown.ToRaster().And(within), Math.Abs(placement.Determinant));
        return new(
            [new ArtArea(picture.Shape, Ink: null), new ArtDots(seen, placement, coloured == 1 ? new(picture.WidthPx, picture.HeightPx, rgb, placement) : null)],
            Math.Max(0, picture.Shape.AreaMm2 - (seen.Count() * dotMm2)),
            doubtful.ToRaster().And(within).Count() * dotMm2);
    }

    private static Kind KindOf(ScreenColour colour, FieldLevel level, ArtReading reading)
    {
        var isField = VectorContent.IsField(colour, level, reading);
        var isDoubtful = level.Word != FieldLevel.Told && Math.Abs(ArtColour.Gain(colour, reading.Invert) - level.Lightness) < DoubtfulWithin;
        return new(colour, isField, isDoubtful, isField || reading.OneInk || VectorContent.InkOf(colour, reading) == Ink.None);
    }

    /// <summary>What becomes of a colour.</summary>
    private readonly record struct Kind(ScreenColour Colour, bool IsField, bool IsDoubtful, bool IsPaper);
}
