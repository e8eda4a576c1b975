using System;
using System.Linq;
using System.Runtime.CompilerServices;
using Lampblack.Bitmaps;

namespace Lampblack.Formats;

/// <summary>Dots as rows of whole bytes, the leftmost dot in the highest bit.</summary>
internal static class DotBytes
{
    /// <summary>Bytes with their bits in the other order.</summary>
    private static readonly byte[] Turned = [.. Enumerable.Range(0, 256).Select(Turn)];

    /// <param name="dots">The dots.</param>
    /// <param name="lead">How many zero bytes stand before each row.</param>
    /// <param name="inverted">Whether set dots are 0 instead of 1.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static byte[] Rows(BitRaster dots, int lead, bool inverted)
    {
        var perRow = (dots.WidthDots + 7) / 8;
        var flip = inverted ? 0xFF : 0;
        var bytes = new byte[(lead + perRow) * dots.HeightDots];
        var at = 0;
        for (var row = 0; row < dots.HeightDots; row++)
        {
            var words = dots.Row(row);
            at += lead;
            for (var index = 0; index < perRow; index += 8)
            {
                var word = words[index / 8];
                var end = Math.Min(at + 8, at + perRow - index);
                for (; at < end; word >>= 8)
                {
                    bytes[at++] = (byte)(Turned[(byte)word] ^ flip);
                }
            }
        }

        return bytes;
    }

    private static byte Turn(int value)
    {
        var turned = 0;
        for (var bit = 0; bit < 8; bit++)
        {
            turned |= ((value >> bit) & 1) << (7 - bit);
        }

        return (byte)turned;
    }
}
