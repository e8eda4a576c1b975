using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Bitmaps;
using Lampblack.Findings;
using Lampblack.PictureArt;
using SkiaSharp;
using Xunit;

namespace Lampblack.Tests.PictureArt;

/// <summary>Panels drawn for a test, with the truth of what shines, and how well a found field agrees with it.</summary>
internal static class Drawn
{
    public const int Width = 900;
    public const int Height = 600;

    /// <summary>Rings, blocks, letters' strokes and lines; each colour is used in turn.</summary>
    public static SKBitmap Panel(SKColor field, params SKColor[] legends)
    {
        var bitmap = new SKBitmap(new SKImageInfo(Width, Height, SKColorType.Rgba8888, SKAlphaType.Unpremul));
        bitmap.Erase(field);
        using var canvas = new SKCanvas(bitmap);
        Legends(canvas, index => legends[index % legends.Length]);
        return bitmap;
    }

    public static void Legends(SKCanvas canvas, Func<int, SKColor> colour)
    {
        var count = 0;
        for (var row = 0; row < 4; row++)
        {
            for (var column = 0; column < 6; column++)
            {
                using var paint = new SKPaint { Color = colour(count++), IsAntialias = true, Style = SKPaintStyle.Stroke, StrokeWidth = 4 + row };
                float x = 75 + (150 * column), y = 75 + (150 * row);
                canvas.DrawCircle(x + 0.3f, y - 0.4f, 40, paint);
                canvas.DrawLine(x - 30.5f, y + 62.2f, x + 30, y + 55, paint);
                paint.Style = SKPaintStyle.Fill;
                canvas.DrawRect(x - 12.5f, y - 12.25f, 14 + column, 20, paint);
                canvas.DrawRect(x + 9.5f, y - 12, 5, 24.5f, paint);
            }
        }
    }

    /// <summary>The dots of which half or more is drawn.</summary>
    public static BitRaster Truth()
    {
        using var bitmap = new SKBitmap(new SKImageInfo(Width, Height, SKColorType.Alpha8));
        using var canvas = new SKCanvas(bitmap);
        Legends(canvas, _ => SKColors.Black);
        return Bits(Width, Height, (x, y) => bitmap.GetPixel(x, y).Alpha >= 128);
    }

    /// <summary>Where two pictures differ, the first few places.</summary>
    public static string Differences(BitRaster one, BitRaster other)
    {
        Assert.Equal((one.WidthDots, one.HeightDots), (other.WidthDots, other.HeightDots));
        var differing = one.Except(other).Or(other.Except(one));
        var places = from y in Enumerable.Range(0, one.HeightDots) from x in Enumerable.Range(0, one.WidthDots) where differing[x, y] select $"{x},{y}";
        return differing.Count() == 0 ? string.Empty : $"{differing.Count()} dots differ: {string.Join(' ', places.Take(20))}";
    }

    public static BitRaster Bits(int width, int height, Func<int, int, bool> isSet)
    {
        var bits = new BitRasterBuilder(width, height);
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                bits[x, y] = isSet(x, y);
            }
        }

        return bits.ToRaster();
    }

    /// <summary>Changes each dot's codes; all are opaque then.</summary>
    public static SKBitmap Each(this SKBitmap bitmap, Func<int, int, SKColor, (double Red, double Green, double Blue)> change)
    {
        var pixels = bitmap.Pixels;
        for (var index = 0; index < pixels.Length; index++)
        {
            var (r, g, b) = change(index % bitmap.Width, index / bitmap.Width, pixels[index]);
            pixels[index] = new((byte)Math.Clamp(r + 0.5, 0, 255), (byte)Math.Clamp(g + 0.5, 0, 255), (byte)Math.Clamp(b + 0.5, 0, 255));
        }

        bitmap.Pixels = pixels;
        return bitmap;
    }

    public static byte[] Png(this SKBitmap bitmap) => bitmap.Encode(SKEncodedImageFormat.Png, 100).ToArray();

    public static byte[] Jpeg(this SKBitmap bitmap, int quality) => bitmap.Encode(SKEncodedImageFormat.Jpeg, quality).ToArray();

    public static SourcePicture Read(byte[] bytes, string name = "art.png")
    {
        var read = PictureFile.Read(bytes, name);
        Assert.False(read.HasStop, string.Join('\n', read.Findings));
        return read.Value!;
    }

    public static (FoundField Found, ImmutableArray<Finding> Findings) Find(byte[] bytes, FieldOptions? options = null)
    {
        var found = FieldFinder.Find(Read(bytes), options ?? FieldOptions.Usual);
        Assert.NotNull(found.Value);
        return (found.Value, found.Findings);
    }

    public static IEnumerable<string> Codes(this IEnumerable<Finding> findings) => findings.Select(finding => finding.Code);

    /// <summary>
    /// How many dots are on the wrong side, but for those within a dot and a half of a true edge, and how many of them lie in doubtful places.
    /// </summary>
    public static (long Wrong, long Doubted) Wrong(this FoundField found, BitRaster truth)
    {
        var edges = truth.Grow(1.5).Except(truth.Shrink(1.5, BeyondEdge.Set));
        var wrong = found.Openings.Except(truth).Or(truth.Except(found.Openings)).Except(edges);
        return (wrong.Count(), wrong.And(found.Doubtful).Count());
    }

    /// <summary>Each value's place among all, from 0 to 1.</summary>
    public static double[] Ranks(double[] values)
    {
        var order = Enumerable.Range(0, values.Length).OrderBy(index => values[index]).ToArray();
        var ranks = new double[values.Length];
        for (var place = 0; place < order.Length; place++)
        {
            ranks[order[place]] = (double)place / (order.Length - 1);
        }

        return ranks;
    }

    /// <summary>A made-up even noise of some codes around 0, the same for a seed.</summary>
    public static Func<double> Noise(int seed, double deviation)
    {
        var random = new Random(seed);
        return () => ((random.NextDouble() + random.NextDouble() + random.NextDouble() + random.NextDouble()) - 2) * Math.Sqrt(3) * deviation;
    }

    /// <summary>A texture from 0 to 1, as of stone: four layers of smooth noise.</summary>
    public static double[] Texture(int seed)
    {
        var random = new Random(seed);
        var texture = new double[Width * Height];
        foreach (var (cell, weight) in new[] { (120, 0.4), (40, 0.3), (12, 0.2), (3, 0.1) })
        {
            var (columns, rows) = ((Width / cell) + 2, (Height / cell) + 2);
            var grid = Enumerable.Range(0, columns * rows).Select(_ => random.NextDouble()).ToArray();
            for (var index = 0; index < texture.Length; index++)
            {
                double x = (double)(index % Width) / cell, y = (double)(index / Width) / cell;
                var (i, j, u, v) = ((int)x, (int)y, x - (int)x, y - (int)y);
                double At(int a, int b) => grid[((j + b) * columns) + i + a];
                texture[index] += weight * ((At(0, 0) * (1 - u) * (1 - v)) + (At(1, 0) * u * (1 - v)) + (At(0, 1) * (1 - u) * v) + (At(1, 1) * u * v));
            }
        }

        var (low, high) = (texture.Min(), texture.Max());
        return [.. texture.Select(value => (value - low) / (high - low))];
    }
}
