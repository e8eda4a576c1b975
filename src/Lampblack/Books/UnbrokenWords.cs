using System.Text.RegularExpressions;

namespace Lampblack.Books;

/// <summary>What belongs together stays on one line: a number and its unit, the name of a kind and its number.</summary>
internal static partial class UnbrokenWords
{
    private const int LongestKeptCell = 14;

    /// <summary>The same markup with blanks at which no line breaks; what stands inside a tag stays as it is.</summary>
    /// <param name="markup">Words in markup.</param>
    public static string Of(string markup) => Joints().Replace(markup, "\u00a0");

    /// <summary>Whether a cell is so short that it is never worth a second line, not even at a hyphen.</summary>
    /// <param name="cell">Its markup.</param>
    public static bool IsKept(string cell) => cell.Length is > 0 and <= LongestKeptCell && !cell.Contains('<', System.StringComparison.Ordinal);

    [GeneratedRegex(@"(?<=[0-9]) (?=(?:mm2?|cm|m|V|mA|A|W|%|ohm|Ω|kΩ|nF|µF|Hz|kHz|ms|s|min|h|g|lb|lx|cd|°C)(?![\p{L}0-9]))(?![^<>]*>)|(?<=[0-9]) (?=x [0-9])(?![^<>]*>)|(?<=[0-9] x) (?=[0-9])(?![^<>]*>)|(?<=(?<![\p{L}-])(?:tag|AWG|no|pin|hole|plate|sheet|row)) (?=[0-9+−-])(?![^<>]*>)", RegexOptions.CultureInvariant)]
    private static partial Regex Joints();
}
