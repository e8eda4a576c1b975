using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>From plain paper to a sheet that may be glued.</summary>
internal static class PrintingChapter
{
    private const double BarMm = 100;
    private const double BarOffMm = 0.6;
    private const double TrialDrillMm = 3;

    /// <summary>What is tried before anything costs toner or acrylic.</summary>
    public static BookChapter Trying(BookFacts facts) => new("try", "Try it on plain paper", [Layout(facts), .. WhichWay(facts)]);

    /// <summary>The sheets themselves.</summary>
    public static BookChapter Printing(BookFacts facts) =>
        new("print", "Print front and mask", [facts.Maker.Print == PrintWay.CopyShop ? Shop(facts) : Own(facts), Gauges(facts), Dark(facts), Toner(facts)]);

    private static string LeastDrill(BookFacts facts) => facts.Exact(TrialDrillMm);

    private static string Bar(BookFacts facts) => $"{facts.Number(BarMm - BarOffMm)} to {facts.Exact(BarMm + BarOffMm)}";

    private static BookStep Layout(BookFacts facts) => new(
        "try-layout",
        "Lay the parts on a trial sheet",
        BookTimes.Trial,
        [
            new PictureRow([PaperDrawings.Trial(facts)]),
            new Doings(
            [
                $"Print {Code("trial.pdf")} on plain paper at actual size (100 %), never fitted to the page{(facts.Maker.Print == PrintWay.CopyShop ? "; any printer will do for plain pages, if its bar is right" : string.Empty)}.",
                "Cut the panels out, tape them on cardboard, and lay the real parts on their crosshairs, knobs on.",
                "Put it where the desk will stand. Work every control as you will in use, in gloves if you wear some; read every legend from your chair.",
            ]),
        ],
        new(
            $"The bar of the page is {Bar(facts)} long on your ruler; every part has room for the hand in front and for its body behind; you can read every word from where you sit.",
            "A wrong bar: switch off “fit”, “shrink” and “borderless” in the print dialog. Too close or too small: move it in the desk file, build again, print the trial sheet again. It costs one sheet of plain paper."))
    {
        Tools = [Tool.Computer, Tool.Scissors, Tool.Ruler],
        Materials = ["plain paper", "cardboard to tape it on", "tape"],
        Needs = [Made.PartsChecked],
        Makes = [Made.LayoutTried],
    };

    private static IEnumerable<BookStep> WhichWay(BookFacts facts)
    {
        if (facts.Maker.Print == PrintWay.CopyShop || facts.Print.IsWayKnown)
        {
            yield break;
        }

        var second = facts.Maker.Print == PrintWay.TurnsItself
            ? $"Print its {Code("duplex.pdf")}, two-sided, about the long edge, like a book."
            : $"Print its {Code("front.pdf")}; lay the sheet in again, the same edge first, the white side where the printed one was; print its {Code("back.pdf")}.";
        yield return new(
            "which-way",
            "Find out which way your printer takes a sheet",
            BookTimes.WhichWay,
            [
                new Doings(
                [
                    $"Type {Code("lampblack printer which-way -o which-way")} {InWorkshop.At("Printer", "or only the which-way sheet")} and lay in one sheet of plain paper. Pencil a cross on the face that lies up, and a line along the edge that goes in first.",
                    second,
                    "Hold it against a lamp with TOP up and look where the tick is.",
                ]),
                new PictureRow([facts.Print.Right, .. facts.Print.Wrong]),
            ],
            new(
                "The tick shows in box A, through the paper.",
                $"In box B: turn the sheet by half before its second side. In a box F: lay it in with the other face up. In no box, or small: the page was scaled. A printer file keeps what you found: {Code("lampblack printer new NAME")}, then {Code("lampblack printer learn NAME --tick A")}, or B, or front {InWorkshop.At("Print", "Hold the sheet to a lamp. Where is the tick?")}."))
        {
            Tools = [Tool.Pencil, Tool.Lamp, Tool.Computer],
            Materials = ["plain paper"],
            Makes = [Made.WayKnown],
            OnlyOn = [Way.OwnPrinter],
        };
    }

