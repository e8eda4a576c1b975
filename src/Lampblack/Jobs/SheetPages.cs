using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Imaging;
using Lampblack.Printers;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>One page of a sheet and its toner, each worked out once for files, book and report.</summary>
/// <param name="Path">The page's own file, relative to the output folder.</param>
/// <param name="Page">The page.</param>
internal sealed record SheetPage(string Path, Lazy<PdfPage> Page)
{
    private readonly Lazy<TonerCoverage> _coverage = new(() => TonerCoverage.Of(Page.Value));

    /// <summary>What its toner covers.</summary>
    public PageToner Toner => new(Path, _coverage.Value);
}

/// <summary>The two pages of a sheet.</summary>
/// <param name="Sheet">The sheet.</param>
/// <param name="Front">Its front.</param>
/// <param name="Mask">Its mask.</param>
internal sealed record SheetPages(Sheet Sheet, SheetPage Front, SheetPage Mask)
{
    /// <summary>Front and mask.</summary>
    public ImmutableArray<SheetPage> Both => [Front, Mask];

    /// <summary>The pages of all sheets.</summary>
    /// <param name="sheets">The sheets.</param>
    /// <param name="printer">What is known of the printer.</param>
    public static ImmutableArray<SheetPages> Of(ImmutableArray<Sheet> sheets, PrinterProperties printer) =>
    [
        .. sheets.Select(sheet => new SheetPages(
            sheet,
            new(PrintFiles.Path(sheet, "front"), new(() => SheetPdf.FrontPage(sheet, printer))),
            new(PrintFiles.Path(sheet, "mask"), new(() => SheetPdf.MaskPage(sheet, printer))))),
    ];
}
