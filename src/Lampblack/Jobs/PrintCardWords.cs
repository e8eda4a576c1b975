using System.Collections.Generic;
using System.Globalization;
using Lampblack.Desks;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Jobs;

/// <summary>What the print card says, as markup: each point depends on what is known of the printer, and says so where nothing is.</summary>
internal static class PrintCardWords
{
    /// <summary>For which printer this card is.</summary>
    public static string Printer(PrinterFile? printer)
    {
        if (printer is null)
        {
            return "No printer was named, so what follows is common practice. "
                + $"{Code("lampblack printer which-way")} makes a sheet that tells how your printer takes paper. Keep what it shows in a printer file (the sheet says how), build again with {Code("--printer NAME")}, and these steps are written for your printer.";
        }

        var parts = new List<string> { $"For the printer <b>{Text(TrialSheet.Short(printer.Name))}</b>" };
        if (printer.Path.Slot is { } slot)
        {
            parts.Add($"slot <b>{Text(TrialSheet.Short(slot))}</b>");
        }

        parts.Add(printer.Path.Colour ? "in colour" : "black only");
        parts.Add(printer.Turns.IsEmpty
            ? $"which-way sheet not read yet: print {Code("lampblack printer which-way")} first"
            : printer.HasLastTick(Tick.Front) ? "on the last which-way sheet the wrong face was printed" : "the which-way sheet was read");
        parts.Add(printer.Register.IsEmpty ? "register not learned yet" : string.Create(CultureInfo.InvariantCulture, $"register learned from {RegisterEstimate.Of(printer).Sheets} {(RegisterEstimate.Of(printer).Sheets == 1 ? "sheet" : "sheets")}"));
        return string.Join(", ", parts) + ". Another slot, paper or turning is another printer.";
    }

    /// <summary>The steps of printing, in order: every file of the sheet that this job made, each when its turn comes.</summary>
    public static IEnumerable<string> Steps(PrinterFile? printer, PaperSize paper, Sheet sheet, JobFiles made)
    {
        var path = printer?.Path;
        yield return $"Lay in one sheet of {Text(paper.Name)}, {Weight(path)}, {Edge(path)}. Settings: {Settings(printer)}.";
        if (path?.Turning == Turning.Automatic)
        {
            yield return $"Print {Code(PrintFiles.Path(sheet, "duplex"))}: two-sided, long edge (like a book). Your printer turns the sheet.";
            foreach (var extra in PrintCardExtras.Steps(printer, sheet, made))
            {
                yield return extra;
            }

            yield break;
        }

        var (first, second) = JobFiles.Sides(printer);
        yield return $"Print {Code(PrintFiles.Path(sheet, first))} first: one-sided, {FaceUp(printer, "the face to be printed")}.";
        yield return $"Let the sheet cool and lie flat. Lay it in again: {(JobFiles.IsTurnedAbout(printer) ? "<b>turned just as on the which-way sheet</b>" : "the <b>same edge first</b>")}, {FaceUp(printer, "the white side")}.";
        yield return $"Print {Code(PrintFiles.Path(sheet, second))}: one-sided, the same settings, after the same pause each time.";
        if (path is null)
        {
            yield return $"Or, if your printer turns sheets itself: print {Code(PrintFiles.Path(sheet, "duplex"))} in place of both, two-sided, long edge.";
        }

        foreach (var extra in PrintCardExtras.Steps(printer, sheet, made))
        {
            yield return extra;
        }
    }

    /// <summary>What must pass, in this order, before anything is glued.</summary>
    public static IEnumerable<string> Gates(WorkOrder order, int mostDots)
    {
        var rows = mostDots == 0 ? "no dot shines in any row" : string.Create(CultureInfo.InvariantCulture, $"at most {mostDots} {(mostDots == 1 ? "dot shines" : "dots shine")} in any row");
        yield return $"<b>Dot rows, against a lamp.</b> The tick shows in box A, and {rows}. Both pair codes are the same. A bar is 99.4 to 100.6 mm long.";
        yield return "<b>A look in a dark room.</b> Hold the sheet to the lamp with everything else dark: every legend shines whole and evenly, nothing shines beside one, the black has no pinholes and no gray patches.";
        yield return order == WorkOrder.GlueThenDrill
            ? "<b>The print held on the plate.</b> Order A drills later, through both: the trim marks must lie on the plate on every side, and the real parts must cover their crosshairs. On a plate that is drilled already, all crosshairs stand in the middle of their holes."
            : "<b>The print held on the drilled plate.</b> Against the lamp every crosshair stands in the middle of its hole; nuts and bezels cover what is left.";
    }

    /// <summary>When not to glue.</summary>
    /// <param name="learn">What is typed of what was seen, as an example of this very job.</param>
    public static IEnumerable<string> NotToGlue(string learn) =>
    [
        $"One of the three has not passed. Paper is cheap: print again, or type what you saw (such as {Code(learn)}) and build again.",
        "The tick shows in B or F, or in no box: the sheet went in the wrong way, or the page was scaled.",
        "Toner comes off when you rub, fold or tape a spare corner, or the sheet is curled or still warm.",
        "The two pair codes differ: front and mask are from two builds.",
    ];

    /// <summary>Cautions.</summary>
    public static string Cautions() =>
        "The fuser is hot. Only paper or film that the printer's maker allows. If toner flakes or the next sheet gets ghosts, stop and use less toner (<code>--black safe</code>). "
        + "Spray glue: window open, no flame. Acrylic: eye protection, clamp it, cut away from yourself, gloves for snapping. Low voltage with a fuse behind the panel.";

    private static bool HasLastTick(this PrinterFile printer, Tick tick) => !printer.Turns.IsEmpty && printer.Turns[^1].Tick == tick;

    /// <summary>How heavy the paper is, as packets tell it on either side of the sea.</summary>
    public static string Weight(PrinterPath? path) => path?.WeightGramsPerM2 is { } grams
        ? string.Create(CultureInfo.InvariantCulture, $"{grams:0} g/m² ({PaperWeight.PoundsBond(grams):0} lb bond)")
        : "heavy (120 to 160 g/m², 32 to 43 lb bond, is usual)";

    private static string Edge(PrinterPath? path) => path?.Edge switch
    {
        FirstEdge.Short => "the short edge first",
        FirstEdge.Long => "the long edge first",
        _ => "as you always do; mark the edge that goes in first",
    };

    private static string Settings(PrinterFile? printer)
    {
        var heavy = printer?.Path.HeavySetting is { } setting ? $"paper type <b>{Text(TrialSheet.Short(setting))}</b>" : "paper type heavy or thick";
        return $"<b>actual size, 100 %</b>, never fitted to the page; {heavy}; best resolution; {(printer?.Path.Colour == false ? "black" : "colour on")}; toner saving off";
    }

    /// <summary>Which way a face looks, as the last which-way sheet told.</summary>
    public static string FaceUp(PrinterFile? printer, string face) => (printer?.Face ?? PrintedFace.Unknown) switch
    {
        PrintedFace.Upper => $"{face} <b>up</b>",
        PrintedFace.Lower => $"{face} <b>down</b>",
        _ => $"{face} up or down, whichever your printer prints on: a pencil cross on a sheet of plain paper tells, and so does the which-way sheet",
    };
}
