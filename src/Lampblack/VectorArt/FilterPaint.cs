using System;
using System.Collections.Generic;
using System.Linq;
using SkiaSharp;

namespace Lampblack.VectorArt;

/// <summary>Filters as the drawing library has them. Colours are mixed as sRGB codes, not in linear light: shadows and blurs of one colour are alike in both.</summary>
internal static class FilterPaint
{
    public static SKPaint Of(Filter filter)
    {
        var results = new Dictionary<string, SKImageFilter?>();
        SKImageFilter? last = null;
        foreach (var step in filter.Steps)
        {
            last = Make(step, [.. step.Inputs.Select(Input)]);
            if (step.Result.Length > 0)
            {
                results[step.Result] = last;
            }
        }

        return new() { ImageFilter = last };

        // Nothing means the element itself.
        SKImageFilter? Input(string name) => name switch
        {
            "SourceGraphic" => null,
            "SourceAlpha" => SKImageFilter.CreateColorFilter(SKColorFilter.CreateColorMatrix(((float[])[.. new float[18], 1, 0]).AsSpan())),
            "" => last,
            _ => results.GetValueOrDefault(name),
        };
    }

    private static SKImageFilter? Make(FilterStep step, SKImageFilter?[] inputs)
    {
        var (x, y) = ((float)step.Way.X, (float)step.Way.Y);
        switch (step.Kind)
        {
            case "feGaussianBlur":
                return x == 0 && y == 0 ? inputs[0] : SKImageFilter.CreateBlur(x, y, inputs[0]);
            case "feOffset":
                return SKImageFilter.CreateOffset(x, y, inputs[0]);
            case "feDropShadow":
                return SKImageFilter.CreateDropShadow(x, y, (float)step.Blur.X, (float)step.Blur.Y, Painter.ColourOf(step.Colour), inputs[0]);
            case "feMorphology":
                return step.Word == "dilate" ? SKImageFilter.CreateDilate(x, y, inputs[0]) : SKImageFilter.CreateErode(x, y, inputs[0]);
            case "feFlood":
                return SKImageFilter.CreateShader(SKShader.CreateColor(Painter.ColourOf(step.Colour)));
            case "feMerge":
                return SKImageFilter.CreateMerge(inputs!);
            case "feBlend":
                return SKImageFilter.CreateBlendMode(Mode(step.Word), inputs[1]!, inputs[0]);
            case "feComposite" when step.Word == "arithmetic":
                var k = step.Numbers;
                return SKImageFilter.CreateArithmetic((float)k[0], (float)k[1], (float)k[2], (float)k[3], true, inputs[1]!, inputs[0]);
            case "feComposite":
                return SKImageFilter.CreateBlendMode(
                    step.Word switch
                    {
                        "in" => SKBlendMode.SrcIn, "out" => SKBlendMode.SrcOut, "atop" => SKBlendMode.SrcATop, "xor" => SKBlendMode.Xor, "lighter" => SKBlendMode.Plus, _ => SKBlendMode.SrcOver,
                    },
                    inputs[1]!,
                    inputs[0]);
            default:
                return SKImageFilter.CreateColorFilter(SKColorFilter.CreateColorMatrix(ColourMatrix(step).AsSpan()), inputs[0]);
        }
    }

    private static SKBlendMode Mode(string word) => word switch
    {
        "multiply" => SKBlendMode.Multiply, "screen" => SKBlendMode.Screen, "darken" => SKBlendMode.Darken, "lighten" => SKBlendMode.Lighten, "overlay" => SKBlendMode.Overlay,
        "color-dodge" => SKBlendMode.ColorDodge, "color-burn" => SKBlendMode.ColorBurn, "hard-light" => SKBlendMode.HardLight, "soft-light" => SKBlendMode.SoftLight,
        "difference" => SKBlendMode.Difference, "exclusion" => SKBlendMode.Exclusion, _ => SKBlendMode.SrcOver,
    };

    /// <summary>The matrix of a feColorMatrix (SVG 1.1, 15.10).</summary>
    private static float[] ColourMatrix(FilterStep step)
    {
        var first = (float)(step.Numbers.Count > 0 ? step.Numbers[0] : step.Word == "saturate" ? 1 : 0);
        switch (step.Word)
        {
            case "saturate":
                return Rows(0.213f, 0.715f, 0.072f, first, 0);
            case "hueRotate":
                var (sine, cosine) = MathF.SinCos(first * MathF.PI / 180);
                return
                [
                    0.213f + (cosine * 0.787f) - (sine * 0.213f), 0.715f - (cosine * 0.715f) - (sine * 0.715f), 0.072f - (cosine * 0.072f) + (sine * 0.928f), 0, 0,
                    0.213f - (cosine * 0.213f) + (sine * 0.143f), 0.715f + (cosine * 0.285f) + (sine * 0.140f), 0.072f - (cosine * 0.072f) - (sine * 0.283f), 0, 0,
                    0.213f - (cosine * 0.213f) - (sine * 0.787f), 0.715f - (cosine * 0.715f) + (sine * 0.715f), 0.072f + (cosine * 0.928f) + (sine * 0.072f), 0, 0,
                    0, 0, 0, 1, 0,
                ];
            case "luminanceToAlpha":
                return [.. new float[15], 0.2125f, 0.7154f, 0.0721f, 0, 0];
            default:
                return [.. step.Numbers.Select(number => (float)number)];
        }
    }

    private static float[] Rows(float red, float green, float blue, float share, float zero) =>
    [
        red + ((1 - red) * share), green - (green * share), blue - (blue * share), zero, zero,
        red - (red * share), green + ((1 - green) * share), blue - (blue * share), zero, zero,
        red - (red * share), green - (green * share), blue + ((1 - blue) * share), zero, zero,
        zero, zero, zero, 1, zero,
    ];
}
