using System;
using Lampblack.Bitmaps;

namespace Lampblack.PictureArt;

/// <summary>Finds the dots that could be either field or opening.</summary>
internal static class Doubts
{
    /// <summary>Below this a valley is none.</summary>
    public const double ShallowDepth = 0.5;

    /// <summary>How far around a nearly black grey dots belong to it, in codes.</summary>
    private const int NearlyBlackCodes = 8;

    /// <summary>A dot in between is only an edge where both sides are this near, in dots.</summary>
    private const double EdgeDots = 4.5;

    /// <param name="plane">The picture.</param>
    /// <param name="tones">Its tones.</param>
    /// <param name="dark">Dots that shine by one strong colour only and are dark to the eye.</param>
    /// <param name="told">Whether the user said where the border is.</param>
    /// <param name="toleranceGain">The tolerance, where the user said it.</param>
    public static BitRaster Find(GainPlane plane, Tones tones, BitRaster dark, bool told, int? toleranceGain)
    {
        var valley = tones.Valley!.Value;
        var (field, threshold) = (valley.Field, valley.Threshold);
        var lit = Math.Max(valley.Lit, threshold + 1);
        var isShallow = valley.Depth < ShallowDepth && !told;
        var low = field + (int)((threshold - field) * (isShallow ? 0.15 : 0.4));
        low = Math.Clamp(Math.Max(low, (toleranceGain ?? 0) + 1), 1, threshold);
        var high = isShallow ? 255 : Math.Max(threshold, threshold + (int)((lit - threshold) * 0.35));
        var between = plane.Between(low, high);
        if (valley.NearlyBlack is { } grey && !told && toleranceGain is null)
        {
            between = between.Or(plane.Between(Math.Max(1, grey - NearlyBlackCodes), Math.Min(grey + NearlyBlackCodes, threshold - 1)));
        }

        if (!isShallow)
        {
            var sureField = plane.Between(0, low - 1).Except(between);
            var sureLit = plane.Between(Math.Min(high + 1, 255), 255);
            between = between.Except(sureField.Grow(EdgeDots).And(sureLit.Grow(EdgeDots)));
        }

        if (dark.Count() > 0)
        {
            var light = plane.Between(threshold, 255).Except(dark);
            between = between.Or(dark.Except(light.Grow(2.5)));
        }

        return told ? between : between.Or(LocalLight.Differing(plane, valley));
    }
}
