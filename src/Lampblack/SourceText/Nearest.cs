using System;
using System.Collections.Generic;

namespace Lampblack.SourceText;

/// <summary>Finds the word that was probably meant.</summary>
public static class Nearest
{
    /// <summary>The known word that is nearest to a written one, if it is near enough to be meant: at most a third of the written length plus one in slips.</summary>
    /// <param name="word">As written; capitals don't count.</param>
    /// <param name="known">The words that would be right; of equally near ones the first is taken.</param>
    /// <returns>One of <paramref name="known"/>, or null.</returns>
    public static string? To(string word, IEnumerable<string> known)
    {
        var written = word.ToLowerInvariant();
        var limit = (written.Length + 1) / 3;
        string? nearest = null;
        var fewest = limit + 1;
        foreach (var candidate in known)
        {
            if (Math.Abs(candidate.Length - written.Length) >= fewest)
            {
                continue;
            }

            var slips = Slips(written, candidate.ToLowerInvariant());
            if (slips < fewest)
            {
                fewest = slips;
                nearest = candidate;
            }
        }

        return nearest;
    }

    /// <summary>How many slips part two words: a letter added, left out or changed, or two neighbours swapped (optimal string alignment).</summary>
    private static int Slips(string from, string to)
    {
        var beforeLast = new int[to.Length + 1];
        var last = new int[to.Length + 1];
        var current = new int[to.Length + 1];
        for (var j = 0; j <= to.Length; j++)
        {
            last[j] = j;
        }

        for (var i = 1; i <= from.Length; i++)
        {
            current[0] = i;
            for (var j = 1; j <= to.Length; j++)
            {
                var change = last[j - 1] + (from[i - 1] == to[j - 1] ? 0 : 1);
                current[j] = Math.Min(change, Math.Min(last[j], current[j - 1]) + 1);
                if (i > 1 && j > 1 && from[i - 1] == to[j - 2] && from[i - 2] == to[j - 1])
                {
                    current[j] = Math.Min(current[j], beforeLast[j - 2] + 1);
                }
            }

            (beforeLast, last, current) = (last, current, beforeLast);
        }

        return last[to.Length];
    }
}
