using System;
using Lampblack.Imaging;

namespace Lampblack.Photos;

/// <summary>Straight strokes with round ends on white, and digits made of them. Places in mm, y upwards.</summary>
internal sealed class LineDrawing
{
    // Which of seven strokes a digit has: top, upper right, lower right, bottom, lower left, upper left, middle.
    private static readonly int[] Digits = [0b0111111, 0b0000110, 0b1011011, 0b1001111, 0b1100110, 0b1101101, 0b1111101, 0b0000111, 0b1111111, 0b1101111];

    private static readonly (double X1, double Y1, double X2, double Y2)[] Strokes =
        [(0, 2, 1, 2), (1, 2, 1, 1), (1, 1, 1, 0), (0, 0, 1, 0), (0, 0, 0, 1), (0, 1, 0, 2), (0, 1, 1, 1)];

    private readonly double _pxPerMm;

    public LineDrawing(double widthMm, double heightMm, double pxPerMm)
    {
        _pxPerMm = pxPerMm;
        Picture = new((int)Math.Ceiling(widthMm * pxPerMm), (int)Math.Ceiling(heightMm * pxPerMm), 1 / pxPerMm);
        Picture.Codes.Fill(255);
    }

    public Picture Picture { get; }

    public void Line(double fromX, double fromY, double toX, double toY, double widthMm, (byte Red, byte Green, byte Blue) colour)
    {
        var (x1, y1, x2, y2) = (fromX * _pxPerMm, Picture.HeightPx - (fromY * _pxPerMm), toX * _pxPerMm, Picture.HeightPx - (toY * _pxPerMm));
        var half = Math.Max(0.5, widthMm * _pxPerMm / 2);
        var length = ((x2 - x1) * (x2 - x1)) + ((y2 - y1) * (y2 - y1));
        var codes = Picture.Codes;
        for (var row = Math.Max(0, (int)(Math.Min(y1, y2) - half - 1)); row <= Math.Min(Picture.HeightPx - 1, (int)(Math.Max(y1, y2) + half + 1)); row++)
        {
            for (var column = Math.Max(0, (int)(Math.Min(x1, x2) - half - 1)); column <= Math.Min(Picture.WidthPx - 1, (int)(Math.Max(x1, x2) + half + 1)); column++)
            {
                var (x, y) = (column + 0.5 - x1, row + 0.5 - y1);
                var along = length > 0 ? Math.Clamp(((x * (x2 - x1)) + (y * (y2 - y1))) / length, 0, 1) : 0;
                var (dx, dy) = (x - (along * (x2 - x1)), y - (along * (y2 - y1)));
                var cover = Math.Clamp(half + 0.5 - Math.Sqrt((dx * dx) + (dy * dy)), 0, 1);
                if (cover > 0)
                {
                    var dot = codes.Slice(((row * Picture.WidthPx) + column) * 4, 3);
                    dot[0] = Mixed(dot[0], colour.Red, cover);
                    dot[1] = Mixed(dot[1], colour.Green, cover);
                    dot[2] = Mixed(dot[2], colour.Blue, cover);
                }
            }
        }
    }

    /// <summary>A whole number, or one with a point, its lower left corner at a place.</summary>
    public void Number(string digits, double leftMm, double bottomMm, double heightMm, (byte Red, byte Green, byte Blue) colour)
    {
        var unit = heightMm / 2;
        foreach (var digit in digits)
        {
            if (digit == '.')
            {
                Line(leftMm, bottomMm, leftMm, bottomMm, 0.5, colour);
                leftMm += unit * 0.6;
                continue;
            }

            for (var stroke = 0; stroke < Strokes.Length; stroke++)
            {
                if (((Digits[digit - '0'] >> stroke) & 1) != 0)
                {
                    var (fromX, fromY, toX, toY) = Strokes[stroke];
                    Line(leftMm + (fromX * unit), bottomMm + (fromY * unit), leftMm + (toX * unit), bottomMm + (toY * unit), 0.3, colour);
                }
            }

            leftMm += unit * 1.6;
        }
    }

    private static byte Mixed(byte below, byte above, double cover) => Srgb.Code((Srgb.Decode(below) * (1 - cover)) + (Srgb.Decode(above) * cover));
}
