using System;

namespace Lampblack.Imaging;

/// <summary>A finished picture in sRGB that knows its true size. Row 0 is at the top.</summary>
public sealed class Picture
{
    internal Picture(int widthPx, int heightPx, double mmPerDot, byte[] rgba)
    {
        WidthPx = widthPx;
        HeightPx = heightPx;
        MmPerDot = mmPerDot;
        Rgba = rgba;
    }

    /// <summary>Dots in a row.</summary>
    public int WidthPx { get; }

    /// <summary>Rows.</summary>
    public int HeightPx { get; }

    /// <summary>Side of a dot, in mm.</summary>
    public double MmPerDot { get; }

    /// <summary>Four bytes per dot, row by row from the top: red, green, blue (sRGB codes) and 255, as nothing is transparent.</summary>
    public ReadOnlyMemory<byte> Rgba { get; }

    /// <summary>The codes at a dot; column from the left, row from the top.</summary>
    public (byte Red, byte Green, byte Blue) this[int columnPx, int rowPx]
    {
        get
        {
            ArgumentOutOfRangeException.ThrowIfNegative(columnPx);
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(columnPx, WidthPx);
            var dot = Rgba.Span.Slice(((rowPx * WidthPx) + columnPx) * 4, 4);
            return (dot[0], dot[1], dot[2]);
        }
    }
}
