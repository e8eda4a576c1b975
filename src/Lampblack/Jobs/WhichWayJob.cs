using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Jobs;

/// <summary>The which-way sheet as files: the first thing that is printed on a new printer.</summary>
public static class WhichWayJob
{
    /// <summary>Makes <c>front.pdf</c>, <c>back.pdf</c>, <c>duplex.pdf</c> and a manifest, in memory; nothing where the paper isn't known.</summary>
    /// <param name="paper">Name of the paper size, any case.</param>
    /// <param name="printer">What was learned of the printer; null where nothing was. Its margins count, its black, and its paper, which must be the one that was asked for.</param>
    /// <param name="printerWord">By which word the printer was asked for, for what the sheet says to type; null where none was.</param>
    public static Checked<ImmutableArray<OutputFile>> Run(string paper, PrinterFile? printer = null, string? printerWord = null)
    {
        ArgumentNullException.ThrowIfNull(paper);
        if (PaperSize.Find(paper) is not { } size)
        {
            return new([], [UnknownPaper.Finding(paper)]);
        }

        if (printer is not null && PrintSetup.OtherPaper(printer, size) is { } other)
        {
            return new([], [other]);
        }

        var properties = printer is null
            ? PrinterProperties.Unmeasured
            : PrinterProperties.Of(printer with { Turns = [], Register = [], Bars = [], Coverage = [] }, size);
        var front = PackedPage.Of(WhichWaySheet.FrontPage(size, properties, JobFiles.Typed(printerWord)));
        var back = PackedPage.Of(WhichWaySheet.BackPage(size, properties));
        List<OutputFile> files =
        [
            new("back.pdf", "a tick, to be printed on the back of the front, one-sided", PdfFile.Bind([back], new("which-way sheet, back", PdfSides.OneSided))),
            new("duplex.pdf", "both in one, for a printer that turns the sheet itself (long edge, like a book)", PdfFile.Bind([front, back], new("which-way sheet", PdfSides.TwoSidedLongEdge))),
            new("front.pdf", "arrow, boxes and what they mean, to be printed first, one-sided", PdfFile.Bind([front], new("which-way sheet, front", PdfSides.OneSided))),
        ];
        files.Add(Manifest.Write(files));
        return new([.. files], []);
    }
}
