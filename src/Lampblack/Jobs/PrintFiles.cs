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

    public static IEnumerable<OutputFile> Of(string title, ImmutableArray<Sheet> sheets, PrinterProperties printer, CancellationToken cancellation) =>
        sheets.AsParallel().AsOrdered().WithCancellation(cancellation).SelectMany(sheet =>
        {
            var front = SheetPdf.FrontPage(sheet, printer);
            var mask = SheetPdf.MaskPage(sheet, printer);
            var name = $"{title} {sheet.Id} {sheet.PairCode}";
            return new[]
            {
                new OutputFile(Path(sheet, "front"), "front, to be printed first, one-sided", PdfFile.Write([front], new($"{name} front", PdfSides.OneSided))),
                new OutputFile(Path(sheet, "mask"), "mask, to be printed on the back of the front, one-sided", PdfFile.Write([mask], new($"{name} mask", PdfSides.OneSided))),
                new OutputFile(Path(sheet, "duplex"), "front and mask in one, for a printer that turns the sheet itself (long edge, like a book)", PdfFile.Write([front, mask], new($"{name}", PdfSides.TwoSidedLongEdge))),
            };
        });
}
