using System;
using System.Buffers;

namespace Lampblack.Imaging;

/// <summary>A finished picture in sRGB that knows its true size. Row 0 is at the top.</summary>
/// <remarks>Disposing gives its room back to a pool; then it must not be used again. One that is not disposed does no harm.</remarks>
public sealed class Picture : IDisposable
{
    private byte[] _rgba;

    /// <summary>A picture whose codes are still to be written into <see cref="Codes"/>.</summary>
    internal Picture(int widthPx, int heightPx, double mmPerDot)
    {
        WidthPx = widthPx;
        HeightPx = heightPx;
        MmPerDot = mmPerDot;
        _rgba = ArrayPool<byte>.Shared.Rent(checked(widthPx * heightPx * 4));
    }

    /// <summary>Dots in a row.</summary>
    public int WidthPx { get; }

    /// <summary>Rows.</summary>
    public int HeightPx { get; }

    /// <summary>Side of a dot, in mm.</summary>
    public double MmPerDot { get; }

    /// <summary>Four bytes per dot, row by row from the top: red, green, blue (sRGB codes) and 255, as nothing is transparent.</summary>
    public ReadOnlyMemory<byte> Rgba => _rgba.AsMemory(0, WidthPx * HeightPx * 4);

    internal Span<byte> Codes => _rgba.AsSpan(0, WidthPx * HeightPx * 4);

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

    /// <summary>A part of the picture.</summary>
    /// <param name="leftPx">Its first column.</param>
    /// <param name="topPx">Its first row.</param>
    /// <param name="widthPx">Columns.</param>
    /// <param name="heightPx">Rows.</param>
    /// <exception cref="ArgumentOutOfRangeException">It reaches out of the picture.</exception>
    public Picture Cut(int leftPx, int topPx, int widthPx, int heightPx)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(leftPx);
        ArgumentOutOfRangeException.ThrowIfNegative(topPx);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(leftPx + widthPx, WidthPx);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(topPx + heightPx, HeightPx);
        var cut = new Picture(widthPx, heightPx, MmPerDot);
        for (var row = 0; row < heightPx; row++)
        {
            Codes.Slice((((topPx + row) * WidthPx) + leftPx) * 4, widthPx * 4).CopyTo(cut.Codes[(row * widthPx * 4)..]);
        }

        return cut;
    }

    /// <summary>Gives the room back.</summary>
    public void Dispose()
    {
        if (_rgba.Length > 0)
        {
            ArrayPool<byte>.Shared.Return(_rgba);
            _rgba = [];
        }
    }
}
