using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>The plate is cut, the print is glued on it or laid behind it, edges are made black, the face is made hard.</summary>
internal static class PlateChapters
{
    private const double CutOffMm = 0.5;

    // As wide as tape is.
    private const double LeastHingeMm = 12;

    public static BookChapter Cutting(BookFacts facts) => new("cut", "Cut the plate", [.. facts.Plates.Select(plate => Cut(plate, facts)), .. Corners(facts)]);

    public static BookChapter Gluing(BookFacts facts) => facts.Maker.Order == WorkOrder.PrintBehind
        ? new("behind", "Lay the print behind the plate", [Behind(facts)])
        : new("glue", "Glue the print on", [Glue(facts), .. facts.Maker.Order == WorkOrder.DrillThenGlue ? [OpenFromBehind(facts)] : ImmutableArray<BookStep>.Empty]);

    /// <summary>What is left to do to the panels once they are glued and drilled; null where nothing is.</summary>
    public static BookChapter? Finishing(BookFacts facts)
    {
        ImmutableArray<BookStep> steps = [.. facts.Maker.Order == WorkOrder.GlueThenDrill ? [Edges(facts)] : ImmutableArray<BookStep>.Empty, .. Coat(facts)];
        return steps.IsEmpty ? null : new("finish", "Edges and face", steps);
    }

    private static BookStep Cut(BookPlate plate, BookFacts facts)
    {
        var (isSaw, isGlued) = (facts.Maker.Cutting == CuttingWay.Saw, facts.Maker.Order == WorkOrder.GlueThenDrill);
        var how = isSaw
            ? $"Clamp the plate on a board, the line just over its edge. Hold the rest with the {facts.Maker.OtherHand} hand, saw with the {facts.Maker.Hand} one, slowly, beside the line on the side of the waste."
            : $"For each cut: steel rule on the line, held down with the {facts.Maker.OtherHand} hand; with the {facts.Maker.Hand} hand draw the scoring knife along it five to eight times, towards the plate's edge and away from the fingers. Lay the groove over the table's edge, cover the plate, and press down sharply.";
        return new(
            $"cut-plate-{plate.Number}",
            $"Cut plate {plate.Number}",
            plate.Cuts.Length * (isSaw ? BookTimes.SawCut : BookTimes.SnapCut),
            [
                new Paragraph(isGlued ? $"{Text(plate.Title)}. The print is on it: cut the paper along its trim marks with a knife first, then {(isSaw ? "saw" : "score")} there, print up. Card under every clamp{(isSaw ? string.Empty : " and under the rule")}: bare toner takes scratches." : $"{Text(plate.Title)}. Leave the film on both faces."),
                new PictureRow([plate.Picture, .. plate.Number == 1 ? [PlateDrawings.Cut(facts.Maker)] : ImmutableArray<BookPicture>.Empty]),
                new Doings([how]) { IsExplanation = true },
                .. isGlued ? [new Doings(["Rub black felt pen along the paper's new edges: white edges glow."])] : ImmutableArray<BookBlock>.Empty,
                new BookTable("The cuts, in this order", ["Cut", "What to do"], [.. plate.Cuts.Select(cut => new BookRow("cut", $"{cut.Number}", [$"{cut.Number}", Text(cut.Sentence)]))], IsTicked: true),
            ],
            new(
                $"Every panel measures what it should{(facts.TrimMm > 0 ? $", and {facts.Exact(facts.TrimMm)} more on every side to file off" : string.Empty)}, within {facts.Exact(CutOffMm)}: {string.Join(", ", facts.Laid.Panels.Select(panel => $"{Text(panel.Panel.Title)} {facts.Size(panel.Panel.WidthMm, panel.Panel.HeightMm)}"))}.",
                isGlued ? "Too large: file it down. Too small or cracked into a panel: the print goes with it; cut another plate and glue the next print." : "Too large: file it down. Too small or cracked: cut it again from what is left over, or from another plate."))
        {
            Tools = [.. isSaw ? new BookTool[] { Tool.PlasticSaw, Tool.Ruler } : [Tool.Scorer, Tool.SteelRule], Tool.Clamps, Tool.Board, Tool.File, .. isGlued ? [Tool.Knife] : ImmutableArray<BookTool>.Empty],
            Materials = [$"clear acrylic, {facts.Exact(facts.Laid.Desk.Stack.PlateMm)}", .. isGlued ? ["card", "black felt pen"] : ImmutableArray<string>.Empty],
            Cautions = [isSaw ? Caution.Saw : Caution.Snap, .. isGlued ? [Caution.Knife] : ImmutableArray<Caution>.Empty, Caution.Dust],
            Needs = isGlued ? [Made.Goods, Made.Glued] : [Made.Goods, Made.LayoutTried],
            Makes = [Made.Plate],
            OnlyOn = [isSaw ? Way.Saw : Way.Snap],
        };
    }

