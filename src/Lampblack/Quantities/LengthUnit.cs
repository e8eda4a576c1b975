using System;
using System.Globalization;

namespace Lampblack.Quantities;

/// <summary>In which unit a maker reads lengths.</summary>
public enum LengthUnit
{
    /// <summary>Millimetres.</summary>
    Millimetre,

    /// <summary>Inches.</summary>
    Inch,
}

/// <summary>Lengths in the maker's unit, for people.</summary>
public static class LengthWords
{
    private const double MmPerInch = 25.4;
    private const int Parts = 64;

    /// <summary>For a ruler: to 0.1 mm, or to 1/64 inch (at most 0.2 mm off), reduced.</summary>
    /// <param name="mm">The length.</param>
    /// <param name="unit">The unit.</param>
    public static string ForRuler(double mm, LengthUnit unit) => unit == LengthUnit.Millimetre
        ? string.Create(CultureInfo.InvariantCulture, $"{mm:0.#} mm")
        : $"{Fraction((long)Math.Round(mm / MmPerInch * Parts, MidpointRounding.AwayFromZero))} in";

    /// <summary>For a caliper or a drawing: to 0.01 mm, or to 0.001 inch.</summary>
    /// <param name="mm">The length.</param>
    /// <param name="unit">The unit.</param>
    public static string Exact(double mm, LengthUnit unit) => $"{Number(mm, unit)} {Name(unit)}";

    /// <summary>The same without its unit, for columns whose head names it.</summary>
    /// <param name="mm">The length.</param>
    /// <param name="unit">The unit.</param>
    public static string Number(double mm, LengthUnit unit) => unit == LengthUnit.Millimetre
        ? (mm + 0.0).ToString("0.##", CultureInfo.InvariantCulture)
        : (mm / MmPerInch).ToString("0.000", CultureInfo.InvariantCulture);

    /// <summary>The unit's sign.</summary>
    /// <param name="unit">The unit.</param>
    public static string Name(LengthUnit unit) => unit == LengthUnit.Millimetre ? "mm" : "in";

    /// <summary>Wire, strip and the like: metres, or feet.</summary>
    /// <param name="mm">The length.</param>
    /// <param name="unit">The unit.</param>
    public static string Long(double mm, LengthUnit unit) => unit == LengthUnit.Millimetre
        ? string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(mm / 100) / 10:0.0} m")
        : string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(mm / MmPerInch / 12 * 2) / 2:0.0} ft");

    private static string Fraction(long parts)
    {
        var (whole, rest) = (parts / Parts, parts % Parts);
        var below = Parts;
        while (rest != 0 && rest % 2 == 0)
        {
            (rest, below) = (rest / 2, below / 2);
        }

        return rest == 0 ? Digits(whole) : whole == 0 ? $"{Digits(rest)}/{Digits(below)}" : $"{Digits(whole)} {Digits(rest)}/{Digits(below)}";
    }

    private static string Digits(long number) => number.ToString(CultureInfo.InvariantCulture);
}
