using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using SkiaSharp;

namespace Lampblack.VectorArt;

/// <summary>Paints nodes onto dots; the canvas is set to mm.</summary>
internal sealed class Painter(SKCanvas canvas) : IDisposable
{
    private readonly Dictionary<byte[], SKImage?> _images = [];

    /// <summary>Paints a node without regard to its edges, which are kept as areas beside the dots.</summary>
    public void PaintAll(Node node)
    {
        switch (node)
        {
            case FillNode fill:
                using (var paint = PaintOf(fill.Paint))
                {
                    canvas.DrawPaint(paint);
                }

                break;
            case ImageNode image:
                DrawImage(image);
                break;
            case LayerNode layer:
                DrawLayer(layer, clips: false);
                break;
        }
    }

    public void Dispose()
    {
        foreach (var image in _images.Values)
        {
            image?.Dispose();
        }
    }

    internal static SKMatrix MatrixOf(Matrix map) => new((float)map.A, (float)map.C, (float)map.E, (float)map.B, (float)map.D, (float)map.F, 0, 0, 1);

    internal static SKColor ColourOf(DrawnColour colour) => new(colour.Red, colour.Green, colour.Blue, Byte(colour.OpacityShare));

    private static byte Byte(double share) => (byte)((Math.Clamp(share, 0, 1) * 255) + 0.5);

    private static SKPath PathOf(Region<ItemSpace> region)
    {
        using var builder = new SKPathBuilder();
        foreach (var border in region.Borders())
        {
            builder.AddPoly([.. border.Points.Select(point => new SKPoint((float)point.XMm, (float)point.YMm))], true);
        }

        return builder.Detach();
    }

    private void Paint(Node node)
    {
        switch (node)
        {
            case FillNode fill:
                using (var path = PathOf(fill.Shape))
                using (var paint = PaintOf(fill.Paint))
                {
                    canvas.DrawPath(path, paint);
                }

                break;
            case ImageNode image:
                Clipped(image.Shape, () => DrawImage(image));
                break;
            case LayerNode layer:
                DrawLayer(layer, clips: true);
                break;
        }
    }

    private void PaintEach(List<Node> nodes)
    {
        foreach (var node in nodes)
        {
            Paint(node);
        }
    }

    /// <summary>First the filter, then the clip, the mask, the opacity (SVG 1.1, 14.1).</summary>
    private void DrawLayer(LayerNode layer, bool clips)
    {
        using var whole = new SKPaint { Color = SKColors.Black.WithAlpha(Byte(layer.Opacity)) };
        Clipped(clips ? layer.Clip : null, () => Layered(whole, () =>
        {
            if (layer.Filter is { } filter)
            {
                using var made = FilterPaint.Of(filter);
                Clipped(filter.Window, () => Layered(made, () => PaintEach(layer.Children)));
            }
            else
            {
                PaintEach(layer.Children);
            }

            if (layer.Mask is { } mask)
            {
                using var luma = mask.IsByAlpha ? null : SKColorFilter.CreateLumaColor();
                using var within = new SKPaint { BlendMode = SKBlendMode.DstIn, ColorFilter = luma };
                Layered(within, () => PaintEach(mask.Children));
            }
        }));
    }

    private void Clipped(Region<ItemSpace>? region, Action draw)
    {
        if (region is null)
        {
            draw();
            return;
        }

        canvas.Save();
        using var path = PathOf(region);
        canvas.ClipPath(path, SKClipOperation.Intersect, true);
        draw();
        canvas.Restore();
    }

    private void Layered(SKPaint paint, Action draw)
    {
        canvas.SaveLayer(paint);
        draw();
        canvas.Restore();
    }

    private void DrawImage(ImageNode node)
    {
        if (!_images.TryGetValue(node.Picture, out var image))
        {
            _images[node.Picture] = image = SKImage.FromEncodedData(node.Picture);
        }

        if (image is null)
        {
            return;
        }

        // Made finer by a smooth curve, made coarser by means of all dots that fall together.
        var isFiner = node.ToMm.Largest * canvas.TotalMatrix.MapRadius(1) >= 1;
        var sampling = node.IsPixelated ? new SKSamplingOptions(SKFilterMode.Nearest)
            : isFiner ? new SKSamplingOptions(SKCubicResampler.Mitchell)
            : new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear);
        using var shader = image.ToShader(SKShaderTileMode.Clamp, SKShaderTileMode.Clamp, sampling, MatrixOf(node.ToMm));
        using var paint = new SKPaint { Shader = shader, Color = SKColors.Black.WithAlpha(Byte(node.Opacity)) };
        canvas.DrawPaint(paint);
    }

    private SKPaint PaintOf(Paint paint) => paint switch
    {
        SolidPaint solid => new() { IsAntialias = true, Color = ColourOf(solid.Colour) },
        GradientPaint gradient => new() { IsAntialias = true, IsDither = false, Shader = ShaderOf(gradient), Color = SKColors.Black.WithAlpha(Byte(gradient.Opacity)) },
        PatternPaint pattern => new() { IsAntialias = true, Shader = ShaderOf(pattern), Color = SKColors.Black.WithAlpha(Byte(pattern.Opacity)) },
        _ => throw new InvalidOperationException("no such paint"),
    };

    private static SKShader ShaderOf(GradientPaint gradient)
    {
        var colours = gradient.Stops.Select(stop => ColourOf(stop.Colour)).ToArray();
        var offsets = gradient.Stops.Select(stop => (float)stop.Offset).ToArray();
        var mode = gradient.Spread switch { "reflect" => SKShaderTileMode.Mirror, "repeat" => SKShaderTileMode.Repeat, _ => SKShaderTileMode.Clamp };
        return gradient.IsRadial
            ? SKShader.CreateTwoPointConicalGradient(PointOf(gradient.From), (float)gradient.FromRadius, PointOf(gradient.To), (float)gradient.Radius, colours, offsets, mode, MatrixOf(gradient.ToMm))
            : SKShader.CreateLinearGradient(PointOf(gradient.From), PointOf(gradient.To), colours, offsets, mode, MatrixOf(gradient.ToMm));
    }

    private static SKShader ShaderOf(PatternPaint pattern)
    {
        var tile = SKRect.Create((float)pattern.X, (float)pattern.Y, (float)pattern.Width, (float)pattern.Height);
        using var recorder = new SKPictureRecorder();
        var board = recorder.BeginRecording(tile);
        var back = MatrixOf(pattern.ToMm.Inverse());
        board.Concat(in back);
        using (var painter = new Painter(board))
        {
            painter.PaintEach(pattern.Children);
        }

        using var picture = recorder.EndRecording();

        // The library lays the tile's corner at the origin.
        var place = MatrixOf(pattern.ToMm * Matrix.Shift(pattern.X, pattern.Y));
        return picture.ToShader(SKShaderTileMode.Repeat, SKShaderTileMode.Repeat, SKFilterMode.Linear, place, tile);
    }

    private static SKPoint PointOf(Spot spot) => new((float)spot.X, (float)spot.Y);
}
