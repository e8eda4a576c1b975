using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Printers;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>A sheet's pages, each made once for all that a book tells of it.</summary>
/// <param name="Sheet">The sheet.</param>
/// <param name="Front">Its front.</param>
/// <param name="Mask">Its mask.</param>
internal sealed record BookPages(Sheet Sheet, Lazy<PdfPage> Front, Lazy<PdfPage> Mask)
{
    /// <summary>The pages of all sheets.</summary>
    /// <param name="sheets">The sheets.</param>
    /// <param name="printer">What is known of the printer.</param>
    public static ImmutableArray<BookPages> Of(ImmutableArray<Sheet> sheets, PrinterProperties printer) =>
        [.. sheets.Select(sheet => new BookPages(sheet, new(() => SheetPdf.FrontPage(sheet, printer)), new(() => SheetPdf.MaskPage(sheet, printer))))];
}