    private static IEnumerable<BookStep> Corners(BookFacts facts)
    {
        ImmutableArray<Panel> round = [.. facts.Laid.Panels.Select(panel => panel.Panel).Where(panel => panel.CornerMm > 0)];
        if (round.IsEmpty)
        {
            yield break;
        }

        yield return new(
            "corners",
            "File the corners round",
            round.Length * BookTimes.FileCorners,
            [new PictureRow([PlateDrawings.Corner(facts, round[0])]), new Doings([$"Print {Code("templates.pdf")} on plain paper at actual size (100 %), measure its bar, cut a corner out and draw round it, with a light pencil where the plate is black. File towards the middle of the plate, never out of it: {string.Join(", ", round.Select(panel => $"{Text(panel.Title)} {facts.Exact(panel.CornerMm)}"))} radius. Then smooth all edges with dry abrasive paper on a block, in strokes from the print towards the plate's back: water creeps into the paper, and a stroke towards it lifts it."])],
            new("The template's corner covers the plate's, and no edge is sharp to a finger drawn along it with care.", "A corner too flat stays so: file the others alike, and it is a larger radius."))
        {
            Tools = [Tool.Computer, Tool.File, Tool.Abrasive, Tool.Scissors, Tool.Pencil, Tool.Ruler],
            Materials = ["plain paper"],
            Cautions = [Caution.Dust],
            Needs = [Made.Plate],
            Makes = [Made.Plate],
        };
    }

    private static BookStep Glue(BookFacts facts)
    {
        var (isFirst, maker) = (facts.Maker.Order == WorkOrder.GlueThenDrill, facts.Maker);
        return new(
            "glue",
            isFirst ? "Glue the print on the plate" : "Glue the print on the drilled plate",
            facts.Laid.Panels.Length * BookTimes.GluePanel,
            [
                new PictureRow([StackDrawing.Of(facts), .. isFirst ? facts.Plates.Select(plate => plate.Hinged) : []]),
                new PictureRow([PlateDrawings.Film(facts.Maker.Order), PlateDrawings.Hinge(facts.Maker.Order)]),
                new Doings(
                [
                    $"Cut each panel out of its sheet, outside its trim marks, with the knife along the steel rule. Leave the strip printed “{facts.Print.HingeWord}” on, where there is one.",
                    .. isFirst ? ["The film still on both faces, turn the plate over like the page of a book, its back up, and draw the cuts on the film of the back, with the black felt pen along the steel rule, at the measures of the table “The cuts, in this order”: where it says “left”, measure from the RIGHT edge now, as all is mirrored from behind. A film that nothing is seen through comes off the back: draw on strips of clear tape in its place.", "Turn the plate back again."] : ImmutableArray<string>.Empty,
                    $"Pull the film off the plate's front alone; {(isFirst ? "what is on its back stays on, and the lines show through, as in the drawing" : "the film on its back stays on")}. Wipe off dust.",
                    isFirst
                        ? "Lay the print where the drawing has its panel, mask side down, its face to you: its trim lines on the cuts that you drew, its tape hinge on the striped strip; whether its words then stand upright or on their side does not matter. Where a side of the panel is the plate's own edge, or two panels share a cut, cut the paper there at its trim line first."
                        : "Tape the panel down on a board, a scrap of the same acrylic close against its upper edge. Lay the print on, mask side down, its face to you, and hold all of it against a lamp: every crosshair in the middle of its hole.",
                    isFirst
                        ? $"{string.Join(" ", facts.Print.Hinges.Select(hinge => Hinged(hinge, facts)))} Press the tape flat, and fold the print back over it like a page, with the {maker.OtherHand} hand."
                        : $"The tape hinge lies over the scrap, level with the panel: tape its strip to the scrap (where the sheet had no room for one, put a strip of tape along the print's upper edge). Press it flat, and fold the print back over it like a page, with the {maker.OtherHand} hand.",
                    "Waste paper beneath the folded-back print. Spray thin and even, on its back or where the can says, a hand's breadth beyond every edge; wait as long as it says.",
                    $"Let the print down from the hinge, and stroke it on with a clean cloth in the {maker.Hand} hand, from the hinge outwards. Then leave it flat under a board with books on it.",
                ]),
                new Paragraph("Glue catches at once: the tape hinge is what brings the print down in its place. Try it dry, twice, before you spray.") { IsExplanation = true },
            ],
            new(
                isFirst ? "Against the lamp there is no bubble and no fold, and all four corners of every panel lie on the plate, or on its very edge." : "Against the lamp there is no bubble, and every crosshair stands in the middle of its hole, closer than the nut covers.",
                "Pull it off at once, while it comes off, and begin with the next print. Later: a small bubble is pricked with a needle and pressed down."))
        {
            WaitMinutes = BookTimes.GlueDries,
            Tools = [Tool.Knife, Tool.SteelRule, Tool.Cloth, Tool.Lamp, Tool.Needle, Tool.Books, .. isFirst ? ImmutableArray<BookTool>.Empty : [Tool.Board]],
            Materials = ["spray glue", "tape", "black felt pen", "waste paper"],
            Cautions = [Caution.Knife, Caution.Glue],
            Needs = isFirst ? [Made.Goods, Made.PrintReady] : [Made.Goods, Made.PrintReady, Made.Holes, Made.EdgesBlack],
            Makes = [Made.Glued],
            OnlyOn = [isFirst ? Way.OrderA : Way.OrderB],
        };
    }

