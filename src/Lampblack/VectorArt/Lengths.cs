using System;
using System.Linq;

namespace Lampblack.VectorArt;

/// <summary>Reads lengths into px, of which 96 make an inch (CSS Values and Units Module Level 3, 5.2).</summary>
internal static class Lengths
{
    public const double MmPerPx = 25.4 / 96;

    /// <summary>A length in px; null where it is none.</summary>
    /// <param name="text">As the file has it.</param>
    /// <param name="fontSize">What an em is, in px.</param>
    /// <param name="whole">What 100 % is, in px; null where percentages mean nothing.</param>
    public static double? Read(string? text, double fontSize, double? whole)
    {
        if (string.IsNullOrWhiteSpace(text))
        {
            return null;
        }

        var reader = new NumberReader(text);
        reader.SkipBlanks();
        if (!reader.TryNumber(out var number))
        {
            return null;
        }

        double? unit = text[reader.Place..].Trim().ToLowerInvariant() switch
        {
            "" or "px" => 1,
            "mm" => 1 / MmPerPx,
            "cm" => 10 / MmPerPx,
            "q" => 0.25 / MmPerPx,
            "in" => 96,
            "pt" => 96.0 / 72,
            "pc" => 16,
            "em" => fontSize,
            "rem" => 16,
            "ex" or "ch" => fontSize / 2,
            "%" => whole / 100,
            _ => null,
        };
        return number * unit is { } px && double.IsFinite(px) ? px : null;
    }

    /// <summary>Whether a length says how long it is in the world.</summary>
    public static bool IsStated(string? text) => text is not null && !text.Contains('%', StringComparison.Ordinal) && Read(text, 16, null) is not null;

    /// <summary>Whether a length is in a unit that people measure with, not in px, which many programs write without meaning a size.</summary>
    public static bool IsReal(string? text) => IsStated(text)
        && new[] { "mm", "cm", "q", "in", "pt", "pc" }.Any(unit => text!.TrimEnd().EndsWith(unit, StringComparison.OrdinalIgnoreCase));
}

/// <summary>What percentages refer to (SVG 1.1, 7.10).</summary>
internal readonly record struct Viewport(double Width, double Height)
{
    public double Diagonal => Math.Sqrt(((Width * Width) + (Height * Height)) / 2);
}