    private static BookStep Own(BookFacts facts)
    {
        var print = facts.Print;
        var blocks = new List<BookBlock> { new Paragraph("Print each sheet three times: one to rub, fold and spoil, one to glue, one in reserve."), new Paragraph(print.Printer) };
        if (!print.IsWayKnown && facts.Maker.Print != PrintWay.TurnsItself)
        {
            blocks.Add(new Paragraph("How the sheet goes in for its second side you found out with the which-way sheet: the same edge first where its tick was in box A, turned by half where it was in B, the other face up where it was in F. That comes before what stands below."));
        }

        foreach (var sheet in print.Sheets)
        {
            blocks.Add(new PictureRow([sheet.Front, sheet.Mask]));
            if (sheet == print.Sheets[0])
            {
                blocks.Add(new Doings(sheet.Steps));
            }
        }

        if (print.Sheets.Length > 1)
        {
            blocks.Add(new Paragraph("The other sheets go the same way, one after the other: never lay the front of one in for the mask of another."));
        }

        return new(
            "print-sheets",
            print.Sheets.Length == 1 ? "Print the sheet: front, then mask" : "Print the sheets: front, then mask",
            BookTimes.PrintSheet * print.Sheets.Length,
            [.. blocks],
            new(
                $"Both sides of each sheet bear the same pair code: {string.Join(", ", print.Sheets.Select(sheet => $"{sheet.Id} <b>{sheet.PairCode}</b>"))}.",
                "Codes that differ come from two builds: print both sides again, from the same one."))
        {
            Tools = [Tool.Pencil],
            Materials = [$"{print.Paper}, {print.Weight}"],
            Cautions = [Caution.Fuser],
            Needs = Before(facts, print.IsWayKnown ? [] : [Made.WayKnown]),
            Makes = [Made.Sheet],
            OnlyOn = [Way.OwnPrinter],
        };
    }

    private static BookStep Shop(BookFacts facts) => new(
        "shop",
        "Have it printed at a copy shop",
        BookTimes.ShopVisit,
        [
            new Paragraph("You pay for a bundle of nine, each with its mask moved a little: on one of them your panel is in register, whatever that printer does.") { IsExplanation = true },
            new Doings(
            [
                $"Take {Code("job.pdf")} there and nothing else. Its first page tells the operator: {Text(facts.Print.Paper)}, {Text(facts.Print.Weight)}, actual size, two-sided on the long edge, every page, no toner saving.",
                "Let the sheets cool flat. Keep them in their order: each bears its number on both sides.",
            ]),
            new PictureRow([.. facts.Print.Sheets.SelectMany(sheet => new[] { sheet.Front, sheet.Mask })]),
        ],
        new("You have nine copies of every sheet, printed on both sides, and the two sides of each bear the same number.", "One-sided, fitted to the page, or on thin paper: show the operator the first page again, and have it done once more."))
    {
        Needs = Before(facts, []),
        Makes = [Made.Sheet],
        OnlyOn = [Way.CopyShop],
    };

    private static BookStep Gauges(BookFacts facts)
    {
        var (print, isShop) = (facts.Print, facts.Maker.Print == PrintWay.CopyShop);
        var rows = print.MostDots == 0 ? "no dot shines in any row" : string.Create(CultureInfo.InvariantCulture, $"at most {print.MostDots} {(print.MostDots == 1 ? "dot shines" : "dots shine")} in each of the rows N, E, S and W");
        return new(
            "gauges",
            isShop ? "Choose the copy that is in register" : "Look whether front and mask have met",
            BookTimes.LookAtSheet * print.Sheets.Length * (isShop ? 3 : 1),
            [
                new Doings(
                [
                    isShop ? "Hold each copy against a lamp and count the dots that shine in its rows. Keep the one with the fewest." : "Hold the sheet against a lamp. The tick tells whether it was turned right, the rows of dots how far the mask lies off: both lie in the waste round the panels, with words beside them that say what passes. The four scales NE, SE, SW, NW tell the same in tenths of a millimetre: look which pair of lines stands in one line.",
                    "Measure the bars of both sides with the ruler.",
                ]),
                new PictureRow([print.Right, .. print.Wrong]),
                new PictureRow([PaperDrawings.Dots(print.MostDots)]),
                new Paragraph($"Each dot stands for {facts.Exact(0.1)}; the panels are made so that {rows} when they pass.") { IsExplanation = true },
            ],
            new(
                $"The tick shows in box A, {rows}, and each bar is {Bar(facts)} long.",
                isShop
                    ? $"No copy passes: type what the best one shows, such as {Code(print.LearnExample)}{print.RowsPlaceTold}, build again with {Code("--bracket")}, and have that printed."
                    : $"Tick elsewhere: as on the which-way sheet. More dots: print again; if it stays so, type what you see, such as {Code(print.LearnExample)}{print.RowsPlaceTold} {InWorkshop.At("Print", "How many dots shine in each row?", "That is what I see")}, build again, print again. A wrong bar: the page was scaled."))
        {
            Tools = [Tool.Lamp, Tool.Ruler],
            Needs = [Made.Sheet],
            Makes = [Made.SheetPassed],
            ShowsAgain = isShop || print.IsWayKnown ? [] : [new("which-way", "the same tick is looked for, now on the real sheet")],
        };
    }

