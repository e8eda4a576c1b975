using System;
using System.Globalization;

namespace Lampblack.Quantities;

/// <content>Writing a length as another one was written.</content>
public static partial class LengthText
{
    private const int Decimals = 4;

    private const string Fractions = "¼½¾⅛⅜⅝⅞";

    /// <summary>A length in the unit of another one, with at most four decimals; in mm where that unit can't give it to 0.1 µm.</summary>
    /// <param name="written">The other length, whose unit, blank and decimal sign are kept.</param>
    /// <param name="mm">The length.</param>
    /// <returns>The text; null where <paramref name="written"/> is no length, or the length is beyond what can be read.</returns>
    public static string? Rewrite(string written, double mm)
    {
        if (!TryRead(written, out _, out _) || !(Math.Abs(mm) <= LimitMm))
        {
            return null;
        }

        var text = written.Trim();
        var unitAt = text.Length;
        while (unitAt > 0 && !char.IsAsciiDigit(text[unitAt - 1]) && text[unitAt - 1] is not ('.' or ',' or '/') && !Fractions.Contains(text[unitAt - 1], StringComparison.Ordinal))
        {
            unitAt--;
        }

        var wanted = Math.Round((decimal)mm, Decimals, MidpointRounding.AwayFromZero);
        var unit = text[unitAt..];
        var amount = TryFactor(Plain(unit), out var mmPerUnit) ? Math.Round((decimal)mm / mmPerUnit, Decimals, MidpointRounding.AwayFromZero) : 0;

        // Against the length itself: what two roundings leave may be twice as far off.
        if (mmPerUnit == 0 || Math.Abs((amount * mmPerUnit) - (decimal)mm) >= 0.00005m)
        {
            (amount, unit) = (wanted, " mm");
        }

        var point = (amount + 0m).ToString("0.####", CultureInfo.InvariantCulture);
        var comma = point.Replace('.', ',');
        return written.Contains(',', StringComparison.Ordinal) && TryRead(comma + unit, out _, out _) ? comma + unit : point + unit;
    }
}
