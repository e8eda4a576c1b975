using System;

namespace Lampblack.PictureArt;

/// <summary>How stored rows must be turned to be upright: the orientation of TIFF 6.0 and EXIF, 1 to 8.</summary>
/// <param name="Number">1 upright, 2 mirrored, 3 half-turn, 4 upside down and mirrored, 5 to 8 with rows and columns changed.</param>
internal readonly record struct Turn(int Number)
{
    public static Turn None { get; } = new(1);

    public bool IsNone => Number is < 2 or > 8;

    /// <summary>Whether stored rows become columns.</summary>
    public bool SwapsSides => Number is >= 5 and <= 8;

    public (int Width, int Height) Size(int width, int height) => SwapsSides ? (height, width) : (width, height);

    /// <summary>Where a stored dot stands in the upright picture: index = Start + column * ByColumn + row * ByRow.</summary>
    /// <remarks>The number names the sides that the stored first row and first column are: TIFF 6.0, tag 274.</remarks>
    public (long Start, long ByColumn, long ByRow) Steps(int width, int height)
    {
        var (upright, last) = (Size(width, height).Width, Size(width, height).Height - 1L);
        return Number switch
        {
            2 => (upright - 1, -1, upright),                        // top, right
            3 => ((last * upright) + upright - 1, -1, -upright),    // bottom, right
            4 => (last * upright, 1, -upright),                     // bottom, left
            5 => (0, upright, 1),                                   // left, top
            6 => (upright - 1, upright, -1),                        // right, top
            7 => ((last * upright) + upright - 1, -upright, -1),    // right, bottom
            8 => (last * upright, -upright, 1),                     // left, bottom
            _ => (0, 1, upright),
        };
    }

    /// <summary>The upright dots of stored ones, some bytes each; the same array where nothing is to be turned.</summary>
    public byte[] Apply(byte[] stored, int width, int height, int bytesPerDot)
    {
        if (IsNone)
        {
            return stored;
        }

        var turned = new byte[stored.Length];
        var (start, byColumn, byRow) = Steps(width, height);

        // Squares of 64 x 64 dots, so that rows and columns both stay in the processor's cache.
        for (var top = 0; top < height; top += 64)
        {
            for (var left = 0; left < width; left += 64)
            {
                for (var row = top; row < Math.Min(top + 64, height); row++)
                {
                    for (var column = left; column < Math.Min(left + 64, width); column++)
                    {
                        var from = (((long)row * width) + column) * bytesPerDot;
                        var to = (start + (column * byColumn) + (row * byRow)) * bytesPerDot;
                        for (var part = 0; part < bytesPerDot; part++)
                        {
                            turned[to + part] = stored[from + part];
                        }
                    }
                }
            }
        }

        return turned;
    }
}
