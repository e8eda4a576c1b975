using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Geometry;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>Two pages for changing one legend of a finished panel: what to print, how the old print is lifted, what stays as it is, who is called again.</summary>
public static class LegendBook
{
    private const double PictureMm = 150;

    /// <summary>The pages.</summary>
    /// <param name="facts">The desk as it is now, with the new words.</param>
    /// <param name="patch">The piece that is exchanged.</param>
    /// <param name="facePng">The panel's face by day.</param>
    /// <param name="faceBorderMm">How far that picture reaches beyond the panel.</param>
    public static ImmutableArray<byte> Write(BookFacts facts, LegendPatch patch, ImmutableArray<byte> facePng, double faceBorderMm)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(patch);
        var (name, title) = (patch.Words.Length > 0 ? $"“{patch.Words}”" : patch.Item, facts.Laid.Desk.Title);
        var page = BookHtml.Begun($"{title}: change {name}", $"{title} · change {name}", "legend-book");
        page.Append(CultureInfo.InvariantCulture, $"<header>\n<h1>Change {Text(name)} on {Text(patch.Panel.Panel.Title)}</h1>\n<p class=\"code\">{Text(title)}, item {Code(patch.Item)}. For a panel that is finished, printed in order {Letter(facts.Maker.Order)}.</p>\n</header>\n<main>\n");
        page.Append("<section class=\"sheet-one\">\n<h2>1. Print it anew</h2>\n");
        BookHtml.Blocks(page, [new PictureRow([Picture(patch, facePng, faceBorderMm)])], string.Empty);
        BookHtml.Step(page, Print(facts, patch), "1.1");
        page.Append("</section>\n<section class=\"chapter\">\n<h2>2. Put it in</h2>\n");
        BookHtml.Step(page, facts.Maker.Order == WorkOrder.PrintBehind ? Exchange(patch) : Lift(facts, patch), "2.1");
        BookHtml.Step(page, Call(facts, patch), "2.2");
        return BookHtml.Ended(page.Append("</section>\n</main>\n"));
    }

    private static BookPicture Picture(LegendPatch patch, ImmutableArray<byte> facePng, double faceBorderMm)
    {
        var panel = patch.Panel.Panel;
        var whole = new Box<PanelSpace>(0, 0, panel.WidthMm, panel.HeightMm).Grow(faceBorderMm);
        var (box, lineMm) = (patch.Box, Math.Max(panel.WidthMm, panel.HeightMm) / 250);
        var frame = string.Create(CultureInfo.InvariantCulture, $"<rect x=\"{box.LeftMm - whole.LeftMm:0.##}\" y=\"{whole.TopMm - box.TopMm:0.##}\" width=\"{box.WidthMm:0.##}\" height=\"{box.HeightMm:0.##}\" fill=\"none\" stroke=\"#111\" stroke-width=\"{3 * lineMm:0.##}\"/><rect x=\"{box.LeftMm - whole.LeftMm:0.##}\" y=\"{whole.TopMm - box.TopMm:0.##}\" width=\"{box.WidthMm:0.##}\" height=\"{box.HeightMm:0.##}\" fill=\"none\" stroke=\"#ffd75e\" stroke-width=\"{lineMm:0.##}\" stroke-dasharray=\"{4 * lineMm:0.##} {2 * lineMm:0.##}\"/>");
        return new(
            Drawing(whole, PictureMm, $"{panel.Title} with the piece that is exchanged in a dashed frame", [Image([.. facePng], whole, whole), frame]),
            patch.Panel.Order == WorkOrder.PrintBehind ? "The legend in its dashed frame. The whole print is exchanged." : "The dashed frame is where you cut, around the legend.",
            PictureMm);
    }

    private static BookStep Print(BookFacts facts, LegendPatch patch)
    {
        var sheet = facts.Print.Sheets.FirstOrDefault(sheet => sheet.Panels.Contains(patch.Panel.Panel.Id)) ?? facts.Print.Sheets[0];
        var isShop = facts.Maker.Print == PrintWay.CopyShop;
        return new(
            "print-again",
            $"Print {sheet.Id} again, front and mask",
            BookTimes.PrintSheet + BookTimes.LookAtSheet,
            [
                isShop
                    ? new Doings([$"Build with {Code("--bracket")}, take {Code("job.pdf")} to the copy shop, and keep the copy on which the fewest dots shine."])
                    : new Doings(sheet.Steps),
            ],
            new(
                $"Both sides bear the code <b>{sheet.PairCode}</b>, the tick shows in box A, and {(facts.Print.MostDots == 0 ? "no dot shines" : string.Create(CultureInfo.InvariantCulture, $"at most {facts.Print.MostDots} {(facts.Print.MostDots == 1 ? "dot shines" : "dots shine")} in each row"))}.",
                "Print it once more: only a sheet in register will do, as the old one is."))
        {
            Cautions = [Caution.Fuser],
        };
    }

    private static BookStep Lift(BookFacts facts, LegendPatch patch)
    {
        var box = patch.Box;
        var steps = new List<string>
        {
            "Everything unplugged. " + (patch.Loosened.IsEmpty ? "No control has to come off." : $"Take {Names(patch)} out of the panel, their wires on: they lie on the piece. Punch their holes in the new print, as in the old."),
            (facts.Maker.Order == WorkOrder.PrintBehind || facts.Laid.Desk.Stack.CoverMm > 0 ? string.Empty : "Give the new print the coats of varnish that the old one has, and let them dry. ") + "Cut the new panel out of its sheet a hand's breadth larger than the frame, so that it shows its neighbours, too. Plug the lamps in again, darken the room, and lay it over the old print: the neighbours' legends shine whole through both when it lies right. Tape it down, pull the plug.",
            $"Steel rule and a new blade: cut the frame through both prints at once, in the black, {facts.Size(box.WidthMm, box.HeightMm)}, its lower left corner {facts.Ruler(box.LeftMm)} from the left and {facts.Ruler(box.BottomMm)} from the lower edge of the panel. Two strokes, no more: the acrylic beneath keeps every scratch.",
            "Take the upper print off; the piece in the frame is the new one. Warm the old one with a hair dryer, hand-warm, lift a corner with the blade and peel it off flat. Rub the glue off with a finger, then soapy water; no solvents: they craze acrylic.",
            "Blacken all cut edges with a felt pen, glue the new piece on its back, on waste paper, and drop it in. Stroke it down.",
        };
        if (!patch.Crossed.IsEmpty)
        {
            steps.Insert(2, $"The frame also cuts {Text(string.Join(", ", patch.Crossed.Select(word => $"“{word}”")))}, and perhaps lines beside it: they come anew with the piece.");
        }

        return new(
            "lift",
            "Exchange the piece in its frame",
            BookTimes.GluePanel,
            [new Doings([.. steps])],
            new(
                "In the dark no seam glows and the new legend is as bright as its neighbours; with a finger the seam is felt, but nothing lifts.",
                "A seam that glows: felt pen along it from the front, then a dab of clear varnish. A piece that lies off: lift it at once, and drop it in again."))
        {
            WaitMinutes = BookTimes.GlueDries,
            Tools = [Tool.Knife, Tool.SteelRule, Tool.HairDryer],
            Materials = ["tape", "felt pen", "spray glue", "clear varnish"],
            Cautions = [Caution.Knife, Caution.Glue],
        };
    }

    private static BookStep Exchange(LegendPatch patch) => new(
        "exchange",
        "Exchange the print behind the plate",
        patch.Loosened.Length * BookTimes.FitPart,
        [
            new Doings(
            [
                "Everything unplugged. Label every wire that would hide which part it goes to, and take the controls off the plate, nut by nut; their wires stay on.",
                "Lift the tape, take the old print out, and use it as a pattern: the new one's holes lie on the old one's. Punch them.",
                "Lay the new print behind the plate, tape its upper edge, and fit the controls as they were.",
            ]),
        ],
        new("Every nut covers its hole; in the dark nothing shines but the legends.", "The print slipped: loosen the nuts, lay it right against the lamp, tighten."))
    {
        Tools = [Tool.Spanners, Tool.Punches, Tool.Knife],
        Materials = ["tape", "felt pen"],
        Cautions = [Caution.Knife],
    };

    private static BookStep Call(BookFacts facts, LegendPatch patch)
    {
        ImmutableArray<string> loosened = [.. patch.Loosened.Select(part => part.Origin.Item).Append(patch.Item).Distinct()];
        var called = facts.Wiring is { } wiring ? wiring.Pins.Controls.Where(control => loosened.Any(item => control.Id == item || control.Id.StartsWith(item + ".", StringComparison.Ordinal))).ToImmutableArray() : [];
        var only = string.Join(" ", called.Select(control => $"--only {control.Id}"));
        return new(
            "call-again",
            called.IsEmpty ? "Look at it" : "Call again those that were touched",
            BookTimes.LookLit,
            [
                new Paragraph("What stays untouched: the plate, every hole, every wire, the emitters, the pins and the firmware; all that lies outside the frame."),
                .. called.IsEmpty
                    ? [new Paragraph(facts.Wiring is null ? "The desk has no controller: try the controls whose nuts were off." : "No control was loosened, and none has to be called.")]
                    : new BookBlock[]
                    {
                        new Doings([$"Plug the board in, and type {Code($"lampblack rollcall PORT DESK {only}")}"]),
                        new BookTable("To be called again", ["Control", "Name"], [.. called.Select(control => new BookRow("call", control.Id, [Text(control.Id), Text(control.Name)]))], IsTicked: true),
                    },
            ],
            new(called.IsEmpty ? "The panel looks as its picture does, by day and lit." : "Each of them answered.", "As in the build book, at the step that it belongs to."));
    }

    private static string Names(LegendPatch patch) => Text(string.Join(", ", patch.Loosened.Select(part => part.Origin.Name)));

    private static string Letter(WorkOrder order) => order switch { WorkOrder.GlueThenDrill => "A", WorkOrder.DrillThenGlue => "B", _ => "C" };
}
