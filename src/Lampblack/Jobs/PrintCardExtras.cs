using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Printers;
using Lampblack.Sheets;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Jobs;

/// <summary>What the print card says of the files that only some jobs have: for plain paper, a copy shop, a second pass, a film.</summary>
internal static class PrintCardExtras
{
    /// <summary>What goes on plain paper before anything heavy is printed.</summary>
    public static string Plain(JobFiles made) =>
        $"First, on plain paper: {Code(TrialSheet.Path)}, to be cut out and read from your chair{(made.PartCard ? $"; {Code(PartCard.Path)}, to lay the real parts on" : string.Empty)}.";

    /// <summary>The visit at a copy shop.</summary>
    public static IEnumerable<string> CopyShop(BuildRequest request, int sheets)
    {
        if (request.BracketStepMm is not { } stepMm)
        {
            yield break;
        }

        yield return string.Create(
            CultureInfo.InvariantCulture,
            $"<b>At a copy shop:</b> take {Code(BracketFile.Path)} there and nothing else. Its first page tells the operator: actual size, two-sided on the long edge, every page. "
            + $"You get nine copies of {(sheets == 1 ? "the sheet" : "each sheet")}, the mask moved in steps of {stepMm:0.###} mm. Hold each to a lamp and keep the one on which the fewest dots shine.");
        yield return "<b>Or at a printer of your own:</b>";
    }

    /// <summary>Second passes, then the film: what is printed after front and mask.</summary>
    public static IEnumerable<string> Steps(PrinterFile? printer, Sheet sheet, JobFiles made)
    {
        var sides = made.Twice(printer, sheet).ToList();
        var passes = sides.Select(side => $"lay the sheet in {AsBefore(printer, side)}, {PrintCardWords.FaceUp(printer, $"the {side}'s own side")}, and print {Code(PrintFiles.Path(sheet, $"{side}-again"))} on it");
        if (sides.Count > 0)
        {
            yield return $"Second pass, on a spoiled sheet first: let the sheet cool, {string.Join("; then ", passes)}.";
        }

        if (made.Film)
        {
            yield return $"For a mask on film: one clear film that the printer's maker allows; print {Code(PrintFiles.Path(sheet, "mask-film"))} on it, one-sided. It is not mirrored: that is right. It lies behind the front, its toner against the paper.";
        }
    }

    private static string AsBefore(PrinterFile? printer, string side) => printer?.Path.Turning switch
    {
        Turning.Automatic when side == "mask" && printer.HalfTurnOfBack => "by hand, one-sided, the <b>same edge first</b> as always",
        Turning.Automatic => "by hand, one-sided, the <b>other edge first</b>",
        _ => $"as for {Code($"{side}.pdf")}, but the <b>other edge first</b>",
    };
}
