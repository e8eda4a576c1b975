using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Desks;
using Lampblack.Printers;
using Lampblack.Sheets;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Jobs;

/// <summary>One page for the evening at the printer, for this very job: which file, which face, which edge, what right and wrong look like, when not to glue.</summary>
internal static class PrintCard
{
    public const string Path = "print.html";

    // More sheets than this go the same way as the first; they are named, not drawn, so that the card stays one page.
    private const int MostDrawn = 2;
    private const int MostNamed = 8;
    private const double ThumbMm = 30;
    private const double SmallThumbMm = 22;
    private const double DotsMm = 72;

    // Where a job has more files than most, the words about them need the room.
    private const double SmallDotsMm = 52;

    private const string Style =
        "@page{margin:10mm}body{font:9.2pt/1.32 sans-serif;color:#111;background:#fff;max-width:186mm;margin:0 auto}"
        + "h1{font-size:14pt;margin:0 0 1mm}h2{font-size:10.5pt;margin:2.6mm 0 .8mm;border-bottom:.3mm solid #111}p{margin:.8mm 0}"
        + "ol,ul{margin:.6mm 0;padding-left:5.5mm}li{margin:.5mm 0}code{font:8.4pt monospace}svg{display:block;border:.2mm solid #999}"
        + ".row{display:flex;gap:4mm;margin:1.4mm 0}.row figure{max-width:26mm}.dots figure{max-width:none}figure{margin:0}figcaption{font-size:8.2pt;line-height:1.2;margin:.4mm 0 1mm}"
        + ".pages{float:right;display:grid;grid-template-columns:auto auto;gap:1mm 3mm;margin:0 0 1mm 5mm}.pages figure{max-width:30mm}h2{clear:both}"
        + "figcaption code{font-size:7pt;white-space:nowrap}.right{font-weight:bold}.small{font-size:8pt}";

    /// <summary>Writes the card.</summary>
    public static OutputFile Of(string title, WorkOrder order, ImmutableArray<Sheet> sheets, PrintSetup setup, BuildRequest request, bool hasParts)
    {
        var made = JobFiles.Of(request, hasParts);
        var page = new StringBuilder("<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n");
        page.Append(CultureInfo.InvariantCulture, $"<title>Print card: {Text(title)}</title>\n<style>{Style}</style>\n</head>\n<body>\n<h1>Print card: {Text(TrialSheet.Short(title))}</h1>\n");
        page.Append(CultureInfo.InvariantCulture, $"<p>{PrintCardWords.Printer(request.Printer)}</p>\n<p class=\"small\">{Job(order, sheets, setup)}</p>\n");
        page.Append("<h2>Print</h2>\n<div class=\"pages\">").AppendJoin(string.Empty, sheets.Take(MostDrawn).SelectMany(sheet => Pages(sheet, setup.Printer, sheets.Length == 1 ? ThumbMm : SmallThumbMm)));
        page.Append("</div>\n").AppendJoin(string.Empty, PrintCardExtras.CopyShop(request, sheets.Length).Prepend(PrintCardExtras.Plain(made)).Select(words => $"<p>{words}</p>\n"));
        page.Append(List("ol", PrintCardWords.Steps(request.Printer, setup.Paper, sheets[0], made)));
        if (sheets.Length > 1)
        {
            page.Append("<p>The other sheets go the same way, one after the other: never lay the front of one in for the mask of another.</p>\n");
        }

        var mostDots = Math.Clamp(PassLimits.MostDots(setup.Spreads.SmallestMm), 0, 5);
        page.Append("<h2>Before you glue: three gates, in this order</h2>\n").Append(List("ol", PrintCardWords.Gates(order, mostDots)));
        page.Append("<div class=\"row\">").AppendJoin(string.Empty, Turns().Concat(Dots(mostDots, made.HasMore ? SmallDotsMm : DotsMm))).Append("</div>\n");
        page.Append("<h2>Do not glue when</h2>\n").Append(List("ul", PrintCardWords.NotToGlue(JobFiles.LearnExample(request, sheets[0]))));
        page.Append(CultureInfo.InvariantCulture, $"<h2>Take care</h2>\n<p>{PrintCardWords.Cautions()}</p>\n</body>\n</html>\n");
        return new(Path, "one page for the printer: which file, which face, which edge, what right and wrong look like", [.. Encoding.UTF8.GetBytes(page.ToString())]);
    }

    private static string Job(WorkOrder order, ImmutableArray<Sheet> sheets, PrintSetup setup)
    {
        var named = sheets.Take(MostNamed).Select(sheet =>
            $"{Text(sheet.Id)} (pair <b>{Text(sheet.PairCode)}</b>): {Text(TrialSheet.Short(string.Join(", ", sheet.Panels.Select(panel => panel.Panel.Title).Distinct())))}");
        var more = sheets.Length > MostNamed ? string.Create(CultureInfo.InvariantCulture, $"; and {sheets.Length - MostNamed} more") : string.Empty;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{Text(setup.Paper.Name)}; black <b>{Text(setup.Black.Name)}</b>, {setup.Black.Ink.TotalCoverage * 100:0} % toner; openings {setup.Spreads.Words} mm larger all round; order of work {TrialSheet.OrderText(order)}. {string.Join("; ", named)}{more}.");
    }

    private static IEnumerable<string> Pages(Sheet sheet, PrinterProperties printer, double shownMm)
    {
        yield return Figure(
            PrintCardPictures.Page(SheetPdf.FrontPage(sheet, printer), shownMm, $"{sheet.Id} front"), $"{Code(PrintFiles.Path(sheet, "front"))} as it comes out", isRight: false);
        yield return Figure(
            PrintCardPictures.Page(SheetPdf.MaskPage(sheet, printer), shownMm, $"{sheet.Id} mask"), $"{Code(PrintFiles.Path(sheet, "mask"))}, mirrored: that is right", isRight: false);
    }

    private static IEnumerable<string> Turns()
    {
        yield return Figure(PrintCardPictures.Turn('A', 20, "tick in A"), "Right: through the paper, in A.", isRight: true);
        yield return Figure(PrintCardPictures.Turn('B', 20, "tick in B"), "Wrong: other edge first.", isRight: false);
        yield return Figure(PrintCardPictures.Turn('F', 20, "tick in F"), "Wrong: printed on this face.", isRight: false);
    }

    private static IEnumerable<string> Dots(int most, double shownMm)
    {
        var within = (most + 0.95) * PassLimits.DotStepMm;
        var beyond = (most + 2.95) * PassLimits.DotStepMm;
        var words = most == 0 ? "none shines" : string.Create(CultureInfo.InvariantCulture, $"{most} {(most == 1 ? "shines" : "shine")}");
        var right = Figure(PrintCardPictures.Dots(0, shownMm, "row of dots, all dark"), "Best: no dot shines.", isRight: true);
        var passes = Figure(PrintCardPictures.Dots(within, shownMm, "row of dots that passes"), $"Still passes: {words}.", isRight: true);
        var wrong = Figure(PrintCardPictures.Dots(beyond, shownMm, "row of dots that fails"), "Wrong: more shine. The mask is off towards the row's letter.", isRight: false);
        yield return $"<div class=\"dots\">{right}{(most == 0 ? string.Empty : passes)}{wrong}</div>";
    }

    private static string Figure(string picture, string words, bool isRight) =>
        $"<figure>{picture}<figcaption{(isRight ? " class=\"right\"" : string.Empty)}>{words}</figcaption></figure>";

    private static string List(string tag, IEnumerable<string> points) => $"<{tag}>{string.Concat(points.Select(point => $"<li>{point}</li>"))}</{tag}>\n";
}
