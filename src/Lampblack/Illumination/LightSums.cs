using System;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Lanes = System.Runtime.Intrinsics.Vector256<float>;

namespace Lampblack.Illumination;

/// <summary>Of two lights that fall on the same legends: the least and the most that one gets, the sum and the sum of squares.</summary>
/// <remarks>Eight legends side by side, added up in one order, so that every processor gets the same bits.</remarks>
internal readonly record struct LightSums(float Least, float Most, float Total, float Squares)
{
    /// <summary>After so many times eight legends it is looked whether the answer is already clear.</summary>
    private const int Stretch = 8;

    /// <summary>Sums up.</summary>
    /// <param name="first">What each legend has.</param>
    /// <param name="second">What it gets as well.</param>
    /// <param name="mostFactor">Once the most is more than so many times the least, only that is right in what is given.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static LightSums Of(ReadOnlySpan<float> first, ReadOnlySpan<float> second, float mostFactor)
    {
        var whole = first.Length - (first.Length % Lanes.Count);
        var left = MemoryMarshal.Cast<float, Lanes>(first[..whole]);
        var right = MemoryMarshal.Cast<float, Lanes>(second[..whole]);
        var (least, most, total, squares) = (Vector256.Create(float.PositiveInfinity), Lanes.Zero, Lanes.Zero, Lanes.Zero);
        for (var index = 0; index < left.Length; index++)
        {
            var light = left[index] + right[index];
            least = Vector256.Min(least, light);
            most = Vector256.Max(most, light);
            total += light;
            squares += light * light;
            if (index % Stretch == Stretch - 1 && Largest(most) > mostFactor * Smallest(least))
            {
                break;
            }
        }

        var sums = new LightSums(Smallest(least), Largest(most), LightProduct.Sum(total), LightProduct.Sum(squares));
        for (var index = whole; index < first.Length; index++)
        {
            var light = first[index] + second[index];
            sums = new(Math.Min(sums.Least, light), Math.Max(sums.Most, light), sums.Total + light, sums.Squares + (light * light));
        }

        return sums;
    }

    /// <summary>Of legends that get some more, between a least and a most of which the bounds are known: how dim the dimmest is at best, and how bright the brightest at least.</summary>
    /// <param name="have">What each legend has.</param>
    /// <param name="most">The most that each can get from one more.</param>
    /// <param name="least">The least.</param>
    /// <param name="times">From how many more.</param>
    /// <param name="mostFactor">Once the brightest is more than so many times the dimmest, only that is right in what is given.</param>
    /// <returns>Both, and how many legends were looked at.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static ((float Least, float Most) Bounds, int Looked) Within(ReadOnlySpan<float> have, ReadOnlySpan<float> most, ReadOnlySpan<float> least, int times, float mostFactor)
    {
        var whole = have.Length - (have.Length % Lanes.Count);
        var now = MemoryMarshal.Cast<float, Lanes>(have[..whole]);
        var above = MemoryMarshal.Cast<float, Lanes>(most[..whole]);
        var below = MemoryMarshal.Cast<float, Lanes>(least[..whole]);
        var (dimmest, brightest, factor) = (Vector256.Create(float.PositiveInfinity), Lanes.Zero, Vector256.Create((float)times));
        for (var index = 0; index < now.Length; index++)
        {
            dimmest = Vector256.Min(dimmest, now[index] + (factor * above[index]));
            brightest = Vector256.Max(brightest, now[index] + (factor * below[index]));
            if (Largest(brightest) > mostFactor * Smallest(dimmest))
            {
                return ((Smallest(dimmest), Largest(brightest)), (index + 1) * Lanes.Count);
            }
        }

        var (low, high) = (Smallest(dimmest), Largest(brightest));
        for (var index = whole; index < have.Length; index++)
        {
            low = Math.Min(low, have[index] + (times * most[index]));
            high = Math.Max(high, have[index] + (times * least[index]));
        }

        return ((low, high), have.Length);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static float Smallest(Lanes lanes)
    {
        var four = Vector128.Min(lanes.GetLower(), lanes.GetUpper());
        return Math.Min(Math.Min(four[0], four[1]), Math.Min(four[2], four[3]));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static float Largest(Lanes lanes)
    {
        var four = Vector128.Max(lanes.GetLower(), lanes.GetUpper());
        return Math.Max(Math.Max(four[0], four[1]), Math.Max(four[2], four[3]));
    }
}
