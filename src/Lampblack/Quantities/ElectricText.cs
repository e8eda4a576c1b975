using System;
using System.Globalization;

namespace Lampblack.Quantities;

/// <summary>Reads volts and amperes as people write them: "12 V", "4,5V", "500 mA".</summary>
public static class ElectricText
{
    private const int LongestWritten = 20;

    /// <summary>Volts; nothing where the text says none.</summary>
    /// <param name="written">Such as <c>12 V</c>; a plain number is volts.</param>
    public static double? Volts(string written) => Read(written, "V");

    /// <summary>Amperes; nothing where the text says none.</summary>
    /// <param name="written">Such as <c>2 A</c> or <c>500 mA</c>; a plain number is amperes.</param>
    public static double? Amperes(string written) => Read(written, "A");

    private static double? Read(string written, string unit)
    {
        ArgumentNullException.ThrowIfNull(written);
        if (written.Length > LongestWritten)
        {
            return null;
        }

        var text = written.Trim().Replace(',', '.');
        var factor = 1m;
        if (text.EndsWith(unit, StringComparison.OrdinalIgnoreCase))
        {
            text = text[..^1];
            if (text.EndsWith('m'))
            {
                (text, factor) = (text[..^1], 0.001m);
            }
        }

        return decimal.TryParse(text.TrimEnd(), NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var value) ? (double)(value * factor) : null;
    }
}
