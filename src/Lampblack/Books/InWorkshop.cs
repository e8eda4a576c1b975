using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>The same as a command, by hand in the workshop: the station, and the words that stand on its page. A test looks for these words there.</summary>
internal static class InWorkshop
{
    /// <summary>Whoever types no commands starts it by this one.</summary>
    public static string Open => Code("lampblack open DESK");

    /// <summary>"(in the workshop: station <b>Printer</b>, “or only the which-way sheet”)".</summary>
    /// <param name="station">The station's name.</param>
    /// <param name="words">What stands on its page.</param>
    public static string At(string station, string words) => $"(in the workshop: station <b>{Text(station)}</b>, “{Text(words)}”)";

    /// <summary>"(in the workshop: station <b>Print</b>, “How many dots shine in each row?”, then “That is what I see”)".</summary>
    /// <param name="station">The station's name.</param>
    /// <param name="words">What one looks for first.</param>
    /// <param name="then">And then.</param>
    public static string At(string station, string words, string then) => $"(in the workshop: station <b>{Text(station)}</b>, “{Text(words)}”, then “{Text(then)}”)";
}
