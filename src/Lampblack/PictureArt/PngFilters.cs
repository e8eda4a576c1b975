using System;
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Lampblack.PictureArt;

/// <summary>Undoes the five row filters of PNG (ISO/IEC 15948, clause 9).</summary>
internal static class PngFilters
{
    /// <summary>Undoes a row; false where there is no such filter.</summary>
    /// <param name="filter">0 none, 1 left, 2 above, 3 mean of both, 4 Paeth's.</param>
    /// <param name="packed">The row as it was stored.</param>
    /// <param name="above">The row above, undone; zeros for the first.</param>
    /// <param name="row">Where it goes; another place than <paramref name="packed"/>.</param>
    /// <param name="step">Bytes from a sample to its left neighbour's.</param>
    public static bool Undo(int filter, ReadOnlySpan<byte> packed, ReadOnlySpan<byte> above, Span<byte> row, int step)
    {
        switch (filter)
        {
            case 0:
                packed.CopyTo(row);
                return true;
            case 1:
                Left(packed, row, step);
                return true;
            case 2:
                Above(packed, above, row);
                return true;
            case 3:
                Mean(packed, above, row, step);
                return true;
            case 4 when step is 3 or 4 && packed.Length >= 8:
                PaethOfDots(packed, above, row, step);
                return true;
            case 4:
                Paeth(packed, above, row, step, 0);
                return true;
            default:
                return false;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Left(ReadOnlySpan<byte> packed, Span<byte> row, int step)
    {
        packed[..Math.Min(step, packed.Length)].CopyTo(row);
        for (var index = step; index < packed.Length; index++)
        {
            row[index] = (byte)(packed[index] + row[index - step]);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Above(ReadOnlySpan<byte> packed, ReadOnlySpan<byte> above, Span<byte> row)
    {
        var index = 0;
        for (; index <= packed.Length - Vector<byte>.Count; index += Vector<byte>.Count)
        {
            (new Vector<byte>(packed[index..]) + new Vector<byte>(above[index..])).CopyTo(row[index..]);
        }

        for (; index < packed.Length; index++)
        {
            row[index] = (byte)(packed[index] + above[index]);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Mean(ReadOnlySpan<byte> packed, ReadOnlySpan<byte> above, Span<byte> row, int step)
    {
        for (var index = 0; index < packed.Length; index++)
        {
            var left = index >= step ? row[index - step] : 0;
            row[index] = (byte)(packed[index] + ((left + above[index]) >> 1));
        }
    }

    /// <summary>All samples of a dot at once; the fourth byte of a dot of three is the next dot's and is overwritten by it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void PaethOfDots(ReadOnlySpan<byte> packed, ReadOnlySpan<byte> above, Span<byte> row, int step)
    {
        ref var from = ref MemoryMarshal.GetReference(packed);
        ref var up = ref MemoryMarshal.GetReference(above);
        ref var to = ref MemoryMarshal.GetReference(row);
        var (a, c) = (Vector128<short>.Zero, Vector128<short>.Zero);
        var last = Math.Min(packed.Length, Math.Min(above.Length, row.Length)) - 4;
        var index = 0;
        for (; index <= last; index += step)
        {
            var b = Wide(ref up, index);
            var (pa, pb) = (b - c, a - c);
            var pc = Vector128.Abs(pa + pb);
            (pa, pb) = (Vector128.Abs(pa), Vector128.Abs(pb));
            var least = Vector128.Min(pc, Vector128.Min(pa, pb));
            var nearest = Vector128.ConditionalSelect(
                Vector128.Equals(least, pa), a, Vector128.ConditionalSelect(Vector128.Equals(least, pb), b, c));
            a = (nearest + Wide(ref from, index)) & Vector128.Create((short)0xFF);
            c = b;
            Unsafe.WriteUnaligned(ref Unsafe.Add(ref to, index), Vector128.Narrow(a.AsUInt16(), a.AsUInt16()).AsUInt32()[0]);
        }

        Paeth(packed, above, row, step, index);
    }

    private static Vector128<short> Wide(ref byte start, int index) =>
        Vector128.WidenLower(Vector128.CreateScalar(Unsafe.ReadUnaligned<uint>(ref Unsafe.Add(ref start, index))).AsByte()).AsInt16();

    private static void Paeth(ReadOnlySpan<byte> packed, ReadOnlySpan<byte> above, Span<byte> row, int step, int index)
    {
        for (; index < packed.Length; index++)
        {
            var (a, b, c) = index >= step ? (row[index - step], above[index], above[index - step]) : ((byte)0, above[index], (byte)0);
            var (pa, pb, pc) = (Math.Abs(b - c), Math.Abs(a - c), Math.Abs(a + b - c - c));
            row[index] = (byte)(packed[index] + (pa <= pb && pa <= pc ? a : pb <= pc ? b : c));
        }
    }
}
