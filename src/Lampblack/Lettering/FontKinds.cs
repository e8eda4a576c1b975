using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Lettering;

/// <summary>Which bundled font comes nearest to one that nobody has, by the kind that its name tells.</summary>
public static class FontKinds
{
    private static readonly ImmutableArray<string> Narrow = ["condensed", "narrow", "compressed", "compact", "slim"];

    private static readonly ImmutableArray<string> Even = ["mono", "monospace", "monospaced", "code", "console", "typewriter", "terminal"];

    private static readonly ImmutableArray<string> Serifs = ["roman", "antiqua", "slab", "oldstyle"];

    // "Ultra" alone is heavy, "ultra light" is light: what is light is asked first.
    private static readonly ImmutableArray<(string Weight, ImmutableArray<string> Words)> Weights =
    [
        ("-regular", ["light", "thin", "hairline"]), ("-bold", ["bold", "black", "heavy", "fat", "ultra"]),
    ];

    // How much of it: "semibold", "ultralight", "extracondensed" tell the same kind as the word without.
    private static readonly ImmutableArray<string> Degrees = ["semi", "demi", "extra", "ultra"];

    /// <summary>The three families in a few words each.</summary>
    public const string Families = "`overpass` (plain, of usual width), `barlow-condensed` and `saira-condensed` (both narrow, the second squarer)";

    /// <summary>The nearest one, and what it lacks of the wanted kind; nothing where it lacks nothing that the name tells.</summary>
    /// <param name="name">The name of the font that is not there.</param>
    public static (string Font, string Lacks) Nearest(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        var words = Words(name).Select(Plain).ToHashSet(StringComparer.Ordinal);
        var family = words.Overlaps(Narrow) ? "barlow-condensed" : "overpass";
        var weight = Weights.FirstOrDefault(one => words.Overlaps(one.Words)).Weight ?? string.Empty;
        var isSerif = (words.Contains("serif") && !words.Contains("sans")) || words.Overlaps(Serifs) || (words.Contains("old") && words.Contains("style"));
        return (family + weight, words.Overlaps(Even) ? "none has letters of one width" : isSerif ? "none has serifs, which toner fills or loses" : string.Empty);
    }

    /// <summary>A name's words in small letters: they end at whatever is no letter, and where a capital begins the next ("QuillmarkBold", "QMBold").</summary>
    private static IEnumerable<string> Words(string name)
    {
        var start = 0;
        for (var at = 0; at <= name.Length; at++)
        {
            var isEnd = at == name.Length || !char.IsLetter(name[at]);
            var isCapital = !isEnd && at > start && char.IsUpper(name[at]) && (char.IsLower(name[at - 1]) || (at + 1 < name.Length && char.IsLower(name[at + 1])));
            if ((isEnd || isCapital) && at > start)
            {
                yield return name[start..at].ToLowerInvariant();
            }

            start = isEnd ? at + 1 : isCapital ? at : start;
        }
    }

    private static string Plain(string word) => Degrees.FirstOrDefault(degree => word.Length > degree.Length && word.StartsWith(degree, StringComparison.Ordinal)) is { } more ? word[more.Length..] : word;
}
