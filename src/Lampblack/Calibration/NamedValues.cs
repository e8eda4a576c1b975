using System;
using System.Collections.Generic;
using System.Linq;
using System.Text.RegularExpressions;

namespace Lampblack.Calibration;

/// <summary>Values behind names, such as <c>x=+0.3,y=-0.1</c>. A comma may part the decimals as well: a value reaches to the next name.</summary>
internal static partial class NamedValues
{
    private static readonly char[] Separators = [',', ';', ' ', '\t', '\u00A0'];

    /// <summary>What stands before the first colon, and the rest; the first is null where there is no colon.</summary>
    public static (string? Head, string Tail) Head(string text)
    {
        var colon = text.IndexOf(':', StringComparison.Ordinal);
        return colon < 0 ? (null, text.Trim()) : (text[..colon].Trim(), text[(colon + 1)..].Trim());
    }

    /// <summary>The names and values in the order of writing; null where something else stands between them.</summary>
    public static List<(string Name, string Value)>? Read(string text)
    {
        var found = Pair().Matches(text);
        if (found.Count == 0 || found[0].Index > 0)
        {
            return null;
        }

        return [.. found.Select(match => (match.Groups["name"].Value, match.Groups["value"].Value.Trim(Separators)))];
    }

    /// <summary>Words in a row, parted by commas or blanks.</summary>
    public static string[] Words(string text) => text.Split(Separators, StringSplitOptions.RemoveEmptyEntries);

    [GeneratedRegex(@"(?<name>[A-Za-z]+)\s*=(?<value>.*?)(?=[\s,;]*[A-Za-z]+\s*=|$)", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant | RegexOptions.Singleline)]
    private static partial Regex Pair();
}
