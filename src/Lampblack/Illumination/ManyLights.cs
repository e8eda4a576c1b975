using System;
using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Lanes = System.Runtime.Intrinsics.Vector256<float>;

namespace Lampblack.Illumination;

/// <summary>What leaves each facet by up to sixteen lights, each alone: together they share one way through the shares, which takes longer than the sums do.</summary>
/// <remarks>Added up in one order, so that every processor gets the same bits.</remarks>
internal sealed class ManyLights
{
    /// <summary>How many lights are taken together.</summary>
    public const int Most = 2 * Eight;

    private const int Eight = 8;

    private readonly float[] _reflectances;

    /// <summary>For each facet what leaves it of its own, by the first eight lights and by the others.</summary>
    private readonly Lanes[] _start;
    private readonly Lanes[] _leaving;

    /// <param name="directLux">For each light what reaches each facet straight.</param>
    /// <param name="reflectances">What each facet throws back.</param>
    public ManyLights(ReadOnlySpan<float[]> directLux, float[] reflectances)
    {
        _reflectances = reflectances;
        _start = new Lanes[2 * reflectances.Length];
        Span<float> one = stackalloc float[Most];
        one.Clear();
        for (var facet = 0; facet < reflectances.Length; facet++)
        {
            for (var light = 0; light < directLux.Length; light++)
            {
                one[light] = reflectances[facet] * directLux[light][facet];
            }

            (_start[2 * facet], _start[(2 * facet) + 1]) = (Vector256.Create<float>(one), Vector256.Create<float>(one[Eight..]));
        }

        _leaving = (Lanes[])_start.Clone();
    }

    /// <summary>One light's part.</summary>
    public float[] Leaving(int light)
    {
        var own = new float[_reflectances.Length];
        for (var facet = 0; facet < own.Length; facet++)
        {
            own[facet] = _leaving[(2 * facet) + (light / Eight)][light % Eight];
        }

        return own;
    }

    /// <summary>All facets throw back once what comes to them.</summary>
    /// <param name="seen">For every facet the shares of all.</param>
    /// <param name="sides">Of each side its first facet, and the one after its last.</param>
    /// <param name="settledShare">Changes of this share of the brightest are none.</param>
    /// <returns>Whether nothing changed.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public bool Bounce(float[][] seen, ImmutableArray<(int From, int To)> sides, float settledShare)
    {
        var (change, largest) = (Lanes.Zero, Lanes.Zero);
        foreach (var side in sides)
        {
            for (var facet = side.From; facet < side.To; facet++)
            {
                ref var first = ref _leaving[2 * facet];
                ref var second = ref _leaving[(2 * facet) + 1];
                if (_reflectances[facet] > 0)
                {
                    var (left, right) = Arriving(seen[facet], side);
                    left = _start[2 * facet] + (_reflectances[facet] * left);
                    right = _start[(2 * facet) + 1] + (_reflectances[facet] * right);
                    change = Vector256.Max(change, Vector256.Max(Vector256.Abs(left - first), Vector256.Abs(right - second)));
                    (first, second) = (left, right);
                }

                largest = Vector256.Max(largest, Vector256.Max(first, second));
            }
        }

        return Vector256.LessThanOrEqualAll(change, settledShare * largest);
    }

    /// <summary>What comes to a facet, in four sums, so that none waits for the one before.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private (Lanes First, Lanes Second) Arriving(float[] shares, (int From, int To) side)
    {
        var (a, b, c, d, e, f, g, h) = (Lanes.Zero, Lanes.Zero, Lanes.Zero, Lanes.Zero, Lanes.Zero, Lanes.Zero, Lanes.Zero, Lanes.Zero);
        var whole = shares.Length / 4 * 4;
        var (index, end) = (0, Math.Min((side.From + 3) / 4 * 4, whole));
        while (true)
        {
            for (; index < end; index += 4)
            {
                a += shares[index] * _leaving[2 * index];
                b += shares[index] * _leaving[(2 * index) + 1];
                c += shares[index + 1] * _leaving[(2 * index) + 2];
                d += shares[index + 1] * _leaving[(2 * index) + 3];
                e += shares[index + 2] * _leaving[(2 * index) + 4];
                f += shares[index + 2] * _leaving[(2 * index) + 5];
                g += shares[index + 3] * _leaving[(2 * index) + 6];
                h += shares[index + 3] * _leaving[(2 * index) + 7];
            }

            if (end == whole)
            {
                break;
            }

            // Nothing comes from its own side.
            (index, end) = (Math.Max(end, side.To / 4 * 4), whole);
        }

        for (; index < shares.Length; index++)
        {
            a += shares[index] * _leaving[2 * index];
            b += shares[index] * _leaving[(2 * index) + 1];
        }

        return (a + c + (e + g), b + d + (f + h));
    }
}
