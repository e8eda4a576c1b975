using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Formats;
using Lampblack.Imaging;
using Lampblack.Printers;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>The PDFs of the sheets.</summary>
internal static class PrintFiles
{
    /// <summary>Path of a sheet's file, relative to the output folder.</summary>
    public static string Path(Sheet sheet, string side) => $"{sheet.Id}/{side}.pdf";

    /// <summary>The files of all sheets.</summary>
    /// <param name="title">The desk's title.</param>
    /// <param name="sheets">The sheets' pages.</param>
    /// <param name="bracket">The sheets with places for the numbers of a bracket; empty where none was asked for.</param>
    /// <param name="setup">Printer, paper and black.</param>
    /// <param name="request">What the maker asked for.</param>
    /// <param name="toner">Takes each page's toner.</param>
    /// <param name="cancellation">Stops the work between two pages.</param>
    public static IEnumerable<OutputFile> Of(
        string title,
        ImmutableArray<SheetPages> sheets,
        ImmutableArray<BracketSheet> bracket,
        PrintSetup setup,
        BuildRequest request,
        List<PageToner> toner,
        CancellationToken cancellation)
    {
        // All pages of all sheets side by side: packing them is nearly all the work.
        var made = sheets.SelectMany(sheet => sheet.Both).AsParallel().AsOrdered().WithCancellation(cancellation).Select(page => (Page: PackedPage.Of(page.Page.Value), page.Toner)).ToImmutableArray();
        ImmutableArray<PackedPage> pages = [.. made.Select(page => page.Page)];
        toner.AddRange(made.Select(page => page.Toner));
        foreach (var (index, sheet) in sheets.Select(pair => pair.Sheet).Index())
        {
            var (front, mask) = (pages[2 * index], pages[(2 * index) + 1]);
            var name = $"{title} {sheet.Id} {sheet.PairCode}";
            var maskFirst = request.Printer?.Path.Order == SideOrder.MaskFirst;
            yield return new(Path(sheet, "front"), maskFirst ? "front, to be printed on the back of the mask, one-sided" : "front, to be printed first, one-sided", PdfFile.Bind([front], new($"{name} front", PdfSides.OneSided)));
            yield return new(Path(sheet, "mask"), maskFirst ? "mask, to be printed first, one-sided" : "mask, to be printed on the back of the front, one-sided", PdfFile.Bind([mask], new($"{name} mask", PdfSides.OneSided)));
            yield return new(Path(sheet, "duplex"), "front and mask in one, for a printer that turns the sheet itself (long edge, like a book)", PdfFile.Bind(maskFirst ? [mask, front] : [front, mask], new($"{name}", PdfSides.TwoSidedLongEdge)));
        }

        foreach (var file in sheets.SelectMany(pair => Extras(title, pair.Sheet, setup, request)).AsParallel().AsOrdered().WithCancellation(cancellation).Select(task => task()))
        {
            if (file is { } extra)
            {
                toner.Add(extra.Toner);
                yield return extra.File;
            }
        }

        if (!bracket.IsEmpty)
        {
            yield return BracketFile.Of(title, bracket, pages, setup, request);
        }
    }

    private static IEnumerable<Func<(OutputFile File, PageToner Toner)?>> Extras(string title, Sheet sheet, PrintSetup setup, BuildRequest request)
    {
        var printer = setup.Printer;
        if (request.SecondPass.HasFlag(SecondPass.Front))
        {
            yield return () => One(
                SheetPdf.FrontAgainPage(sheet, printer),
                "front-again",
                "the front's black once more, where one pass leaks: printed last, on the front, fed other edge first; try it on a spoiled sheet");
        }

        if (request.SecondPass.HasFlag(SecondPass.Mask))
        {
            yield return () => One(
                SheetPdf.MaskAgainPage(sheet, printer),
                "mask-again",
                "the mask's black once more, where one pass leaks: printed last, on the mask, fed other edge first; try it on a spoiled sheet");
        }

        if (request.Film)
        {
            yield return () => One(
                SheetPdf.FilmPage(sheet, printer, title),
                "mask-film",
                "the mask for a clear film behind the front, its toner against the paper; only film that the printer's maker allows, one-sided");
        }

        (OutputFile File, PageToner Toner)? One(PdfPage? page, string side, string purpose) => page is null
            ? null
            : (new OutputFile(Path(sheet, side), purpose, PdfFile.Write([page], new($"{title} {sheet.Id} {sheet.PairCode} {side}", PdfSides.OneSided))), new PageToner(Path(sheet, side), TonerCoverage.Of(page)));
    }
}
