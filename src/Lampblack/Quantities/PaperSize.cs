using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Quantities;

/// <summary>A size of paper that printers take, standing upright.</summary>
/// <param name="Name">The name on the packet, such as <c>A4</c>.</param>
/// <param name="WidthMm">The short side, in mm.</param>
/// <param name="HeightMm">The long side, in mm.</param>
/// <remarks>A3 to A5: ISO 216. Letter and Tabloid: sheets A and B of ASME Y14.1 (8.5 x 11 in, 11 x 17 in). Legal: 8.5 x 14 in.</remarks>
public sealed record PaperSize(string Name, double WidthMm, double HeightMm)
{
    private const double MmPerInch = 25.4;

    /// <summary>Where Letter is the usual paper: the territories of <c>paperSize type="US-Letter"</c> in the Unicode locale data (UTS #35).</summary>
    private static readonly ImmutableArray<string> LetterRegions =
        ["BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE"];

    private static readonly PaperSize A4 = new("A4", 210, 297);

    private static readonly PaperSize Letter = new("Letter", 8.5 * MmPerInch, 11 * MmPerInch);

    /// <summary>The sizes that are known, the most usual first.</summary>
    public static ImmutableArray<PaperSize> All { get; } =
    [
        A4,
        new("A3", 297, 420),
        new("A5", 148, 210),
        Letter,
        new("Legal", 8.5 * MmPerInch, 14 * MmPerInch),
        new("Tabloid", 11 * MmPerInch, 17 * MmPerInch),
    ];

    /// <summary>The size of that name, in capitals or not; null if there is none.</summary>
    public static PaperSize? Find(string name) =>
        All.FirstOrDefault(size => string.Equals(size.Name, name.Trim(), StringComparison.OrdinalIgnoreCase));

    /// <summary>The paper that is usual in a region: Letter in most of the Americas and the Philippines, else A4.</summary>
    /// <param name="twoLetterRegion">ISO 3166-1 code of two letters, in capitals or not; null where it isn't known.</param>
    public static PaperSize UsualFor(string? twoLetterRegion) =>
        LetterRegions.Contains(twoLetterRegion ?? "", StringComparer.OrdinalIgnoreCase) ? Letter : A4;
}
