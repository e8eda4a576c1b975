using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>The one file for a visit at a copy shop.</summary>
internal static class BracketFile
{
    /// <summary>The file's path, relative to the output folder.</summary>
    public const string Path = "job.pdf";

    private const double GramsPerPound = 453.59237;

    // A ream of bond: 500 sheets of 17 by 22 inches (from memory).
    private const double BondReamM2 = 500 * 17 * 22 * 0.0254 * 0.0254;

    // As the pictures assume; heavy, and turned by most machines on their own. Common practice, no source.
    private const double UsualGramsPerM2 = 120;

    /// <summary>Binds the operator's page and nine copies of each sheet.</summary>
    /// <param name="title">The desk's title.</param>
    /// <param name="bracket">The sheets.</param>
    /// <param name="pages">Front and mask page of each, packed.</param>
    /// <param name="setup">Printer, paper and black.</param>
    /// <param name="request">What the maker asked for.</param>
    public static OutputFile Of(
        string title, ImmutableArray<BracketSheet> bracket, ImmutableArray<PackedPage> pages, PrintSetup setup, BuildRequest request)
    {
        var stepMm = request.BracketStepMm ?? Bracket.UsualStepMm;
        var mark = setup.Black.Edge;
        var cover = BracketPages.Cover(title, setup.Paper, bracket.Length * Bracket.Count, Weight(request), mark, setup.Printer.MarginMm);
        var copies = bracket.Index().SelectMany(sheet => BracketPages.Of(
            sheet.Item, pages[2 * sheet.Index], pages[(2 * sheet.Index) + 1], setup.Printer, stepMm, mark));
        return new(
            Path,
            string.Create(
                CultureInfo.InvariantCulture,
                $"for a copy shop: a page that says how to print it, then nine copies of each sheet with the mask moved in steps of {stepMm:0.###} mm; keep the one that fits"),
            PdfFile.Bind([.. cover.Select(PackedPage.Of), .. copies], new($"{title} bracket", PdfSides.TwoSidedLongEdge)));
    }

    private static string Weight(BuildRequest request)
    {
        var grams = request.Printer?.Path.WeightGramsPerM2;
        var pounds = (grams ?? UsualGramsPerM2) * BondReamM2 / GramsPerPound;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"white, matt, heavy: {grams ?? UsualGramsPerM2:0.#} g/m2 ({pounds:0} lb bond){(grams is null ? " or a little more" : string.Empty)}");
    }
}
