using System;
using System.Collections.Generic;
using Lampblack.Bitmaps;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Quantities;
using Lampblack.VectorArt;

namespace Lampblack.Art;

/// <summary>Parts of a drawing that are dots: gradients, patterns, embedded pictures. Black lies below all of such a part, and what is not field is left out of it.</summary>
internal static class DrawnDots
{
    public static IEnumerable<ArtLayer> Of(DrawnPicture picture, FieldLevel level, ArtReading reading)
    {
        yield return new ArtArea(picture.Shape, Ink: null);
        var placement = new Affine<DotSpace, ItemSpace>(
            picture.Box.WidthMm / picture.WidthPx, 0, picture.Box.LeftMm, 0, -picture.Box.HeightMm / picture.HeightPx, picture.Box.TopMm);
        var (shown, rgb, coloured) = (new BitRasterBuilder(picture.WidthPx, picture.HeightPx), new byte[picture.WidthPx * picture.HeightPx * 3], false);
        for (var row = 0; row < picture.HeightPx; row++)
        {
            for (var column = 0; column < picture.WidthPx; column++)
            {
                var dot = (row * picture.WidthPx) + column;
                var colour = Seen(picture, dot);
                if (VectorContent.IsField(colour, level, reading))
                {
                    rgb.AsSpan(3 * dot, 3).Fill(255);
                    continue;
                }

                shown[column, row] = true;
                var isPaper = reading.OneInk || VectorContent.InkOf(colour, reading) == Quantities.Ink.None;
                coloured |= !isPaper;
                (rgb[3 * dot], rgb[(3 * dot) + 1], rgb[(3 * dot) + 2]) = isPaper ? ((byte)255, (byte)255, (byte)255) : (colour.Red, colour.Green, colour.Blue);
            }
        }

        var within = RegionDots.Of(picture.Shape, placement.Inverse(), picture.WidthPx, picture.HeightPx);
        yield return new ArtDots(
            shown.ToRaster().And(within), placement, coloured ? new(picture.WidthPx, picture.HeightPx, rgb, placement) : null);
    }

    /// <summary>A dot's colour; what shows through is taken as white, as an embedded picture stands on paper.</summary>
    private static ScreenColour Seen(DrawnPicture picture, int dot)
    {
        var dots = picture.Rgba;
        var opacity = dots[(4 * dot) + 3];
        return new(Mix(dots[4 * dot]), Mix(dots[(4 * dot) + 1]), Mix(dots[(4 * dot) + 2]));
        byte Mix(byte code) => (byte)(((code * opacity) + (255 * (255 - opacity)) + 127) / 255);
    }
}
