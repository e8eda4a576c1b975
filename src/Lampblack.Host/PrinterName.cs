using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text;

namespace Lampblack.Host;

/// <summary>The rule for names of printers: a word that is a file's name on every system.</summary>
internal static class PrinterName
{
    /// <summary>How a printer file's name ends.</summary>
    internal const string Ending = ".toml";

    private const int Longest = 60;

    /// <summary>Whether what a maker wrote is a path of their own and not a name.</summary>
    /// <param name="written">What was written.</param>
    internal static bool IsPath(string written) => written.EndsWith(Ending, StringComparison.OrdinalIgnoreCase);

    /// <summary>Why a word is no name, as the end of a sentence; null where it is fine.</summary>
    /// <param name="name">The word.</param>
    internal static string? Problem(string name)
    {
        if (name.Length == 0)
        {
            return "is empty";
        }

        if (name.Contains('/', StringComparison.Ordinal) || name.Contains('\\', StringComparison.Ordinal))
        {
            return $"is a path; a path to a printer file ends in {Ending}";
        }

        if (name.Length > Longest)
        {
            return "is longer than 60 characters";
        }

        if (!name.All(letter => char.IsLetterOrDigit(letter) || letter is '-' or '_') || name[0] == '-')
        {
            return "is not one word of letters, digits, '-' and '_'";
        }

        return RelativeName.Problem(name, out IReadOnlyList<string> _);
    }

    /// <summary>The file of a name in a folder: one that is there already with other capitals, or a new one.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="name">A name without a problem.</param>
    internal static string FileOf(string folder, string name)
    {
        // One spelling of accents: some systems keep names as written, some change them.
        string file = name.Normalize(NormalizationForm.FormC) + Ending;
        string? there = Directory.Exists(folder)
            ? Directory.EnumerateFiles(folder, "*" + Ending).Order(StringComparer.Ordinal)
                .FirstOrDefault(path => string.Equals(Path.GetFileName(path).Normalize(NormalizationForm.FormC), file, StringComparison.OrdinalIgnoreCase))
            : null;
        return there ?? Path.Combine(folder, file);
    }
}