    private static BookStep Dark(BookFacts facts) => new(
        "dark-look",
        "Look at the sheet in a dark room",
        BookTimes.DarkLook,
        [
            new Doings(["Switch everything off but one lamp that stays cool (LED), and hold the sheet a hand's breadth before it. Never lay paper on a lamp."]),
            .. facts.Laid.Panels.Select(panel => facts.Picture($"{panel.Panel.Id}/through", $"{panel.Panel.Id}/through-off")).OfType<BookBlock>(),
        ],
        new(
            "Every legend that shines in the first picture shines whole and evenly (hidden ones stay dark there, too), nothing shines beside one, and the black has neither pinholes nor gray patches.",
            facts.Maker.IsBlackOnly
                ? $"Pinholes or gray patches: print the side once more on top ({Code("lampblack build DESK --second-pass mask")} makes the file). A shine beside letters: register, as in the step before."
                : $"Pinholes or gray patches: take a denser black build ({Code("lampblack build DESK --black full")}) {InWorkshop.At("Print", "full")}, or heavier paper. A shine beside letters: register, as in the step before."))
    {
        Tools = [Tool.Lamp],
        Needs = [Made.SheetPassed],
        Makes = [Made.SheetPassed],
    };

    private static BookStep Toner(BookFacts facts) => new(
        "rub",
        "Rub, fold and tape a corner of the waste",
        BookTimes.RubAndFold,
        [
            new PictureRow([PaperDrawings.Rub()]),
            new Doings(
            [
                "On a black spot in the waste: rub hard with a finger, fold it once across, press tape on and pull it off.",
                .. facts.Maker.IsBlackOnly || facts.Maker.Print == PrintWay.CopyShop ? ImmutableArray<string>.Empty : [$"Where the sheet has a row of patches C160 to C400, do the same with each, and write down which flake and which hold: so much toner your printer melts on, and a printer file keeps it ({Code("docs/printer.md")} tells how)."],
                facts.Maker.Order == WorkOrder.PrintBehind
                    ? "Cut through the black with the knife that you will use, and look at the edge."
                    : $"Glue another black spot (a coupon, where the sheet has one; else a corner of the print that is there to be spoiled) to the strip for trials. When it is dry, clamp it on the piece of board, cut the paper, drill it with {LeastDrill(facts)}, give it its coat: everything that the panel will go through.",
            ]),
        ],
        new(
            facts.Maker.Order == WorkOrder.PrintBehind ? "The toner stays on; at the fold there is a fine line at most." : "The toner stays on; at the fold there is a fine line at most; the paper sits fast after drilling, and the coat has not dissolved the black.",
            facts.Maker.Print == PrintWay.CopyShop
                ? "Ask for the heavier paper setting, or for another paper, and have it printed again."
                : $"Choose the paper type “heavy”; then a black with less toner: {Code("lampblack build DESK --black safe")}, or {Code("--black K")} {InWorkshop.At("Print", "safe, less toner")}. Print again, and rub again."))
    {
        WaitMinutes = facts.Maker.Order == WorkOrder.PrintBehind ? 0 : BookTimes.GlueDries + BookTimes.CoatDries,
        Tools = [Tool.Knife, Tool.SteelRule, .. facts.Maker.Order == WorkOrder.PrintBehind ? ImmutableArray<BookTool>.Empty : [Tool.Drill, new(Tool.Drills) { Sizes = [new(TrialDrillMm, LeastDrill(facts))] }, Tool.Clamps]],
        Materials = ["tape", .. facts.Maker.Order == WorkOrder.PrintBehind ? ImmutableArray<string>.Empty : ["spray glue", "clear matt varnish", "the strip of acrylic for trials", "piece of board to drill on"]],
        Cautions = [Caution.Knife, .. facts.Maker.Order == WorkOrder.PrintBehind ? ImmutableArray<Caution>.Empty : [Caution.Glue, Caution.Drill, Caution.Paint]],
        Needs = [Made.Sheet, Made.SheetPassed],
        Makes = [Made.TonerHolds, Made.PrintReady],
    };

    /// <summary>With order A the layout alone must be right; else the plate is drilled, and the print follows its holes.</summary>
    private static ImmutableArray<Made> Before(BookFacts facts, ImmutableArray<Made> more) =>
        facts.Maker.Order == WorkOrder.GlueThenDrill ? [Made.LayoutTried, .. more] : [Made.LayoutTried, Made.HolesMeasured, .. more];
}
