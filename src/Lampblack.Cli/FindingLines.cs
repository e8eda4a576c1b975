using System.Collections.Generic;
using System.Globalization;
using System.IO;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.Cli;

/// <summary>Findings as compilers print them, so that editors can jump to the place: <c>desk.toml(12,5): warn key-unknown: message</c>.</summary>
internal static class FindingLines
{
    /// <summary>Prints findings in the order given; with <c>--quiet</c> notes are left out.</summary>
    /// <param name="terminal">Where to print.</param>
    /// <param name="folder">The desk's folder as the maker named it; empty for the current one.</param>
    /// <param name="findings">The findings.</param>
    /// <param name="named">A file that the maker named beside the desk, as it was named; null for none.</param>
    internal static void Print(Terminal terminal, string folder, IEnumerable<Finding> findings, string? named = null)
    {
        foreach (Finding finding in findings.Where(finding => finding.Accepted is null && (!terminal.IsQuiet || finding.Severity != Severity.Note)))
        {
            string place = finding.Span is { } span ? span with { File = span.File == named ? named : Path.Combine(folder, span.File) } + ": " : string.Empty;
            terminal.Insist($"{place}{terminal.Word(finding.Severity)} {finding.Code}: {OnOneLine(finding.Message)}");
            if (finding.Hint.Length > 0 && !terminal.IsQuiet)
            {
                terminal.Insist($"    {OnOneLine(finding.Hint)}");
            }
        }
    }

    /// <summary>How many of each kind, in words, and how many more the maker lets stand.</summary>
    /// <param name="findings">The findings.</param>
    internal static string Count(IReadOnlyCollection<Finding> findings)
    {
        string[] counts =
        [
            .. new[] { Severity.Stop, Severity.Warn, Severity.Note }
                .Select(severity => (Word: Name(severity), Count: findings.Count(finding => finding.Severity == severity && finding.Accepted is null)))
                .Where(pair => pair.Count > 0)
                .Select(pair => string.Create(CultureInfo.InvariantCulture, $"{pair.Count} {pair.Word}{(pair.Count == 1 ? "" : "s")}")),
        ];
        int accepted = findings.Count(finding => finding.Accepted is not null);
        string let = accepted == 0 ? string.Empty : string.Create(CultureInfo.InvariantCulture, $"; {accepted} accepted");
        return (counts.Length == 0 ? "nothing found" : string.Join(", ", counts)) + let;
    }

    /// <summary>A severity's word in the machine's answer.</summary>
    /// <param name="severity">The severity.</param>
    internal static string Name(Severity severity) => severity switch
    {
        Severity.Stop => "stop",
        Severity.Warn => "warn",
        _ => "note",
    };

    // A message may quote the desk, and the desk may hold anything: no line break and no control character reaches the terminal.
    private static string OnOneLine(string text) => string.Concat(text.Select(character => char.IsControl(character) ? ' ' : character));
}
