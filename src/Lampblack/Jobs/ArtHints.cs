using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Jobs;

/// <summary>Hints for artwork without a desk file: where a hint names a key of an art item, the option of the command that says the same.</summary>
internal static class ArtHints
{
    private static readonly ImmutableArray<(string Key, string Option)> Words =
    [
        ("`background = \"field\"` or `\"paper\"`", "`--background field` or `--background paper`"),
        ("`invert = true`", "`--invert`"),
        ("`levels`", "`--levels`"),
        ("`width` in the desk file, `--width` on the command line", "`--width`"),
    ];

    /// <summary>The hint in the words of the command line.</summary>
    /// <param name="hint">The hint as it is said of a desk file.</param>
    public static string AsOptions(string hint) => Words.Aggregate(hint, (text, word) => text.Replace(word.Key, word.Option, System.StringComparison.Ordinal));
}
