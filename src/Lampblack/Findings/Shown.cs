using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text;

namespace Lampblack.Findings;

/// <summary>Puts a user's words into a message: short, on one line, and without anything that could upset a terminal.</summary>
internal static class Shown
{
    private const int Longest = 40;
    private const int MostListed = 16;

    /// <summary>A stretch of the file, between backquotes.</summary>
    public static string Code(string text) => $"`{Short(text)}`";

    /// <summary>A text value, between double quotes.</summary>
    public static string Quoted(string text) => $"\"{Short(text)}\"";

    /// <summary>Words in a row, parted by commas; at most 16 of them.</summary>
    public static string List(IEnumerable<string> words)
    {
        var all = words.ToList();
        return all.Count > MostListed ? string.Join(", ", all.Take(MostListed)) + ", …" : string.Join(", ", all);
    }

    /// <summary>How many of something: "no words", "1 word", "2 words".</summary>
    /// <param name="count">How many.</param>
    /// <param name="one">What one is called.</param>
    /// <param name="many">What several are called; by default the same with an s.</param>
    public static string Count(int count, string one, string? many = null) => count switch
    {
        0 => $"no {many ?? one + "s"}",
        1 => $"1 {one}",
        _ => string.Create(CultureInfo.InvariantCulture, $"{count} {many ?? one + "s"}"),
    };

    /// <summary>A share as a percentage with as many digits as are of use: none after the point from 10 % up, one from 0.1 % up.</summary>
    public static string Percent(double share) => share switch
    {
        >= 0.1 => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0} %"),
        >= 0.001 => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0.0} %"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0.000} %"),
    };

    /// <summary>A number of mm with its unit.</summary>
    public static string Mm(double mm) => $"{Number(mm)} mm";

    /// <summary>A number of mm with its unit, rounded to so many decimals.</summary>
    public static string Mm(double mm, int decimals) => Mm(Math.Round(mm, decimals, MidpointRounding.AwayFromZero));

    /// <summary>A plain number rounded to so many decimals.</summary>
    public static string Number(double value, int decimals) => Number(Math.Round(value, decimals, MidpointRounding.AwayFromZero));

    /// <summary>A plain number with at most four decimals.</summary>
    public static string Number(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);

    /// <summary>At most 40 characters, control and invisible characters by their numbers.</summary>
    public static string Short(string text)
    {
        var shown = new StringBuilder();
        var count = 0;
        foreach (var rune in text.EnumerateRunes())
        {
            if (count++ == Longest)
            {
                return shown.Append('…').ToString();
            }

            if (IsInvisible(rune))
            {
                shown.Append(CodePoint(rune));
            }
            else
            {
                shown.Append(rune.ToString());
            }
        }

        return shown.ToString();
    }

    /// <summary>The number of a character as Unicode writes it, such as <c>U+00A0</c>.</summary>
    public static string CodePoint(Rune rune) => "U+" + rune.Value.ToString("X4", CultureInfo.InvariantCulture);

    /// <summary>Whether a reader can't see the character, or mistakes it for a plain blank.</summary>
    public static bool IsInvisible(Rune rune) => Rune.GetUnicodeCategory(rune) switch
    {
        UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator => true,
        UnicodeCategory.SpaceSeparator => rune.Value != ' ',
        _ => false,
    };
}
