using System;
using Lampblack.Bitmaps;

namespace Lampblack.Formats;

/// <summary>Dots that are printed in one ink.</summary>
public sealed class Stencil : DotContent
{
    private readonly Lazy<long> _count;

    /// <param name="dots">The dots; the set ones are printed.</param>
    public Stencil(BitRaster dots)
    {
        ArgumentNullException.ThrowIfNull(dots);
        Dots = dots;
        _count = new(dots.Count);
    }

    /// <summary>The dots; the set ones are printed.</summary>
    public BitRaster Dots { get; }

    /// <inheritdoc/>
    public override int WidthDots => Dots.WidthDots;

    /// <inheritdoc/>
    public override int HeightDots => Dots.HeightDots;

    /// <inheritdoc/>
    public override double PrintedDots => _count.Value;

    private protected override byte[] Bytes() => BytesOf(Dots);

    private protected override PackedImage Pack() => PackedImage.Of(this);
}
