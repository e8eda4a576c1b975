using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;

namespace Lampblack.VectorArt;

/// <summary>Reads colours: names, #rgb, #rgba, #rrggbb, #rrggbbaa, rgb(), rgba(), hsl(), hsla() (CSS Color Module Level 4).</summary>
internal static class ColourText
{
    /// <summary>The colour; null where it is none that is known here.</summary>
    public static DrawnColour? Read(string text)
    {
        text = text.Trim();
        if (text.StartsWith('#'))
        {
            return Hex(text[1..]);
        }

        var open = text.IndexOf('(', StringComparison.Ordinal);
        if (open > 0 && text.EndsWith(')'))
        {
            var numbers = text[(open + 1)..^1];
            return text[..open].ToLowerInvariant() switch
            {
                "rgb" or "rgba" => Rgb(numbers),
                "hsl" or "hsla" => Hsl(numbers),
                _ => null,
            };
        }

        return text.Equals("transparent", StringComparison.OrdinalIgnoreCase) ? default(DrawnColour) : ColourNames.Find(text);
    }

    private static DrawnColour? Hex(string digits)
    {
        if (digits.Length is 3 or 4)
        {
            digits = string.Concat(digits.Select(digit => new string(digit, 2)));
        }

        if (digits.Length is not (6 or 8) || !uint.TryParse(digits, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var code))
        {
            return null;
        }

        code = digits.Length == 6 ? (code << 8) | 0xFF : code;
        return new((byte)(code >> 24), (byte)(code >> 16), (byte)(code >> 8), (byte)code / 255.0);
    }

    private static DrawnColour? Rgb(string text) =>
        Parts(text) is { } parts && Channel(parts[0]) is { } red && Channel(parts[1]) is { } green && Channel(parts[2]) is { } blue && Opacity(parts) is { } opacity
            ? new(red, green, blue, opacity)
            : null;

    private static DrawnColour? Hsl(string text)
    {
        if (Parts(text) is not { } parts || Hue(parts[0]) is not { } hue || Share(parts[1]) is not { } saturation || Share(parts[2]) is not { } lightness
            || Opacity(parts) is not { } opacity)
        {
            return null;
        }

        return new(Code(0), Code(8), Code(4), opacity);

        // CSS Color Module Level 4, 7.1: the conversion in its short form.
        byte Code(double place)
        {
            var k = (place + (hue / 30)) % 12;
            var a = saturation * Math.Min(lightness, 1 - lightness);
            return (byte)Math.Round(255 * (lightness - (a * Math.Max(-1, Math.Min(Math.Min(k - 3, 9 - k), 1)))), MidpointRounding.AwayFromZero);
        }
    }

    /// <summary>Three or four parts, with commas or with blanks and a slash.</summary>
    private static List<string>? Parts(string text)
    {
        var parts = text.Split([',', '/', ' ', '\t', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries).ToList();
        return parts.Count is 3 or 4 ? parts : null;
    }

    private static byte? Channel(string part) => Number(part) is { } number
        ? (byte)Math.Round(Math.Clamp(part.EndsWith('%') ? number * 255 / 100 : number, 0, 255), MidpointRounding.AwayFromZero)
        : null;

    private static double? Share(string part) => Number(part) is { } number ? Math.Clamp(number / 100, 0, 1) : null;

    private static double? Opacity(List<string> parts) => parts.Count < 4 ? 1 : OpacityText(parts[3]);

    /// <summary>A number or a percentage, from 0 to 1.</summary>
    public static double? OpacityText(string part) =>
        Number(part) is { } number ? Math.Clamp(part.TrimEnd().EndsWith('%') ? number / 100 : number, 0, 1) : null;

    private static double? Hue(string part)
    {
        var (unit, degrees) = part switch
        {
            _ when part.EndsWith("turn", StringComparison.OrdinalIgnoreCase) => (4, 360.0),
            _ when part.EndsWith("grad", StringComparison.OrdinalIgnoreCase) => (4, 0.9),
            _ when part.EndsWith("rad", StringComparison.OrdinalIgnoreCase) => (3, 180 / Math.PI),
            _ when part.EndsWith("deg", StringComparison.OrdinalIgnoreCase) => (3, 1),
            _ => (0, 1),
        };
        return NumberReader.Single(part[..^unit]) is { } number ? (((number * degrees) % 360) + 360) % 360 : null;
    }

    private static double? Number(string part) => NumberReader.Single(part.TrimEnd().TrimEnd('%'));
}
