using System;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.VectorArt;
using SkiaSharp;

namespace Lampblack.Tests.VectorArt;

/// <summary>A drawing as dots on white, three bytes each, row by row from the top: what our areas look like.</summary>
internal sealed record DrawnDots(int WidthPx, int HeightPx, byte[] Rgb)
{
    /// <summary>Paints the areas one after the other, each dot by the share that is covered, and pictures by their nearest dot.</summary>
    public static DrawnDots Of(Drawing drawing, int dpi)
    {
        var view = new Box<ItemSpace>(0, 0, drawing.WidthMm, drawing.HeightMm);
        var mmPerDot = 25.4 / dpi;
        DrawnDots? dots = null;
        foreach (var item in drawing.Items)
        {
            var shape = item is DrawnShape drawn ? drawn.Shape : ((DrawnPicture)item).Shape;
            var coverage = CoverageMap.Of(shape, view, mmPerDot);
            dots ??= White(coverage.WidthPx, coverage.HeightPx);
            for (var index = 0; index < coverage.Coverage.Length; index++)
            {
                if (coverage.Coverage.Span[index] is > 0 and var covered)
                {
                    var (red, green, blue, opacity) = ColourAt(item, ((index % dots.WidthPx) + 0.5) * mmPerDot, drawing.HeightMm - (((index / dots.WidthPx) + 0.5) * mmPerDot));
                    dots.Mix(index, red, green, blue, opacity * covered / 255);
                }
            }
        }

        return dots ?? White((int)Math.Ceiling(drawing.WidthMm / mmPerDot), (int)Math.Ceiling(drawing.HeightMm / mmPerDot));
    }

    /// <summary>A PNG over white.</summary>
    public static DrawnDots OfPng(byte[] png)
    {
        using var decoded = SKBitmap.Decode(png);
        using var bitmap = decoded.Copy(SKColorType.Rgba8888);
        var bytes = bitmap.GetPixelSpan();
        var dots = White(bitmap.Width, bitmap.Height);
        for (var index = 0; index < bitmap.Width * bitmap.Height; index++)
        {
            // Over a white background the renderer leaves nothing see-through.
            bytes.Slice(index * 4, 3).CopyTo(dots.Rgb.AsSpan(index * 3));
        }

        return dots;
    }

    /// <summary>The share of dots of which any colour differs by more than so many codes.</summary>
    public double DifferingShare(DrawnDots other, int codes)
    {
        if ((WidthPx, HeightPx) != (other.WidthPx, other.HeightPx))
        {
            return 1;
        }

        var count = 0;
        for (var index = 0; index < Rgb.Length; index += 3)
        {
            var most = Math.Max(Math.Abs(Rgb[index] - other.Rgb[index]), Math.Max(Math.Abs(Rgb[index + 1] - other.Rgb[index + 1]), Math.Abs(Rgb[index + 2] - other.Rgb[index + 2])));
            count += most > codes ? 1 : 0;
        }

        return (double)count / (WidthPx * HeightPx);
    }

    public (byte Red, byte Green, byte Blue) At(int column, int row)
    {
        var index = ((row * WidthPx) + column) * 3;
        return (Rgb[index], Rgb[index + 1], Rgb[index + 2]);
    }

    private static DrawnDots White(int width, int height)
    {
        var rgb = new byte[width * height * 3];
        Array.Fill(rgb, (byte)255);
        return new(width, height, rgb);
    }

    private static (byte Red, byte Green, byte Blue, double Opacity) ColourAt(DrawnItem item, double xMm, double yMm)
    {
        if (item is DrawnShape shape)
        {
            return (shape.Colour.Red, shape.Colour.Green, shape.Colour.Blue, shape.Colour.OpacityShare);
        }

        var picture = (DrawnPicture)item;
        var column = Math.Clamp((int)((xMm - picture.Box.LeftMm) / picture.Box.WidthMm * picture.WidthPx), 0, picture.WidthPx - 1);
        var row = Math.Clamp((int)((picture.Box.TopMm - yMm) / picture.Box.HeightMm * picture.HeightPx), 0, picture.HeightPx - 1);
        var at = ((row * picture.WidthPx) + column) * 4;
        return (picture.Rgba[at], picture.Rgba[at + 1], picture.Rgba[at + 2], picture.Rgba[at + 3] / 255.0);
    }

    private void Mix(int index, byte red, byte green, byte blue, double share)
    {
        var dot = Rgb.AsSpan(index * 3, 3);
        dot[0] = (byte)((red * share) + (dot[0] * (1 - share)) + 0.5);
        dot[1] = (byte)((green * share) + (dot[1] * (1 - share)) + 0.5);
        dot[2] = (byte)((blue * share) + (dot[2] * (1 - share)) + 0.5);
    }
}
