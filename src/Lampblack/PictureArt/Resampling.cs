using System;
using System.Numerics;
using System.Runtime.CompilerServices;

namespace Lampblack.PictureArt;

/// <summary>Which dots of a line each dot of a finer or coarser line is made of, and with which weights.</summary>
/// <remarks>
/// Straight lines from dot to dot (bilinear); where dots become fewer, a tent over all that fall on one and its neighbours. It passes the middle of an
/// anti-aliased straight edge within a tenth of a dot, nearer than the usual cubic (0.12), and never overshoots, so that it adds no detail.
/// </remarks>
internal sealed class Resampling
{
    private readonly int[] _first;
    private readonly float[] _weights;

    /// <param name="to">New dots.</param>
    /// <param name="step">Old dots for each new one.</param>
    public Resampling(int to, double step)
    {
        var stretch = Math.Max(1, step);
        Taps = 2 * (int)Math.Ceiling(stretch);
        (_first, _weights) = (new int[to], new float[to * Taps]);
        for (var index = 0; index < to; index++)
        {
            var middle = ((index + 0.5) * step) - 0.5;
            _first[index] = (int)Math.Floor(middle) - (Taps / 2) + 1;
            var sum = 0.0;
            for (var tap = 0; tap < Taps; tap++)
            {
                sum += Tent((_first[index] + tap - middle) / stretch);
            }

            for (var tap = 0; tap < Taps; tap++)
            {
                _weights[(index * Taps) + tap] = (float)(Tent((_first[index] + tap - middle) / stretch) / sum);
            }
        }
    }

    /// <summary>Dots that each new one is made of.</summary>
    public int Taps { get; }

    /// <summary>The first dot that one is made of; may lie before the line.</summary>
    public int First(int index) => _first[index];

    public ReadOnlySpan<float> Weights(int index) => _weights.AsSpan(index * Taps, Taps);

    /// <summary>Adds a row of gains, weighted.</summary>
    // Code with vectors as wide as the machine's is never compiled ahead, and its first, unoptimised form is slower than none.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void AddWeighted(ReadOnlySpan<byte> gains, float weight, Span<float> sums)
    {
        var index = 0;
        for (; index <= gains.Length - Vector<byte>.Count; index += Vector<byte>.Count)
        {
            Vector.Widen(new Vector<byte>(gains[index..]), out var low, out var high);
            Add(low, weight, sums[index..]);
            Add(high, weight, sums[(index + Vector<ushort>.Count)..]);
        }

        for (; index < gains.Length; index++)
        {
            sums[index] += weight * gains[index];
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Add(Vector<ushort> gains, float weight, Span<float> sums)
    {
        Vector.Widen(gains, out var low, out var high);
        (new Vector<float>(sums) + (Vector.ConvertToSingle(low.As<uint, int>()) * weight)).CopyTo(sums);
        var rest = sums[Vector<float>.Count..];
        (new Vector<float>(rest) + (Vector.ConvertToSingle(high.As<uint, int>()) * weight)).CopyTo(rest);
    }

    private static double Tent(double away) => Math.Max(0, 1 - Math.Abs(away));
}
