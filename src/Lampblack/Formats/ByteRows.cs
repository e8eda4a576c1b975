using System;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Lampblack.Formats;

/// <summary>Rows of bytes as what differs from the row above, which in pictures is mostly nothing (filter "up" of PNG, ISO/IEC 15948 clause 9; predictor 12 of PDF).</summary>
internal static class ByteRows
{
    /// <summary>Each byte less the one above it, modulo 256; all three are equally long.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Differences(ReadOnlySpan<byte> row, ReadOnlySpan<byte> above, Span<byte> differences)
    {
        var whole = row.Length - (row.Length % Vector128<byte>.Count);
        for (var index = 0; index < whole; index += Vector128<byte>.Count)
        {
            (Vector128.Create(row[index..]) - Vector128.Create(above[index..])).CopyTo(differences[index..]);
        }

        for (var index = whole; index < row.Length; index++)
        {
            differences[index] = (byte)(row[index] - above[index]);
        }
    }
}