    /// <summary>Where the strip of one print lies, and what there is to tape it to.</summary>
    private static string Hinged(BookHinge hinge, BookFacts facts)
    {
        var (panel, strip) = (Text(hinge.Panel), $"strip printed “{facts.Print.HingeWord}”");
        var goesOn = $"the plate goes on there by {facts.Ruler(System.Math.Floor(hinge.RoomMm))}";
        return hinge switch
        {
            { IsPrinted: true } => $"{panel}: the {strip} lies at the {hinge.Side} side of the panel's place in the drawing of plate {hinge.Plate} ({goesOn}); tape it to the plate.",
            { RoomMm: >= LeastHingeMm } => $"{panel}: {(hinge.HasStrip ? $"cut the {strip} off, no plate lies under it; " : string.Empty)}put a strip of tape along the {hinge.Side} side of the panel's place in the drawing of plate {hinge.Plate} ({goesOn}).",
            _ => $"{panel}: {(hinge.HasStrip ? $"cut the {strip} off; " : string.Empty)}the plate ends close by at every side: put a strip of tape along its {hinge.Side} side in the drawing of plate {hinge.Plate}, round the plate's edge onto the film of its back.",
        };
    }

    private static BookStep OpenFromBehind(BookFacts facts) => new(
        "open-holes",
        "Open the holes from behind",
        facts.Charts.Sum(chart => chart.Holes.Length) * BookTimes.OpenPaper,
        [
            new PictureRow([PaperDrawings.FromBehind()]),
            new Doings(
            [
                "The glue is dry. Lay the panel face down on a cutting mat.",
                "Press the punch of the drilling table through from behind, or run the knife along the hole's wall, in short strokes, always with the wall as a guide.",
                "Where paper stands out past the plate, run the knife along the plate's edge from behind. Blacken the paper's edges, in the holes and round the panel, with felt pen: white edges glow.",
            ]),
        ],
        new("Each part slips through its hole without pushing at the paper, and its nut or bezel covers the paper's edge all round.", "A torn edge that shows: blacken it, and lay a larger washer under the nut."))
    {
        Tools = [HolesChapter.Punches(facts.Charts, facts), Tool.Knife, Tool.CuttingMat],
        Materials = ["black felt pen"],
        Cautions = [Caution.Knife],
        Needs = [Made.Glued, Made.Holes],
        Makes = [Made.PaperOpen],
        OnlyOn = [Way.OrderB],
    };

