using System;
using System.Collections.Immutable;
using System.Globalization;
using Lampblack.Imaging;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>
/// The sheet with each mark's misregister as an arrow, 50 times as long as it is: solid with a head where the mark was used, broken and with a square around its place
/// where it was left out. Below, an arrow of 0.1 mm in the same scale.
/// </summary>
public static class MisregisterPicture
{
    /// <summary>How many times as long as they are the arrows are drawn.</summary>
    public const int Times = 50;

    private const double PxPerMm = 4;
    private const double HeadMm = 2;

    /// <summary>Room around the sheet: an arrow of 0.6 mm.</summary>
    private const double AroundMm = 30;

    private static readonly (byte Red, byte Green, byte Blue) _ink = (40, 40, 40);
    private static readonly (byte Red, byte Green, byte Blue) _faint = (190, 190, 190);
    private static readonly (byte Red, byte Green, byte Blue) _used = (0, 90, 160);
    private static readonly (byte Red, byte Green, byte Blue) _leftOut = (200, 80, 0);

    /// <summary>Draws it in front view.</summary>
    /// <param name="paper">The paper.</param>
    /// <param name="marks">All marks of the sheet.</param>
    /// <param name="readings">What was read of them.</param>
    public static Picture Of(PaperSize paper, ImmutableArray<RegisterMark> marks, ImmutableArray<MarkReading> readings)
    {
        ArgumentNullException.ThrowIfNull(paper);
        var drawing = new LineDrawing(paper.WidthMm + (2 * AroundMm), paper.HeightMm + (2 * AroundMm), PxPerMm);
        Square(drawing, AroundMm + (paper.WidthMm / 2), AroundMm + (paper.HeightMm / 2), (paper.WidthMm / 2) - 0.5, (paper.HeightMm / 2) - 0.5, 0.3, _faint);
        foreach (var mark in marks)
        {
            var (x, y) = (AroundMm + mark.Place.XMm, AroundMm + mark.Place.YMm);
            drawing.Line(x - 1.5, y, x + 1.5, y, 0.2, _faint);
            drawing.Line(x, y - 1.5, x, y + 1.5, 0.2, _faint);
            drawing.Number(mark.Number.ToString(CultureInfo.InvariantCulture), x + 2.2, y - 8.5, 3, _ink);
        }

        foreach (var mark in readings)
        {
            Arrow(drawing, AroundMm + mark.Place.XMm, AroundMm + mark.Place.YMm, mark.RightMm * Times, mark.UpMm * Times, mark.IsUsed);
            if (!mark.IsUsed)
            {
                Square(drawing, AroundMm + mark.Place.XMm, AroundMm + mark.Place.YMm, 4, 4, 0.6, _leftOut);
            }
        }

        drawing.Number("0.1", 12, 4, 3, _ink);
        Arrow(drawing, 20, 5.5, 0.1 * Times, 0, isUsed: true);
        return drawing.Picture;
    }

    private static void Arrow(LineDrawing drawing, double x, double y, double right, double up, bool isUsed)
    {
        var length = Math.Sqrt((right * right) + (up * up));
        var colour = isUsed ? _used : _leftOut;
        if (length < 0.2)
        {
            drawing.Line(x, y, x, y, 1, colour);
            return;
        }

        var (u, v) = (right / length, up / length);
        for (var from = 0.0; from < length; from += isUsed ? length : 3)
        {
            var to = isUsed ? length : Math.Min(length, from + 1.8);
            drawing.Line(x + (u * from), y + (v * from), x + (u * to), y + (v * to), 0.6, colour);
        }

        var head = Math.Min(HeadMm, length / 2);
        foreach (var side in new[] { -0.5, 0.5 })
        {
            drawing.Line(x + right, y + up, x + right - (head * (u - (side * v))), y + up - (head * (v + (side * u))), 0.6, colour);
        }
    }

    private static void Square(LineDrawing drawing, double x, double y, double halfWidth, double halfHeight, double widthMm, (byte Red, byte Green, byte Blue) colour)
    {
        drawing.Line(x - halfWidth, y - halfHeight, x + halfWidth, y - halfHeight, widthMm, colour);
        drawing.Line(x + halfWidth, y - halfHeight, x + halfWidth, y + halfHeight, widthMm, colour);
        drawing.Line(x + halfWidth, y + halfHeight, x - halfWidth, y + halfHeight, widthMm, colour);
        drawing.Line(x - halfWidth, y + halfHeight, x - halfWidth, y - halfHeight, widthMm, colour);
    }
}
