using System;
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Lampblack.Bitmaps;

/// <summary>One row in the making, that can be widened to both sides and joined with others.</summary>
internal sealed class WideRow(int words)
{
    /// <summary>Clear words to either side, so that neighbours can be read everywhere.</summary>
    private const int Margin = BitRaster.WordsPerBlock;

    private readonly ulong[] _clear = new ulong[words];
    private ulong[] _dots = new ulong[words + (2 * Margin)];
    private ulong[] _next = new ulong[words + (2 * Margin)];

    /// <summary>The row as it is.</summary>
    public ReadOnlySpan<ulong> Dots => _dots.AsSpan(Margin, words);

    /// <summary>Begins with the dots of two rows.</summary>
    public void Start(ReadOnlySpan<ulong> first, ReadOnlySpan<ulong> second)
    {
        Array.Clear(_dots);
        Join(first, second);
    }

    /// <summary>Widens all runs by a number of dots to either side, then adds the dots of two rows.</summary>
    public void Widen(int dots, ReadOnlySpan<ulong> first, ReadOnlySpan<ulong> second)
    {
        // A run and its copies k to either side are one run as long as k is at most the run's length. In the middle of the row that is twice what it was widened by
        // so far, and one; at an end, where half of it is cut off, just what it was widened by, and one.
        var widened = 0;
        while (widened < dots)
        {
            var step = Math.Min(Math.Min(widened + 1, dots - widened), BitRaster.DotsPerWord - 1);
            widened += step;
            if (widened == dots)
            {
                Step(step, first, second);
                return;
            }

            Step(step, _clear, _clear);
        }

        Join(first, second);
    }

    /// <summary>Adds to each dot its neighbour on the left (-1) or on the right (1).</summary>
    public void Double(int side)
    {
        ref var from = ref _dots[Margin];
        ref var to = ref _next[Margin];
        for (var index = 0; index < words; index++)
        {
            var dot = Unsafe.Add(ref from, index);
            Unsafe.Add(ref to, index) = dot | (side > 0
                ? (dot >> 1) | (Unsafe.Add(ref from, index + 1) << (BitRaster.DotsPerWord - 1))
                : (dot << 1) | (Unsafe.Add(ref from, index - 1) >> (BitRaster.DotsPerWord - 1)));
        }

        (_dots, _next) = (_next, _dots);
    }

    private void Step(int shift, ReadOnlySpan<ulong> first, ReadOnlySpan<ulong> second)
    {
        ref var from = ref _dots[Margin];
        ref var to = ref _next[Margin];
        ref var one = ref MemoryMarshal.GetReference(first);
        ref var two = ref MemoryMarshal.GetReference(second);
        var back = BitRaster.DotsPerWord - shift;
        var end = (nuint)words;
        for (nuint index = 0; index < end; index += (nuint)Vector<ulong>.Count)
        {
            var dots = Vector.LoadUnsafe(ref from, index);
            var left = Vector.LoadUnsafe(ref Unsafe.Subtract(ref from, 1), index);
            var right = Vector.LoadUnsafe(ref Unsafe.Add(ref from, 1), index);
            var wide = dots | (dots << shift) | (dots >> shift) | (left >> back) | (right << back);
            (wide | Vector.LoadUnsafe(ref one, index) | Vector.LoadUnsafe(ref two, index)).StoreUnsafe(ref to, index);
        }

        (_dots, _next) = (_next, _dots);
    }

    private void Join(ReadOnlySpan<ulong> first, ReadOnlySpan<ulong> second)
    {
        ref var to = ref _dots[Margin];
        ref var one = ref MemoryMarshal.GetReference(first);
        ref var two = ref MemoryMarshal.GetReference(second);
        var end = (nuint)words;
        for (nuint index = 0; index < end; index += (nuint)Vector<ulong>.Count)
        {
            (Vector.LoadUnsafe(ref to, index) | Vector.LoadUnsafe(ref one, index) | Vector.LoadUnsafe(ref two, index)).StoreUnsafe(ref to, index);
        }
    }
}
