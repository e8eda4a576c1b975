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

    /// <summary>So many facets of a side are worked out at once: none sees another.</summary>
    private const int Rows = 4;

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
        Span<Lanes> sums = stackalloc Lanes[2 * Rows];
        foreach (var side in sides)
        {
            for (var facet = side.From; facet < side.To; facet += Rows)
            {
                if (_reflectances[facet] > 0)
                {
                    Arriving(seen, facet, side, sums);
                }

                for (var row = 0; row < Math.Min(Rows, side.To - facet); row++)
                {
                    for (var half = 0; half < 2; half++)
                    {
                        ref var leaving = ref _leaving[(2 * (facet + row)) + half];
                        var next = _reflectances[facet] > 0 ? _start[(2 * (facet + row)) + half] + (_reflectances[facet] * sums[(2 * row) + half]) : leaving;
                        change = Vector256.Max(change, Vector256.Abs(next - leaving));
                        largest = Vector256.Max(largest, next);
                        leaving = next;
                    }
                }
            }
        }

        return Vector256.LessThanOrEqualAll(change, settledShare * largest);
    }

    /// <summary>What comes to four facets that follow each other; where the side ends sooner, the last one again.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Arriving(float[][] seen, int facet, (int From, int To) side, Span<Lanes> sums)
    {
        var (one, two, three, four) = (seen[facet], seen[Math.Min(facet + 1, side.To - 1)], seen[Math.Min(facet + 2, side.To - 1)], seen[Math.Min(facet + 3, side.To - 1)]);
        var (a, b, c, d, e, f, g, h) = (Lanes.Zero, Lanes.Zero, Lanes.Zero, Lanes.Zero, Lanes.Zero, Lanes.Zero, Lanes.Zero, Lanes.Zero);
        var (index, end) = (0, side.From);
        while (true)
        {
            for (; index < end; index++)
            {
                var (left, right) = (_leaving[2 * index], _leaving[(2 * index) + 1]);
                var share = Vector256.Create(one[index]);
                a += share * left;
                b += share * right;
                share = Vector256.Create(two[index]);
                c += share * left;
                d += share * right;
                share = Vector256.Create(three[index]);
                e += share * left;
                f += share * right;
                share = Vector256.Create(four[index]);
                g += share * left;
                h += share * right;
            }

            // Nothing comes from their own side.
            if (end == one.Length)
            {
                break;
            }

            (index, end) = (side.To, one.Length);
        }

        (sums[0], sums[1], sums[2], sums[3]) = (a, b, c, d);
        (sums[4], sums[5], sums[6], sums[7]) = (e, f, g, h);
    }
}
