using System;
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Lampblack.Imaging;

/// <summary>
/// Paper's smear along one axis: a line becomes (pi/kp) exp(-2 pi |x| / kp), whose contrast is 1 / (1 + (kp f)^2) at frequency f.
/// </summary>
/// <remarks>
/// Applied along x, then along y. For edges along an axis that is exact; the round spread of real paper is K0(2 pi r / kp), and a slanting
/// edge comes out a little softer here than there. Dots are taken as even squares: the weights are the exact means over them, so
/// nothing is lost or gained and dots larger than the spread do no harm. Beyond the border the picture goes on as its own mirror image.
/// A two-sided exponential is the sum of two running sums, one each way, so its cost does not depend on its width.
/// </remarks>
internal readonly record struct LineSpread
{
    private readonly float _here;
    private readonly float _next;
    private readonly float _fade;

    private LineSpread(float here, float next, float fade)
    {
        _here = here;
        _next = next;
        _fade = fade;
    }

    /// <summary>How many dots away a dot counts at all: beyond, it has faded below float's precision.</summary>
    public int ReachPx => _next == 0 ? 0 : Math.Max(1, (int)Math.Min(Enough, int.MaxValue / 4));

    private double Enough => Math.Ceiling(Math.Log(1e-9) / Math.Log(_fade));

    /// <summary>The smear of a paper with this kp on dots of this size.</summary>
    public static LineSpread Of(double spreadMm, double mmPerDot)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(spreadMm);
        if (spreadMm == 0)
        {
            return new(1, 0, 0);
        }

        // With h dots per 1/e length and q = exp(-h), the exponential averaged over two dots n >= 1 apart is (1 - q)^2 / 2h q^(n - 1).
        var h = mmPerDot / (spreadMm / (2 * Math.PI));
        var fade = Math.Exp(-h);
        return new((float)(1 - ((1 - fade) / h)), (float)((1 - fade) * (1 - fade) / (2 * h)), (float)fade);
    }

    /// <summary>Smears dots in place.</summary>
    /// <param name="values">Row by row, the channels of a dot side by side.</param>
    /// <param name="widthPx">Dots in a row.</param>
    /// <param name="heightPx">Rows.</param>
    /// <param name="channels">Numbers per dot: 1 or 4.</param>
    public void Apply(Span<float> values, int widthPx, int heightPx, int channels)
    {
        if (_next == 0)
        {
            return;
        }

        var rowLength = widthPx * channels;
        if (channels == 4)
        {
            var before = new Vector4[widthPx];
            for (var row = 0; row < heightPx; row++)
            {
                AlongRow(MemoryMarshal.Cast<float, Vector4>(values.Slice(row * rowLength, rowLength)), before);
            }
        }
        else
        {
            var before = new float[widthPx];
            for (var row = 0; row < heightPx; row++)
            {
                AlongRow(values.Slice(row * rowLength, rowLength), before);
            }
        }

        // Narrow strips, so that one strip's running sums stay in the cache from the way down to the way up.
        const int StripLength = 64;
        var strip = new float[StripLength * heightPx];
        for (var left = 0; left < rowLength; left += StripLength)
        {
            DownStrip(values, rowLength, left, Math.Min(StripLength, rowLength - left), heightPx, strip);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void AlongRow(Span<Vector4> dots, Span<Vector4> before)
    {
        var (sum, sumBack) = (Vector4.Zero, Vector4.Zero);
        var (terms, share) = MirrorTerms(dots.Length);
        var weight = share;
        for (var term = 0; term < terms; term++)
        {
            var dot = Mirrored(term, dots.Length);
            sum += weight * dots[dot];
            sumBack += weight * dots[dots.Length - 1 - dot];
            weight *= _fade;
        }

        for (var dot = 0; dot < dots.Length; dot++)
        {
            before[dot] = sum;
            sum = (_fade * sum) + dots[dot];
        }

        for (var dot = dots.Length - 1; dot >= 0; dot--)
        {
            var own = dots[dot];
            dots[dot] = (_here * own) + (_next * (before[dot] + sumBack));
            sumBack = (_fade * sumBack) + own;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void AlongRow(Span<float> dots, Span<float> before)
    {
        var (sum, sumBack) = (0f, 0f);
        var (terms, share) = MirrorTerms(dots.Length);
        var weight = share;
        for (var term = 0; term < terms; term++)
        {
            var dot = Mirrored(term, dots.Length);
            sum += weight * dots[dot];
            sumBack += weight * dots[dots.Length - 1 - dot];
            weight *= _fade;
        }

        for (var dot = 0; dot < dots.Length; dot++)
        {
            before[dot] = sum;
            sum = (_fade * sum) + dots[dot];
        }

        for (var dot = dots.Length - 1; dot >= 0; dot--)
        {
            var own = dots[dot];
            dots[dot] = (_here * own) + (_next * (before[dot] + sumBack));
            sumBack = (_fade * sumBack) + own;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void DownStrip(Span<float> values, int rowLength, int left, int length, int heightPx, float[] before)
    {
        Span<float> sum = stackalloc float[length];
        Span<float> sumBack = stackalloc float[length];
        var (terms, share) = MirrorTerms(heightPx);
        var weight = share;
        for (var term = 0; term < terms; term++)
        {
            var row = Mirrored(term, heightPx);
            AddTimes(sum, weight, values.Slice((row * rowLength) + left, length));
            AddTimes(sumBack, weight, values.Slice(((heightPx - 1 - row) * rowLength) + left, length));
            weight *= _fade;
        }

        for (var row = 0; row < heightPx; row++)
        {
            sum.CopyTo(before.AsSpan(row * length));
            FadeAndAdd(sum, values.Slice((row * rowLength) + left, length));
        }

        for (var row = heightPx - 1; row >= 0; row--)
        {
            Join(values.Slice((row * rowLength) + left, length), before.AsSpan(row * length, length), sumBack);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void FadeAndAdd(Span<float> sum, ReadOnlySpan<float> dots)
    {
        var index = 0;
        for (; index <= sum.Length - Vector<float>.Count; index += Vector<float>.Count)
        {
            ((_fade * new Vector<float>(sum[index..])) + new Vector<float>(dots[index..])).CopyTo(sum[index..]);
        }

        for (; index < sum.Length; index++)
        {
            sum[index] = (_fade * sum[index]) + dots[index];
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Join(Span<float> dots, ReadOnlySpan<float> before, Span<float> sumBack)
    {
        var index = 0;
        for (; index <= dots.Length - Vector<float>.Count; index += Vector<float>.Count)
        {
            var own = new Vector<float>(dots[index..]);
            var back = new Vector<float>(sumBack[index..]);
            ((_here * own) + (_next * (new Vector<float>(before[index..]) + back))).CopyTo(dots[index..]);
            ((_fade * back) + own).CopyTo(sumBack[index..]);
        }

        for (; index < dots.Length; index++)
        {
            var own = dots[index];
            dots[index] = (_here * own) + (_next * (before[index] + sumBack[index]));
            sumBack[index] = (_fade * sumBack[index]) + own;
        }
    }

    private static void AddTimes(Span<float> sum, float weight, ReadOnlySpan<float> dots)
    {
        for (var index = 0; index < sum.Length; index++)
        {
            sum[index] += weight * dots[index];
        }
    }

    /// <summary>Which dot stands in for the one that lies <paramref name="term"/> + 1 dots beyond the border.</summary>
    private static int Mirrored(int term, int length) => term < length ? term : (2 * length) - 1 - term;

    /// <summary>How many dots beyond the border count (until they fade below float's precision, or one full period), and the first one's weight.</summary>
    private (int Terms, float Share) MirrorTerms(int length)
    {
        return Enough < 2 * length
            ? (Math.Max(1, (int)Enough), 1)
            : (2 * length, (float)(1 / (1 - Math.Pow(_fade, 2 * length))));
    }
}
