using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.VectorArt;

/// <summary>How soft a node is at least: what is blurred all over holds nothing that fine dots would show better than coarse ones.</summary>
internal static class Blurs
{
    /// <summary>The standard deviation of the blur that all of it went through at least; 0 where any of it is sharp.</summary>
    public static double LeastMm(Node node)
    {
        if (node is not LayerNode layer)
        {
            return 0;
        }

        var inside = layer.Children.Select(LeastMm).DefaultIfEmpty(double.PositiveInfinity).Min();
        var mask = (layer.Mask?.Children ?? []).Select(LeastMm).DefaultIfEmpty(double.PositiveInfinity).Min();
        return Math.Min(layer.Filter is { } filter ? LeastMm(filter, inside) : inside, mask);
    }

    private static double LeastMm(Filter filter, double source)
    {
        var results = new Dictionary<string, double>(StringComparer.Ordinal);
        var last = source;
        foreach (var step in filter.Steps)
        {
            last = LeastMm(step, [.. step.Inputs.Select(Input)]);
            if (step.Result.Length > 0)
            {
                results[step.Result] = last;
            }
        }

        return last;

        double Input(string name) => name switch
        {
            "SourceGraphic" or "SourceAlpha" => source,
            "" => last,
            _ => results.GetValueOrDefault(name, source),
        };
    }

    private static double LeastMm(FilterStep step, double[] inputs) => step.Kind switch
    {
        "feGaussianBlur" => Math.Max(inputs[0], Math.Min(step.Way.X, step.Way.Y)),
        "feFlood" => double.PositiveInfinity,
        "feOffset" or "feDropShadow" => inputs[0],
        "feMerge" => inputs.DefaultIfEmpty(0).Min(),
        "feBlend" => Math.Min(inputs[0], inputs[1]),
        "feComposite" when step.Word != "arithmetic" => Math.Min(inputs[0], inputs[1]),
        "feColorMatrix" when step.Word is "saturate" or "hueRotate" or "luminanceToAlpha" => inputs[0],

        // Others may make a soft edge sharp again.
        _ => 0,
    };
}
