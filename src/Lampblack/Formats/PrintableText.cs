using System.Text;

namespace Lampblack.Formats;

/// <summary>Makes any text fit for a title.</summary>
internal static class PrintableText
{
    /// <summary>The text on one line: tabs and line ends become spaces, other control characters and what XML does not allow are dropped, lone surrogates become U+FFFD.</summary>
    /// <remarks>XML 1.0 clause 2.2 allows all but the controls, the surrogates, U+FFFE and U+FFFF.</remarks>
    public static string Clean(string text)
    {
        var clean = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            if (rune.Value is '\t' or '\n' or '\r')
            {
                clean.Append(' ');
            }
            else if (!Rune.IsControl(rune) && rune.Value is not (0xFFFE or 0xFFFF))
            {
                clean.Append(rune.ToString());
            }
        }

        return clean.ToString();
    }
}
