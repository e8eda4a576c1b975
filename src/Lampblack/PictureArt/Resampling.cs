using System;
using System.Numerics;

namespace Lampblack.PictureArt;

/// <summary>Which dots of a line each dot of a finer or coarser line is made of, and with which weights.</summary>
/// <remarks>
/// Catmull and Rom's cubic (R. G. Keys, IEEE Transactions on Acoustics, Speech and Signal Processing 29 (1981) 1153-1160, a = -1/2) over four dots; where dots
/// become fewer it is stretched over as many as fall on one. It passes an anti-aliased edge's middle within an eighth of a dot.
/// </remarks>
internal sealed class Resampling
{
    private readonly int[] _first;
    private readonly float[] _weights;

    public Resampling(int from, int to)
    {
        var step = (double)from / to;
        var stretch = Math.Max(1, step);
        Taps = (2 * (int)Math.Ceiling(2 * stretch)) + (step > 1 ? 1 : 0);
        (_first, _weights) = (new int[to], new float[to * Taps]);
        for (var index = 0; index < to; index++)
        {
            var middle = ((index + 0.5) * step) - 0.5;
            _first[index] = (int)Math.Floor(middle) - (Taps / 2) + 1;
            var sum = 0.0;
            for (var tap = 0; tap < Taps; tap++)
            {
                sum += Cubic((_first[index] + tap - middle) / stretch);
            }

            for (var tap = 0; tap < Taps; tap++)
            {
                _weights[(index * Taps) + tap] = (float)(Cubic((_first[index] + tap - middle) / stretch) / sum);
            }
        }
    }

    /// <summary>Dots that each new one is made of.</summary>
    public int Taps { get; }

    /// <summary>The first dot that one is made of; may lie before the line.</summary>
    public int First(int index) => _first[index];

    public ReadOnlySpan<float> Weights(int index) => _weights.AsSpan(index * Taps, Taps);

    /// <summary>Adds a row of gains, weighted.</summary>
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

    private static void Add(Vector<ushort> gains, float weight, Span<float> sums)
    {
        Vector.Widen(gains, out var low, out var high);
        (new Vector<float>(sums) + (Vector.ConvertToSingle(low.As<uint, int>()) * weight)).CopyTo(sums);
        var rest = sums[Vector<float>.Count..];
        (new Vector<float>(rest) + (Vector.ConvertToSingle(high.As<uint, int>()) * weight)).CopyTo(rest);
    }

    private static double Cubic(double away)
    {
        var x = Math.Abs(away);
        return x < 1 ? (((1.5 * x) - 2.5) * x * x) + 1 : x < 2 ? (((((-0.5 * x) + 2.5) * x) - 4) * x) + 2 : 0;
    }
}
