using System;
using System.Globalization;

namespace Lampblack.Quantities;

/// <summary>A colour as screens show it: red, green and blue in sRGB (IEC 61966-2-1), each from 0 to 255.</summary>
/// <param name="Red">Red.</param>
/// <param name="Green">Green.</param>
/// <param name="Blue">Blue.</param>
public readonly record struct ScreenColour(byte Red, byte Green, byte Blue)
{
    /// <summary>Reads <c>#rrggbb</c> or <c>#rgb</c>, any case.</summary>
    /// <param name="text">As written.</param>
    /// <returns>The colour, or null where it is not written so.</returns>
    public static ScreenColour? Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var digits = text.Length is 4 or 7 && text[0] == '#' ? text[1..] : string.Empty;
        if (!int.TryParse(digits, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var number))
        {
            return null;
        }

        return digits.Length == 6
            ? new((byte)(number >> 16), (byte)(number >> 8), (byte)number)
            : new((byte)((number >> 8) * 17), (byte)(((number >> 4) & 15) * 17), (byte)((number & 15) * 17));
    }

    /// <summary>As it is written: <c>#rrggbb</c>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"#{Red:x2}{Green:x2}{Blue:x2}");
}
