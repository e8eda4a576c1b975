using System;
using System.Collections.Generic;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Lampblack.Quantities;

/// <summary>Reads lengths the way people write them, in mm, cm, m, inches, points and micrometres.</summary>
/// <remarks>
/// 1 in is exactly 25.4 mm (international yard and pound agreement, 1959; ISO 80000-3). 1 pt is 1/72 in, the point of PDF (ISO 32000-1, 8.3.2.3).
/// Arithmetic is decimal, so that <c>2 3/4 in</c> is the number nearest to 69.85 and not a neighbour of it.
/// </remarks>
public static partial class LengthText
{
    /// <summary>The longest length that is believed, in mm: 100 m. Anything beyond is a slip of the pen.</summary>
    public const double LimitMm = 1e5;

    private const int LongestWritten = 40;

    private const string KnownUnits = "mm, cm, m, in, \", pt, um";

    private static readonly Dictionary<string, decimal> MmPerUnit = new(StringComparer.Ordinal)
    {
        ["mm"] = 1m,
        ["cm"] = 10m,
        ["m"] = 1000m,
        ["in"] = 25.4m,
        ["inch"] = 25.4m,
        ["inches"] = 25.4m,
        ["\""] = 25.4m,
        ["um"] = 0.001m,
    };

    /// <summary>Reads a length. A plain number is in mm; comma and point both part the decimals; inches may be fractions.</summary>
    /// <param name="written">The text, such as <c>12</c>, <c>6,35 mm</c>, <c>0.25in</c> or <c>2 3/4"</c>.</param>
    /// <param name="mm">The length in mm, from -<see cref="LimitMm"/> to <see cref="LimitMm"/>; 0 where it can't be read.</param>
    /// <param name="problem">Empty, or the end of a sentence whose subject is the text: <c>has no unit that is known: …</c>.</param>
    /// <returns>Whether the text is a length.</returns>
    public static bool TryRead(string written, out double mm, out string problem)
    {
        mm = 0;
        var text = written.Length > LongestWritten ? written[..(LongestWritten + 1)] : Plain(written);
        if (text.Length == 0)
        {
            problem = "is empty";
            return false;
        }

        if (text.Length > LongestWritten)
        {
            problem = "is too long to be a length";
            return false;
        }

        var unitAt = text.Length;
        while (unitAt > 0 && !char.IsAsciiDigit(text[unitAt - 1]) && text[unitAt - 1] is not ('.' or ',' or '/'))
        {
            unitAt--;
        }

        var number = text[..unitAt].Trim();
        var unit = text[unitAt..].Trim();
        if (number.Length == 0)
        {
            problem = "has no number";
            return false;
        }

        if (!TryFactor(unit, out var mmPerUnit))
        {
            problem = $"has no unit that is known: {KnownUnits}";
            return false;
        }

        if (!TryAmount(number, unit, mmPerUnit, out var numerator, out var denominator, out problem))
        {
            return false;
        }

        // Compared before multiplying, because decimal overflows with an exception.
        var limit = (decimal)LimitMm * denominator / mmPerUnit;
        if (Math.Abs(numerator) > limit)
        {
            problem = "is beyond 100 m";
            return false;
        }

        mm = (double)(numerator * mmPerUnit / denominator);
        return true;
    }

    /// <summary>One spelling for each sign: plain blanks and minus, one inch mark, one letter for micro, vulgar fractions as digits.</summary>
    private static string Plain(string written)
    {
        var plain = new StringBuilder(written.Length);
        foreach (var c in written)
        {
            plain.Append(c switch
            {
                '\u00A0' or '\u2007' or '\u2009' or '\u202F' or '\t' => " ",
                '\u2212' => "-",
                '\u2033' or '\u201D' or '\u201C' => "\"",
                '\u00B5' or '\u03BC' => "u",
                '\u2044' => "/",
                '¼' => " 1/4",
                '½' => " 1/2",
                '¾' => " 3/4",
                '⅛' => " 1/8",
                '⅜' => " 3/8",
                '⅝' => " 5/8",
                '⅞' => " 7/8",
                _ => c.ToString(),
            });
        }

        return plain.ToString().Trim();
    }

    private static bool TryFactor(string unit, out decimal mmPerUnit)
    {
        // Capitals don't matter, but a lone M could be anything.
        var word = unit.Length == 1 ? unit : unit.ToLowerInvariant();
        if (word.Length == 0)
        {
            mmPerUnit = 1m;
            return true;
        }

        if (word is "pt")
        {
            mmPerUnit = 25.4m / 72m;
            return true;
        }

        return MmPerUnit.TryGetValue(word, out mmPerUnit);
    }

    private static bool TryAmount(string number, string unit, decimal mmPerUnit, out decimal numerator, out decimal denominator, out string problem)
    {
        numerator = 0;
        denominator = 1;
        if (!number.Contains('/', StringComparison.Ordinal))
        {
            return TryDecimal(number, unit, mmPerUnit, out numerator, out problem);
        }

        var fraction = Fraction().Match(number);
        if (!fraction.Success || Digits(fraction.Groups["bottom"].Value) == 0)
        {
            problem = "is not a fraction such as 1/4 or 2 3/4";
            return false;
        }

        denominator = Digits(fraction.Groups["bottom"].Value);
        numerator = (Digits(fraction.Groups["whole"].Value) * denominator) + Digits(fraction.Groups["top"].Value);
        numerator = fraction.Groups["sign"].Value == "-" ? -numerator : numerator;

        // Nobody writes a quarter of a millimetre so; most likely inches were meant.
        problem = unit.Length == 0 ? "is a fraction without a unit: add in or mm" : "";
        return unit.Length > 0;
    }

    private static bool TryDecimal(string number, string unit, decimal mmPerUnit, out decimal value, out string problem)
    {
        value = 0;
        var parts = DecimalNumber().Match(number);
        if (!parts.Success)
        {
            problem = number.Contains(',', StringComparison.Ordinal) && number.Contains('.', StringComparison.Ordinal)
                ? "has both a comma and a point; write one of them, for the decimals"
                : "is not one number with a unit";
            return false;
        }

        var whole = parts.Groups["whole"].Value;
        var decimals = parts.Groups["decimals"].Value;
        if (parts.Groups["mark"].Value == "," && decimals.Length == 3 && whole.Length is >= 1 and <= 3 && whole[0] != '0')
        {
            var shown = unit.Length == 0 ? "mm" : unit;
            problem = $"can be read in two ways, as {whole}.{decimals} {shown} or as {whole}{decimals} {shown}; write it without the comma";
            return false;
        }

        if (!decimal.TryParse($"0{whole}.{decimals}0", NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value)
            || value > (decimal)LimitMm / mmPerUnit)
        {
            problem = "is beyond 100 m";
            return false;
        }

        value = parts.Groups["sign"].Value == "-" ? -value : value;
        problem = "";
        return true;
    }

    private static decimal Digits(string digits) =>
        digits.Length == 0 ? 0 : decimal.Parse(digits, NumberStyles.None, CultureInfo.InvariantCulture);

    // Nine digits are far more than any ruler has, and keep the products below decimal's limit.
    [GeneratedRegex("^(?<sign>[+-]?)(?:(?<whole>[0-9]{1,9})[ -] *)?(?<top>[0-9]{1,9}) ?/ ?(?<bottom>[0-9]{1,9})$", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex Fraction();

    [GeneratedRegex("^(?<sign>[+-]?) ?(?=[.,]?[0-9])(?<whole>[0-9]*)(?:(?<mark>[.,])(?<decimals>[0-9]+))?$", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex DecimalNumber();
}
