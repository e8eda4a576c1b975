using System.Linq;
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
            for (var index = 0; index < perRow; index++)
            {
                bytes[at++] = (byte)(Turned[(byte)(words[index / 8] >> (8 * (index % 8)))] ^ flip);
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
