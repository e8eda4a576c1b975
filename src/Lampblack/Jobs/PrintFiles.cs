using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Formats;
using Lampblack.Printers;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>The PDFs of the sheets.</summary>
internal static class PrintFiles
{
    /// <summary>Path of a sheet's file, relative to the output folder.</summary>
    public static string Path(Sheet sheet, string side) => $"{sheet.Id}/{side}.pdf";

    public static IEnumerable<OutputFile> Of(string title, ImmutableArray<Sheet> sheets, PrinterProperties printer, CancellationToken cancellation)
    {
        // Both pages of all sheets side by side: packing them is nearly all the work.
        var pages = sheets.SelectMany(sheet => new Func<PdfPage>[] { () => SheetPdf.FrontPage(sheet, printer), () => SheetPdf.MaskPage(sheet, printer) })
            .AsParallel().AsOrdered().WithCancellation(cancellation).Select(page => PackedPage.Of(page())).ToImmutableArray();
        foreach (var (index, sheet) in sheets.Index())
        {
            var (front, mask) = (pages[2 * index], pages[(2 * index) + 1]);
            var name = $"{title} {sheet.Id} {sheet.PairCode}";
            yield return new(Path(sheet, "front"), "front, to be printed first, one-sided", PdfFile.Bind([front], new($"{name} front", PdfSides.OneSided)));
            yield return new(Path(sheet, "mask"), "mask, to be printed on the back of the front, one-sided", PdfFile.Bind([mask], new($"{name} mask", PdfSides.OneSided)));
            yield return new(Path(sheet, "duplex"), "front and mask in one, for a printer that turns the sheet itself (long edge, like a book)", PdfFile.Bind([front, mask], new($"{name}", PdfSides.TwoSidedLongEdge)));
        }
    }
}
