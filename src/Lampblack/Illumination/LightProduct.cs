using System;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Lanes = System.Runtime.Intrinsics.Vector256<float>;

namespace Lampblack.Illumination;

/// <summary>What leaves facets, times the share that is seen of each, added up.</summary>
/// <remarks>Eight sums side by side in four rows, so that none waits for the one before; always in one order, so that every processor gets the same bits.</remarks>
internal static class LightProduct
{
    /// <summary>How many lights <see cref="Four"/> takes.</summary>
    public const int Together = 4;

    /// <summary>One light.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static float Of(ReadOnlySpan<float> shares, ReadOnlySpan<float> leaving)
    {
        var left = Whole(shares);
        var right = Whole(leaving);
        var (a, b, c, d, index) = (Lanes.Zero, Lanes.Zero, Lanes.Zero, Lanes.Zero, 0);
        for (; index <= left.Length - 4; index += 4)
        {
            a += left[index] * right[index];
            b += left[index + 1] * right[index + 1];
            c += left[index + 2] * right[index + 2];
            d += left[index + 3] * right[index + 3];
        }

        for (; index < left.Length; index++)
        {
            a += left[index] * right[index];
        }

        return Sum(a + b + (c + d)) + Rest(shares, leaving);
    }

    /// <summary>Four lights before the same shares, which takes little longer than one.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static (float First, float Second, float Third, float Fourth) Four(
        ReadOnlySpan<float> shares, ReadOnlySpan<float> first, ReadOnlySpan<float> second, ReadOnlySpan<float> third, ReadOnlySpan<float> fourth)
    {
        var seen = Whole(shares);
        var one = Whole(first);
        var two = Whole(second);
        var three = Whole(third);
        var four = Whole(fourth);
        var (a, b, c, d) = (Lanes.Zero, Lanes.Zero, Lanes.Zero, Lanes.Zero);
        for (var index = 0; index < seen.Length; index++)
        {
            var share = seen[index];
            a += share * one[index];
            b += share * two[index];
            c += share * three[index];
            d += share * four[index];
        }

        return (Sum(a) + Rest(shares, first), Sum(b) + Rest(shares, second), Sum(c) + Rest(shares, third), Sum(d) + Rest(shares, fourth));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static ReadOnlySpan<Lanes> Whole(ReadOnlySpan<float> values) => MemoryMarshal.Cast<float, Lanes>(values);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static float Sum(Lanes lanes)
    {
        var four = lanes.GetLower() + lanes.GetUpper();
        return four[0] + four[1] + (four[2] + four[3]);
    }

    /// <summary>The last ones, fewer than eight.</summary>
    private static float Rest(ReadOnlySpan<float> shares, ReadOnlySpan<float> leaving)
    {
        float total = 0;
        for (var index = shares.Length - (shares.Length % Lanes.Count); index < shares.Length; index++)
        {
            total += shares[index] * leaving[index];
        }

        return total;
    }
}
