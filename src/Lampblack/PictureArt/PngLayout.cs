using System;
using System.Collections.Immutable;

namespace Lampblack.PictureArt;

/// <summary>Colour types of PNG (ISO/IEC 15948, 6.1).</summary>
internal enum PngColours
{
    Grey = 0,
    Rgb = 2,
    Palette = 3,
    GreyAlpha = 4,
    Rgba = 6,
}

/// <summary>The parts of a PNG that its dots are made of.</summary>
/// <param name="Header">What it says of its picture.</param>
/// <param name="Colours">What its samples are.</param>
/// <param name="BitDepth">Bits of a sample: 1, 2, 4, 8 or 16.</param>
/// <param name="IsInterlaced">Whether it comes in the seven passes of Adam7.</param>
/// <param name="Palette">Three bytes for each colour.</param>
/// <param name="Transparency">Alpha of the palette's first colours, or the one transparent colour in two bytes for each sample.</param>
/// <param name="Packed">The pieces of the packed rows, in order.</param>
/// <param name="Colour">What turns its codes into sRGB.</param>
internal sealed record PngLayout(
    PictureHeader Header,
    PngColours Colours,
    int BitDepth,
    bool IsInterlaced,
    ReadOnlyMemory<byte> Palette,
    ReadOnlyMemory<byte> Transparency,
    ImmutableArray<ReadOnlyMemory<byte>> Packed,
    PngColour Colour)
{
    public int Samples => Colours switch { PngColours.Rgb => 3, PngColours.GreyAlpha => 2, PngColours.Rgba => 4, _ => 1 };

    /// <summary>Bytes of an unpacked row of some dots, without its filter's byte.</summary>
    public int RowBytes(int width) => (int)((((long)width * Samples * BitDepth) + 7) / 8);

    /// <summary>Bytes from a sample to its left neighbour's, for the filters; 1 where dots are smaller than a byte.</summary>
    public int FilterStep => Math.Max(1, Samples * BitDepth / 8);

    /// <summary>How the seven passes step (ISO/IEC 15948, 8.2): first column, first row, steps of both.</summary>
    public static ImmutableArray<(int Column, int Row, int ColumnStep, int RowStep)> Passes { get; } =
        [(0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4), (1, 0, 2, 2), (0, 1, 1, 2)];

    /// <summary>All bytes that come out of the packed pieces.</summary>
    public long UnpackedBytes
    {
        get
        {
            if (!IsInterlaced)
            {
                return Header.Height * (1L + RowBytes(Header.Width));
            }

            var sum = 0L;
            foreach (var pass in Passes)
            {
                var (columns, rows) = Within(pass);
                sum += columns == 0 ? 0 : rows * (1L + RowBytes(columns));
            }

            return sum;
        }
    }

    /// <summary>Columns and rows of one pass.</summary>
    public (int Columns, int Rows) Within((int Column, int Row, int ColumnStep, int RowStep) pass) => (
        (Header.Width - pass.Column + pass.ColumnStep - 1) / pass.ColumnStep,
        (Header.Height - pass.Row + pass.RowStep - 1) / pass.RowStep);

    /// <summary>Colour types with the depths that each may have (ISO/IEC 15948, table 11.1).</summary>
    public static bool Exists(int colourType, int bitDepth) => colourType switch
    {
        0 => bitDepth is 1 or 2 or 4 or 8 or 16,
        3 => bitDepth is 1 or 2 or 4 or 8,
        2 or 4 or 6 => bitDepth is 8 or 16,
        _ => false,
    };

    /// <summary>How dots are handed on: grey as one byte, and with alpha only where something is transparent.</summary>
    public static DotForm FormOf(PngColours colours, ReadOnlySpan<byte> palette, ReadOnlySpan<byte> transparency)
    {
        if (colours is PngColours.GreyAlpha or PngColours.Rgba || transparency.Length > 0)
        {
            return DotForm.Rgba;
        }

        return colours == PngColours.Grey || (colours == PngColours.Palette && IsGrey(palette)) ? DotForm.Grey : DotForm.Rgb;
    }

    private static bool IsGrey(ReadOnlySpan<byte> palette)
    {
        for (var index = 0; index + 2 < palette.Length; index += 3)
        {
            if (palette[index] != palette[index + 1] || palette[index] != palette[index + 2])
            {
                return false;
            }
        }

        return true;
    }
}
