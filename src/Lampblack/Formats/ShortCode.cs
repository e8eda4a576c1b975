using System;

namespace Lampblack.Formats;

/// <summary>Six characters by which people tell prints and books apart.</summary>
internal static class ShortCode
{
    // Without I, O, 0 and 1, which are taken for each other.
    private const string Letters = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";
    private const int Length = 6;

    /// <summary>Each character takes five bits of its own byte.</summary>
    /// <param name="digest">At least six bytes of a hash.</param>
    public static string Of(ReadOnlySpan<byte> digest)
    {
        Span<char> code = stackalloc char[Length];
        for (var index = 0; index < Length; index++)
        {
            code[index] = Letters[digest[index] & 31];
        }

        return new(code);
    }
}