    private static BookStep Behind(BookFacts facts) => new(
        "lay-behind",
        "Punch the print and lay it behind the plate",
        facts.Laid.Panels.Length * BookTimes.GluePanel,
        [
            new PictureRow([StackDrawing.Of(facts), PlateDrawings.Film(facts.Maker.Order)]),
            new Doings(
            [
                "Open the print's holes with the punches of the drilling table; a knife where it names none.",
                "Trim it at its trim marks, and rub black felt pen along the cut edges.",
                "Pull the film off both faces of the plate, wipe off dust.",
                "Lay the print behind the plate, its face towards the plate, so that you read it through the acrylic. Tape it along the upper edge alone.",
            ]),
        ],
        new("Against the lamp every crosshair stands in the middle of its hole, and no dust lies between print and plate.", "Lift it and lay it down again: it is held by tape only."))
    {
        Tools = [HolesChapter.Punches(facts.Charts, facts), Tool.Knife, Tool.SteelRule, Tool.CuttingMat, Tool.Lamp],
        Materials = ["tape", "black felt pen"],
        Cautions = [Caution.Knife],
        Needs = [Made.PrintReady, Made.Holes, Made.EdgesBlack],
        Makes = [Made.Glued, Made.PaperOpen],
        OnlyOn = [Way.OrderC],
    };

    /// <summary>Bare edges are made black.</summary>
    public static BookStep Edges(BookFacts facts)
    {
        var open = string.Join("; ", facts.Charts.Where(chart => chart.Holes.Any(hole => hole.ShowsEdge))
            .Select(chart => $"{Text(chart.Laid.Panel.Title)} {string.Join(", ", chart.Holes.Where(hole => hole.ShowsEdge).Select(hole => hole.Label))}"));
        return new(
            "edges",
            "Blacken every cut edge",
            facts.Laid.Panels.Length * BookTimes.BlackenPanel,
            [
                new PictureRow([PlateDrawings.Edges()]),
                new Doings([$"Blacken the plate's edges and the walls of its holes: felt pen first, then paint, with a fine brush.{(open.Length > 0 ? $" With care where nothing covers the edge: {open}." : string.Empty)}"]),
                new Paragraph("Acrylic leads light along: a bare edge glows brighter than the legends.") { IsExplanation = true },
            ],
            new("Over the lamp, in a dark room, no edge and no hole's wall glows.", "Another coat."))
        {
            WaitMinutes = BookTimes.PaintDries,
            Tools = [Tool.Brush, Tool.Lamp],
            Materials = ["black felt pen", "matt black paint"],
            Cautions = [Caution.Paint],
            Needs = [Made.Plate, Made.Holes],
            Makes = [Made.EdgesBlack],
        };
    }

    private static IEnumerable<BookStep> Coat(BookFacts facts)
    {
        if (facts.Maker.Order == WorkOrder.PrintBehind || facts.Laid.Desk.Stack.CoverMm > 0)
        {
            yield break;
        }

        yield return new(
            "coat",
            "Give the face its top coat",
            facts.Laid.Panels.Length * BookTimes.CoatPanel,
            [new PictureRow([PlateDrawings.Coat()]), new Doings(["The panel lies flat, dust wiped off with a cloth, without controls. Clear matt varnish in three thin coats, each dry before the next, as you tried it before."])],
            new("A dry finger drawn over the black brings nothing off, and the face is even against the light.", "Runs or dust: let it dry a day, smooth it very lightly with dry abrasive paper of 1000, never down to the black; one more thin coat."))
        {
            WaitMinutes = BookTimes.CoatDries,
            Tools = [Tool.Cloth, Tool.FineAbrasive],
            Materials = ["clear matt varnish"],
            Cautions = [Caution.Paint, Caution.Dust],
            Needs = [Made.Glued, Made.PaperOpen, Made.EdgesBlack],
            Makes = [Made.FaceCoated],
            OnlyOn = [facts.Maker.Order == WorkOrder.GlueThenDrill ? Way.OrderA : Way.OrderB],
        };
    }
}
