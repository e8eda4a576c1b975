using System;

namespace Lampblack.PictureArt;

/// <summary>The colours of the legends, to be painted under the field: white where the paper stays bare, and no black mixed into any edge.</summary>
/// <remarks>Row 0 is at the top. Legends' colours reach a little beyond their edges, below the field, which carries all edges.</remarks>
public sealed class ArtColours
{
    private readonly byte[] _rgb;
    private readonly (int Width, int Height) _source;

    internal ArtColours(int widthPx, int heightPx, int sourceDotsPerPx, (int Width, int Height) source, byte[] rgb)
    {
        WidthPx = widthPx;
        HeightPx = heightPx;
        SourceDotsPerPx = sourceDotsPerPx;
        _source = source;
        _rgb = rgb;
    }

    /// <summary>Dots of a row.</summary>
    public int WidthPx { get; }

    /// <summary>Rows.</summary>
    public int HeightPx { get; }

    /// <summary>Dots of the picture's side for one of these: 1, or more for pictures of over 10 million dots (an A4 page at 300 to the inch), where the strongest one is kept.</summary>
    public int SourceDotsPerPx { get; }

    /// <summary>Red, green, blue (sRGB codes) of each dot, row by row.</summary>
    public ReadOnlyMemory<byte> Rgb => _rgb;

    /// <summary>How wide this is where the artwork has a width in mm; the last column may stick out.</summary>
    public double WidthMm(double artWidthMm) => artWidthMm * WidthPx * SourceDotsPerPx / _source.Width;

    /// <summary>How high this is where the artwork has a width in mm; the last row may stick out.</summary>
    public double HeightMm(double artWidthMm) => artWidthMm * HeightPx * SourceDotsPerPx / _source.Width;
}
