using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using System.Text.RegularExpressions;
using Lampblack.Books;

namespace Lampblack.Tests.Books;

/// <summary>What the words of a step take in hand, and its list of tools lacks. The words are those of a plain workshop, written down here apart from the book's own list.</summary>
internal static class ToolWords
{
    /// <summary>What words name, and what the list must then have.</summary>
    private static readonly ImmutableArray<(Regex Words, string Listed)> All =
    [
        .. new (string Words, string Listed)[]
        {
            (@"\bknife\b(?! along it)|[Nn]ew blade", "knife"), (@"steel rule", "steel rule"), (@"\bcaliper\b", "caliper"), (@"on your ruler|with a ruler|ruler along", "ruler"),
            (@"\bawl\b|\bprick\b", "awl"), (@"\bpunch(es)?\b(?! through)", "punch"), (@"step drill|hole saw", "step drill or hole saw"), (@"fretsaw", "fretsaw"), (@"\bthe file\b|\bfile (out|it|them|towards|the)\b", "file"),
            (@"\bclamp (the|it)\b|\bclamps\b|under every clamp", "clamp"), (@"\bspanner\b", "spanner"), (@"\bscrewdriver\b|\bscrew (it|them) on\b|[Ss]crew the (panels|floor)", "screwdriver"),
            (@"\b[Ss]older\b(?! bridge| itself)|\biron in\b", "soldering iron"), (@"hot air", "hot-air"), (@"\b[Tt]he meter\b", "meter"), (@"AA cells", "AA cells"),
            (@"fine brush", "brush"), (@"goggles|[Ee]ye protection|[Ss]afety glasses", "goggles"), (@"gloves for snapping", "gloves"), (@"dust mask", "dust mask"), (@"abrasive paper of 1000", "1000"),
            (@"abrasive paper on a block", "240"), (@"\bcloth\b", "cloth"), (@"cutting mat", "cutting mat"), (@"\bagainst (a|the) lamp\b|\blamp that stays cool\b|\bto a lamp\b|[Oo]ver the lamp", "lamp"), (@"\bpencil\b|Pencil", "pencil"),
            (@"\bneedle\b", "needle"), (@"USB cable(?! through| from| moves| reaches|,? (the|its|and))\b", "USB cable"), (@"\bType <code>lampblack (printer|drilled|flash|rollcall)", "computer"), (@"[Ss]coring knife", "scoring knife"), (@"\bsaw with\b", "saw"),
            (@"books on it", "books"), (@"write its (number|name)|channel written", "pen"), (@"hair dryer", "hair dryer"), (@"cut short|\bleg cut\b", "cutter"), (@"Cut each wire", "stripper"), (@"photograph", "phone"),
        }.Select(pair => (new Regex(pair.Words, RegexOptions.CultureInvariant), pair.Listed)),
    ];

    public static List<string> Missing(Book book) =>
    [
        .. from step in book.Steps
           let words = Words(step)
           let listed = string.Join("; ", step.AllTools.Select(tool => tool.Words))
           from pair in All
           where pair.Words.IsMatch(words) && !listed.Contains(pair.Listed, StringComparison.OrdinalIgnoreCase)
           select $"{step.Id} names \"{pair.Words.Match(words).Value}\" and lists {listed}",
    ];

    /// <summary>What one is told to do, and what can hurt; not what to do where it failed.</summary>
    private static string Words(BookStep step)
    {
        var words = new StringBuilder();
        foreach (var block in step.Blocks)
        {
            words.AppendLine(block switch { Paragraph one => one.Markup, Doings doings => string.Join('\n', doings.Markups), _ => string.Empty });
        }

        return words.AppendLine(step.Gate.GoOnIf).AppendJoin('\n', step.Cautions.Select(caution => caution.Words)).ToString();
    }
}
