using System;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using System.Reflection;
using System.Runtime.InteropServices;
using System.Text;
using System.Threading;

namespace Lampblack.Lettering;

/// <summary>The fonts that come with the program: three families in four weights, all under the SIL Open Font License 1.1.</summary>
public static class BundledFonts
{
    private const string PlainWeight = "medium";
    private const int MostNear = 3;

    // Of mistyped names most letters are right; of another font's name about a third are, by chance.
    private const double TypingShare = 0.7;
    private const int LeastBeginning = 4;

    private static readonly ImmutableArray<(string Name, string File)> Families =
    [
        ("barlow-condensed", "BarlowCondensed"), ("overpass", "Overpass"), ("saira-condensed", "SairaCondensed"),
    ];

    private static readonly ImmutableArray<(string Name, string File)> Weights =
        [("regular", "400Regular"), (PlainWeight, "500Medium"), ("semibold", "600SemiBold"), ("bold", "700Bold")];

    private static readonly ImmutableSortedDictionary<string, Lazy<Typeface>> Faces = Families
        .SelectMany(family => Weights.Select(weight => (
            Name: $"{family.Name}-{weight.Name}",
            Face: new Lazy<Typeface>(() => Load(family, weight), LazyThreadSafetyMode.ExecutionAndPublication))))
        .ToImmutableSortedDictionary(pair => pair.Name, pair => pair.Face, StringComparer.Ordinal);

    /// <summary>
    /// All names in alphabetical order: the families (<c>overpass</c>), each with its weights (<c>overpass-regular</c>, <c>-medium</c>, <c>-semibold</c>, <c>-bold</c>).
    /// A family alone means its medium weight.
    /// </summary>
    public static ImmutableArray<string> Names { get; } = [.. Families.Select(family => family.Name).Concat(Faces.Keys).Order(StringComparer.Ordinal)];

    /// <summary>The font of a name; capitals and spaces for hyphens are taken too. Nothing where there is no such font.</summary>
    public static Typeface? Find(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        var plain = Plain(name);
        return (Faces.GetValueOrDefault(plain) ?? Faces.GetValueOrDefault($"{plain}-{PlainWeight}"))?.Value;
    }

    /// <summary>Up to three names that look most like an unknown one, the likeliest first.</summary>
    public static ImmutableArray<string> Near(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        var plain = Plain(name);
        return [.. Names.OrderByDescending(candidate => Likeness(plain, candidate)).ThenBy(candidate => candidate, StringComparer.Ordinal).Take(MostNear)];
    }

    /// <summary>The name that was mistyped or only begun; null for one that looks like none of them.</summary>
    /// <param name="name">The name that is not there.</param>
    public static string? Meant(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        var plain = Plain(name);
        return Names.FirstOrDefault(candidate => plain.Length >= LeastBeginning && candidate.StartsWith(plain, StringComparison.Ordinal))
            ?? Near(name).FirstOrDefault(candidate => Likeness(plain, candidate) >= TypingShare);
    }

    /// <summary>The licence that a font is given under, with its copyright line.</summary>
    /// <exception cref="ArgumentException">There is no font of that name.</exception>
    public static string LicenceOf(string name) =>
        Find(name)?.EmbeddedLicence ?? throw new ArgumentException("no bundled font has this name", nameof(name));

    private static string Plain(string name) => name.Trim().ToLowerInvariant().Replace(' ', '-').Replace('_', '-');

    private static Typeface Load((string Name, string File) family, (string Name, string File) weight) => Typeface.Bundled(
        $"{family.Name}-{weight.Name}",
        Resource($"fonts/{family.File}_{weight.File}.ttf"),
        Encoding.UTF8.GetString(Resource($"fonts/{family.Name}.OFL.txt").AsSpan()));

    private static ImmutableArray<byte> Resource(string name)
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream(name)
            ?? throw new InvalidDataException($"the program was built without {name}");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return ImmutableCollectionsMarshal.AsImmutableArray(bytes);
    }

    /// <summary>Share of letters that two words have in common in the same order, 0 to 1 (longest common subsequence); the first 60 are looked at.</summary>
    private static double Likeness(string word, string candidate)
    {
        var length = Math.Min(word.Length, 60);
        var row = new int[candidate.Length + 1];
        for (var i = 0; i < length; i++)
        {
            var diagonal = 0;
            for (var j = 1; j <= candidate.Length; j++)
            {
                var above = row[j];
                row[j] = word[i] == candidate[j - 1] ? diagonal + 1 : Math.Max(above, row[j - 1]);
                diagonal = above;
            }
        }

        return 2.0 * row[^1] / (length + candidate.Length);
    }
}
