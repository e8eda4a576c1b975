using System;
using System.Globalization;
using System.Linq;
using System.Text;

namespace Lampblack.Edits;

/// <summary>Writes values as TOML.</summary>
internal static class TomlWriting
{
    /// <summary>Decimals of a length in mm: 0.1 µm, as fine as anything is drawn.</summary>
    public const int LengthDecimals = 4;

    /// <summary>Decimals of other numbers: the finest step of a dial is 0.000001.</summary>
    public const int OtherDecimals = 6;

    /// <summary>A value; null where it holds a number that can't be written.</summary>
    /// <param name="value">The value.</param>
    /// <param name="decimals">Most decimals of a number.</param>
    public static string? Value(KeyValue value, int decimals)
    {
        switch (value)
        {
            case KeyText text:
                return Quoted(text.Words, '"');
            case KeyNumber number:
                return Number(number.Value, decimals, 0);
            case KeyFlag flag:
                return flag.Flag ? "true" : "false";
            case KeyList list:
                var items = list.Items.Select(item => Value(item, decimals)).ToList();
                return items.Contains(null) ? null : $"[{string.Join(", ", items)}]";
            case KeyTable table:
                var keys = table.Keys.Select(key => (Name: Key(key.Key), Value: Value(key.Value, DecimalsOf(key.Key)))).ToList();
                return keys.Any(key => key.Value is null) ? null
                    : keys.Count == 0 ? "{}" : $"{{ {string.Join(", ", keys.Select(key => $"{key.Name} = {key.Value}"))} }}";
            default:
                return null;
        }
    }

    /// <summary>A number without exponent; null where it is no number or beyond anything a desk holds.</summary>
    /// <param name="value">The number.</param>
    /// <param name="decimals">Most decimals.</param>
    /// <param name="least">Fewest decimals.</param>
    public static string? Number(double value, int decimals, int least) => !(Math.Abs(value) <= 1e9) ? null
        : (Math.Round((decimal)value, decimals, MidpointRounding.AwayFromZero) + 0m)
            .ToString("0." + new string('0', least) + new string('#', decimals - least), CultureInfo.InvariantCulture);

    /// <summary>How many decimals a key's numbers may have: values of dials are no lengths.</summary>
    public static int DecimalsOf(string key) => key is "from" or "to" or "major" or "minor" or "table" ? OtherDecimals : LengthDecimals;

    /// <summary>A key, between quotes where it needs them.</summary>
    public static string Key(string key) =>
        key.Length > 0 && key.All(letter => char.IsAsciiLetterOrDigit(letter) || letter is '-' or '_') ? key : Quoted(key, '"');

    /// <summary>A text between quotes of a kind: single ones where they can hold it, else double ones.</summary>
    /// <param name="words">The text.</param>
    /// <param name="quote">The wanted quote.</param>
    public static string Quoted(string words, char quote)
    {
        if (quote == '\'' && !words.Any(letter => letter == '\'' || char.IsControl(letter)))
        {
            return $"'{words}'";
        }

        var text = new StringBuilder("\"");
        foreach (var letter in words)
        {
            text.Append(letter switch
            {
                '"' => "\\\"",
                '\\' => "\\\\",
                '\n' => "\\n",
                '\t' => "\\t",
                _ when char.IsControl(letter) => string.Create(CultureInfo.InvariantCulture, $"\\u{(int)letter:X4}"),
                _ => letter.ToString(),
            });
        }

        return text.Append('"').ToString();
    }
}
