using System;
using System.Globalization;

namespace Lampblack.Cli.Commands;

/// <summary>Reads the length that <c>--spread</c> takes.</summary>
internal static class SpreadText
{
    /// <summary>Reads a length: a plain number is in mm; a unit may be mm, in or um.</summary>
    /// <param name="written">The text, such as <c>0.5</c>, <c>0,5 mm</c> or <c>0.02 in</c>.</param>
    /// <param name="mm">The length in mm.</param>
    /// <param name="problem">The end of a sentence where it cannot be read.</param>
    internal static bool TryRead(string written, out double mm, out string problem)
    {
        string text = written.Trim();
        double mmPerUnit = 1;
        foreach ((string unit, double factor) in new[] { ("mm", 1.0), ("in", 25.4), ("\"", 25.4), ("um", 0.001) })
        {
            if (text.EndsWith(unit, StringComparison.OrdinalIgnoreCase))
            {
                (text, mmPerUnit) = (text[..^unit.Length].TrimEnd(), factor);
                break;
            }
        }

        problem = "is not a length such as 0.5, \"0.5 mm\" or \"0.02 in\"";
        bool isNumber = double.TryParse(text.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double number);
        mm = number * mmPerUnit;
        return isNumber && double.IsFinite(mm);
    }
}
