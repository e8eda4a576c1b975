using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Lettering;

/// <summary>Which bundled font comes nearest to one that nobody has, by the kind that its name tells.</summary>
public static class FontKinds
{
    private static readonly ImmutableArray<string> Narrow = ["condensed", "narrow", "compressed", "compact", "slim"];

    private static readonly ImmutableArray<string> Even = ["mono", "code", "console", "typewriter", "terminal"];

    private static readonly ImmutableArray<string> Serifs = ["roman", "antiqua", "slab", "book", "old"];

    private static readonly ImmutableArray<(string Weight, ImmutableArray<string> Words)> Weights =
    [
        ("-bold", ["bold", "black", "heavy", "fat", "ultra"]), ("-regular", ["light", "thin", "hairline"]),
    ];

    /// <summary>The three families in a few words each.</summary>
    public const string Families = "`overpass` (plain, of usual width), `barlow-condensed` and `saira-condensed` (both narrow, the second squarer)";

    /// <summary>The nearest one, and what it lacks of the wanted kind; nothing where it lacks nothing that the name tells.</summary>
    /// <param name="name">The name of the font that is not there.</param>
    public static (string Font, string Lacks) Nearest(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        var plain = name.ToLowerInvariant();
        bool Says(ImmutableArray<string> words) => words.Any(word => plain.Contains(word, StringComparison.Ordinal));
        var family = Says(Narrow) ? "barlow-condensed" : "overpass";
        var weight = Weights.FirstOrDefault(one => Says(one.Words)).Weight ?? string.Empty;
        var isSerif = (plain.Contains("serif", StringComparison.Ordinal) && !plain.Contains("sans", StringComparison.Ordinal)) || Says(Serifs);
        return (family + weight, Says(Even) ? "none has letters of one width" : isSerif ? "none has serifs, which toner fills or loses" : string.Empty);
    }
}
