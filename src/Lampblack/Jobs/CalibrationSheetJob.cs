using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Jobs;

/// <summary>The calibration sheet as files.</summary>
public static class CalibrationSheetJob
{
    /// <summary>Makes <c>front.pdf</c>, <c>back.pdf</c> and <c>duplex.pdf</c> with a page for each copy, and a manifest, in memory; nothing where something stops.</summary>
    /// <param name="paper">Name of the paper size, any case.</param>
    /// <param name="printer">The printer file. Its paper, which must be the one that was asked for, its margin, its inks and the half-turn of its back count.</param>
    /// <param name="printerWord">By which word the printer was asked for, for what the sheet says to type.</param>
    /// <param name="copies">How many copies, each with a number of its own.</param>
    public static Checked<ImmutableArray<OutputFile>> Run(string paper, PrinterFile printer, string printerWord, int copies)
    {
        ArgumentNullException.ThrowIfNull(paper);
        ArgumentNullException.ThrowIfNull(printer);
        ArgumentNullException.ThrowIfNull(printerWord);
        if (PaperSize.Find(paper) is not { } size)
        {
            return new([], [UnknownPaper.Finding(paper)]);
        }

        if (PrintSetup.OtherPaper(printer, size) is { } other)
        {
            return new([], [other]);
        }

        if (copies is < 1 or > CalibrationSheet.MostCopies)
        {
            return new([], [Finding.Stop("copies-range", FormattableString.Invariant($"{copies} copies were asked for; each has a number from 1 to {CalibrationSheet.MostCopies}"), "three are enough for a start: `--copies 3`")]);
        }

        if (CalibrationPlan.Of(size) is not { } plan)
        {
            return new([], [Finding.Stop("sheet-no-room", $"a calibration sheet does not fit on {size.Name}", "it needs A4, Letter or larger paper, which the printer must take on the same path; else read the scales of production sheets: `lampblack printer learn` with `--reading`")]);
        }

        if (printer.Path.MarginMm > CalibrationPlan.MarginMm)
        {
            return new([], [Finding.Stop(
                "sheet-no-room",
                $"the printer {Shown.Code(printer.Name)} leaves a border of {Shown.Mm(printer.Path.MarginMm)} blank, and the calibration sheet reaches up to {Shown.Mm(CalibrationPlan.MarginMm)} from the edge",
                "most printers leave 4 to 6 mm: measure yours and correct `margin` in the printer file")]);
        }

        var (isBlackOnly, typed) = (!printer.Path.Colour, JobFiles.Typed(printerWord));
        var numbers = Enumerable.Range(1, copies).ToList();
        List<PackedPage> fronts = [.. numbers.Select(copy => PackedPage.Of(CalibrationSheet.FrontPage(plan, isBlackOnly, typed, copy)))];
        List<PackedPage> backs = [.. numbers.Select(copy => PackedPage.Of(CalibrationSheet.BackPage(plan, isBlackOnly, printer.HalfTurnOfBack, copy)))];
        List<OutputFile> files =
        [
            new("back.pdf", "the backs, one page for each copy, one-sided", PdfFile.Bind([.. backs], new("calibration sheet, back", PdfSides.OneSided))),
            new("duplex.pdf", "both in one, for a printer that turns the sheet itself (long edge, like a book)", PdfFile.Bind([.. fronts.Zip(backs).SelectMany(pair => new[] { pair.First, pair.Second })], new("calibration sheet", PdfSides.TwoSidedLongEdge))),
            new("front.pdf", "the fronts, one page for each copy, one-sided", PdfFile.Bind([.. fronts], new("calibration sheet, front", PdfSides.OneSided))),
        ];
        files.Add(Manifest.Write(files));
        return new([.. files], []);
    }

    /// <summary>What to do with the files, in sentences.</summary>
    /// <param name="printer">The printer file.</param>
    /// <param name="printerWord">By which word it was asked for.</param>
    /// <param name="copies">How many copies were made.</param>
    public static ImmutableArray<string> NextSteps(PrinterFile printer, string printerWord, int copies)
    {
        ArgumentNullException.ThrowIfNull(printer);
        var (first, second) = printer.Path.Order == SideOrder.MaskFirst ? ("back.pdf", "front.pdf") : ("front.pdf", "back.pdf");
        var turned = JobFiles.IsTurnedAbout(printer) ? "turned as on the which-way sheet" : "same edge first";
        var lines = new List<string>();
        if (printer.Turns.IsEmpty)
        {
            lines.Add($"Nothing is known yet of how this printer turns a sheet: print the which-way sheet first ('lampblack printer which-way --printer {JobFiles.Typed(printerWord)}'), tell where its tick is, and make this sheet again.");
        }

        lines.Add(printer.Path.Turning == Turning.Automatic
            ? "Print duplex.pdf, two-sided, long edge, at actual size (100 %), on the paper and with the heavy setting of your panels. The fuser is hot."
            : $"Print {first} at actual size (100 %), on the paper and with the heavy setting of your panels; let the sheet cool flat; lay it in again ({turned}, white side to be printed) and print {second}. The fuser is hot.");
        if (copies > 1)
        {
            lines.Add("One copy after the other: both sides of a sheet must say the same copy number.");
        }

        lines.Add("Hold it to a lamp, front towards you, TOP up, and photograph it on a light box or flat against a window: whole, sharp, without flash.");
        lines.Add($"Or read its ten verniers by eye, as the sheet tells, and type what they say: lampblack printer learn {JobFiles.Typed(printerWord)} --vernier 1x=5.3,1y=4.8,2x=...");
        return [.. lines];
    }
}
