using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text.RegularExpressions;

namespace Lampblack.Quantities;

/// <summary>Reads paper weights as packets have them: g/m2, or pounds of a ream.</summary>
/// <remarks>
/// A pound weight is that of 500 sheets of the kind's basic size, which differs from kind to kind; 1 lb is 453.59237 g and 1 in is 25.4 mm (international
/// yard and pound agreement, 1959). So 1 lb bond is 3.7597 g/m2, 1 lb text 1.4801 g/m2 and 1 lb cover 2.7041 g/m2.
/// </remarks>
public static partial class PaperWeight
{
    private const double GramsPerPound = 453.59237;

    private const double SheetsOfReam = 500;

    private const double MetresPerInch = 0.0254;

    private const string Example = "write \"90 g/m2\", \"32 lb\" (bond), \"80 lb text\" or \"65 lb cover\"";

    private static readonly ImmutableArray<(string Word, double WidthInches, double HeightInches)> Kinds =
    [
        ("", 17, 22), ("bond", 17, 22), ("writing", 17, 22), ("text", 25, 38), ("book", 25, 38), ("cover", 20, 26), ("index", 25.5, 30.5), ("tag", 24, 36),
    ];

    /// <summary>Reads a weight. A plain number is in g/m2; pounds without a kind are bond.</summary>
    /// <param name="written">The text, such as <c>90 g/m2</c>, <c>32 lb</c> or <c>65 lb cover</c>.</param>
    /// <param name="gramsPerM2">The weight in g/m2; 0 where it can't be read.</param>
    /// <param name="problem">Empty, or the end of a sentence whose subject is the text.</param>
    /// <returns>Whether the text is a weight.</returns>
    public static bool TryRead(string written, out double gramsPerM2, out string problem)
    {
        ArgumentNullException.ThrowIfNull(written);
        gramsPerM2 = 0;
        var parts = Form().Match(written.Trim().ToLowerInvariant());
        if (!parts.Success)
        {
            problem = $"is not a weight of paper: {Example}";
            return false;
        }

        var number = double.Parse(parts.Groups["number"].Value.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
        var kind = parts.Groups["kind"].Value;
        if (!parts.Groups["pounds"].Success)
        {
            gramsPerM2 = kind.Length == 0 ? number : 0;
            problem = kind.Length == 0 ? "" : $"has both a weight in g/m2 and a kind of paper: {Example}";
            return kind.Length == 0;
        }

        var known = Kinds.FirstOrDefault(one => one.Word == kind);
        if (known.Word is null)
        {
            problem = $"has a kind of paper that is not known; known are {string.Join(", ", Kinds.Skip(1).Select(one => one.Word))}";
            return false;
        }

        gramsPerM2 = number * GramsPerPound / (SheetsOfReam * MetresPerInch * MetresPerInch * known.WidthInches * known.HeightInches);
        problem = "";
        return true;
    }

    /// <summary>The same weight in pounds of bond paper.</summary>
    /// <param name="gramsPerM2">The weight in g/m2.</param>
    public static double PoundsBond(double gramsPerM2)
    {
        var bond = Kinds[1];
        return gramsPerM2 * SheetsOfReam * MetresPerInch * MetresPerInch * bond.WidthInches * bond.HeightInches / GramsPerPound;
    }

    [GeneratedRegex("^(?<number>[0-9]{1,4}(?:[.,][0-9]{1,3})?)[ \u00A0]*(?:(?:g/m2|g/m²|g/qm|gsm|g)|(?<pounds>lbs?\\.?|#))?[ \u00A0]*(?<kind>[a-z]*)$", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex Form();
}
