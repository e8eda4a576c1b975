using System;
using System.Text;
using Lampblack.Fabrication;
using Lampblack.Tests.Fabrication;
using Lampblack.Tests.Peers;
using SkiaSharp;
using Xunit;

namespace Lampblack.Tests.Formats;

/// <summary>A drawing made small for a page looks like the drawing itself, to a program that is not ours (rsvg-convert).</summary>
public sealed class SketchTests
{
    private const int WidthPx = 1400;

    [Fact]
    public void A_sketch_looks_like_its_drawing_and_is_much_shorter()
    {
        var drawing = BackView.Drawing(Fabricated.Chart(Fabricated.EveryForm).Value);
        var (file, sketch) = (Encoding.UTF8.GetString(drawing.File().AsSpan()), drawing.Sketch(180, "The back"));
        Assert.InRange(sketch.Length, 1000, file.Length / 4);
        Assert.Contains("<title>The back</title>", sketch, StringComparison.Ordinal);
        using var whole = Drawn(file);
        using var small = Drawn(sketch.Replace("role=\"img\"", $"width=\"{drawing.WidthMm}mm\" height=\"{drawing.HeightMm}mm\"", StringComparison.Ordinal));
        Assert.Equal((whole.Width, whole.Height), (small.Width, small.Height));

        // Strokes of a third of a dot's width more or less are gray differences; a letter that is lost, or moved by a dot, is a black one.
        var (alike, moved) = (Difference(whole, small), Difference(whole, Shifted(small, 2)));
        Assert.True(alike < 0.006 && moved > 3 * alike, $"{alike:0.0000} alike, {moved:0.0000} moved by two dots");
    }

    private static SKBitmap Drawn(string svg)
    {
        using var folder = new ScratchFolder();
        OutsideProgram.RunWell("rsvg-convert", ["-w", $"{WidthPx}", "-b", "white", "-o", folder.PathOf("out.png"), folder.Write("in.svg", Encoding.UTF8.GetBytes(svg))]);
        return SKBitmap.Decode(folder.PathOf("out.png"));
    }

    /// <summary>Mean difference of brightness, 0 to 1.</summary>
    private static double Difference(SKBitmap first, SKBitmap second)
    {
        var sum = 0.0;
        for (var y = 0; y < first.Height; y++)
        {
            for (var x = 0; x < first.Width; x++)
            {
                sum += Math.Abs(first.GetPixel(x, y).Green - second.GetPixel(x, y).Green) / 255.0;
            }
        }

        return sum / first.Width / first.Height;
    }

    private static SKBitmap Shifted(SKBitmap picture, int byPx)
    {
        var moved = new SKBitmap(picture.Width, picture.Height);
        using var canvas = new SKCanvas(moved);
        using var image = SKImage.FromBitmap(picture);
        canvas.Clear(SKColors.White);
        canvas.DrawImage(image, byPx, 0, new SKSamplingOptions(SKFilterMode.Nearest));
        return moved;
    }
}
