using System.Collections.Generic;
using System.Globalization;
using Lampblack.Geometry;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>Draws a vernier. Along it runs the scale; across it, lines of the front come first and those of the back reach on from their middle.</summary>
internal static class VernierDrawing
{
    /// <summary>From the end of a vernier to its place.</summary>
    public const double BeforeMm = 5;

    /// <summary>From its numbers' foot to the end of the front's lines.</summary>
    public const double BelowMm = 3.4;

    /// <summary>Width of the name before an upright one's lines; an upright one has it above.</summary>
    public const double AcrossNameMm = 4.4;

    public const double AcrossWidthMm = AcrossNameMm + LengthMm;

    public const double AcrossHeightMm = BelowMm + AboveMm;

    public const double UprightWidthMm = AcrossHeightMm;

    public const double UprightHeightMm = LengthMm + 4.4;

    private const double LengthMm = 19.4;

    // The back's numbers, with side 2 three millimetres up.
    private const double AboveMm = 13.6;

    private const double LineMm = 0.18;
    private const double FrontLineMm = 5;
    private const double BackFromMm = 2.5;
    private const double BackToMm = 7.5;
    private const double DigitMm = 2;
    private const double NameMm = 3;

    // The whole millimetres of which side 2 may be off, and the nine that the back's lines span.
    private const int FirstLine = (int)Vernier.LowestMm;
    private const int LastLine = (int)Vernier.HighestMm + 9;

    /// <summary>The front's lines, numbers and name.</summary>
    public static Region<SheetSpace> Front(Vernier vernier)
    {
        var shapes = new List<Region<SheetSpace>>();
        for (var line = FirstLine; line <= LastLine; line++)
        {
            var alongMm = (line - Vernier.InRegisterMm) * Vernier.FrontPitchMm;
            // Every third: next to each other the numbers would be too small to read.
            var isNumbered = line <= Vernier.HighestMm && line % 3 == 2;
            shapes.Add(Line(vernier, alongMm, isNumbered ? -0.9 : 0, FrontLineMm));
            if (isNumbered)
            {
                shapes.Add(Digits(vernier, line, alongMm, -2.3));
            }
        }

        var name = vernier.IsUp
            ? new Point<SheetSpace>(vernier.Place.XMm + 2.5, vernier.Box.TopMm - (NameMm / 2) - 0.2)
            : new(vernier.Box.LeftMm + 2, vernier.Place.YMm + 2.5);
        shapes.Add(SheetText.Centred(vernier.Name, NameMm, name, Side.Front));
        return Region<SheetSpace>.Union(shapes);
    }

    /// <summary>The back's lines and numbers, which read right through the paper.</summary>
    public static Region<SheetSpace> Back(Vernier vernier)
    {
        var shapes = new List<Region<SheetSpace>>();
        for (var line = 0; line <= 10; line++)
        {
            var alongMm = line * Vernier.BackPitchMm;
            shapes.Add(Line(vernier, alongMm, line == 0 ? 0.6 : BackFromMm, line % 5 == 0 ? BackToMm + 0.7 : BackToMm));
            if (line % 5 == 0)
            {
                shapes.Add(Digits(vernier, line, alongMm, BackToMm + 2.1));
            }
        }

        return Region<SheetSpace>.Union(shapes);
    }

    private static Region<SheetSpace> Line(Vernier vernier, double alongMm, double fromMm, double toMm)
    {
        var place = vernier.Place;
        var (along, length) = (alongMm - (LineMm / 2), toMm - fromMm);
        return Region<SheetSpace>.Rectangle(vernier.IsUp
            ? new(place.XMm + fromMm, place.YMm + along, length, LineMm)
            : new(place.XMm + along, place.YMm + fromMm, LineMm, length));
    }

    private static Region<SheetSpace> Digits(Vernier vernier, int number, double alongMm, double acrossMm)
    {
        var place = vernier.Place;
        return SheetText.Centred(
            number.ToString(CultureInfo.InvariantCulture),
            DigitMm,
            vernier.IsUp ? new(place.XMm + acrossMm, place.YMm + alongMm) : new(place.XMm + alongMm, place.YMm + acrossMm),
            Side.Front);
    }
}
