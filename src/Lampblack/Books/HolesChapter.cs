using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Fabrication;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>Holes: the paper first where it is glued on already, then the plate, then what came of it.</summary>
internal static class HolesChapter
{
    /// <summary>The chapter; null where no panel has a hole.</summary>
    public static BookChapter? Of(BookFacts facts)
    {
        if (facts.Charts.All(chart => chart.Holes.IsEmpty))
        {
            return null;
        }

        var charts = facts.Charts.Where(chart => !chart.Holes.IsEmpty).ToImmutableArray();
        var isGlued = facts.Maker.Order == WorkOrder.GlueThenDrill;
        return new(
            "holes",
            "Drill the holes",
            [
                .. isGlued ? [OpenPaper(charts, facts)] : ImmutableArray<BookStep>.Empty,
                .. charts.Select(chart => Drill(chart, facts)),
                .. isGlued ? ImmutableArray<BookStep>.Empty : [Measure(charts), PlateChapters.Edges(facts)],
            ]);
    }

    private static BookStep OpenPaper(ImmutableArray<HoleChart> charts, BookFacts facts) => new(
        "open-paper",
        "Open the paper of every hole",
        charts.Sum(chart => chart.Holes.Length) * BookTimes.OpenPaper,
        [
            new PictureRow([PaperDrawings.Open(facts)]),
            new Doings(
            [
                "The glue is dry. Prick the middle of every crosshair through the paper into the acrylic first: afterwards nothing of it is left to drill by. Where a crosshair lies in a hole that is no circle, prick its corners by the template.",
                "Then cut every hole out of the paper with the punch of the drilling table (the print names the same one), turned by hand, or with a knife where it names none: a drill tears what it meets. Punches are told as they are sold: what counts is that no paper lies where the drill goes, and that the nut covers the rest.",
                "Lift the discs out. Blacken the paper's edge with felt pen.",
            ]),
        ],
        new("No paper is left where the hole will be, and none is torn beyond what the nut will cover.", "A tear that the nut will not cover: blacken it. A larger one: this print is spoiled; pull it off as long as the glue lets you, or cut a new plate."))
    {
        Tools = [Tool.Awl, Punches(charts, facts), Tool.Knife],
        Materials = ["black felt pen"],
        Cautions = [Caution.Knife],
        Needs = [Made.Glued],
        Makes = [Made.PaperOpen],
        OnlyOn = [Way.OrderA],
    };

    private static BookStep Drill(HoleChart chart, BookFacts facts)
    {
        var (panel, isGlued) = (chart.Laid.Panel, facts.Maker.Order == WorkOrder.GlueThenDrill);
        var frozen = chart.Holes.Where(hole => hole.IsDrilled).Select(hole => hole.Label).ToList();
        var blocks = new List<BookBlock>();
        blocks.Add(new Doings(
        [
            .. facts.Maker.Order == WorkOrder.PrintBehind ? ImmutableArray<string>.Empty : ["Try each drill on the strip for trials first, until a hole comes out without a crack."],
            isGlued
                ? $"Drill into the marks that you pricked. {Code("templates.pdf")}, laid on the panel's edges, its black corner on the lower left one, tells where one is missing."
                : $"Print {Code("templates.pdf")} at actual size, measure its bar, and stick it on the plate's film, the black corner on the lower left corner, seen from the front.",
            $"Clamp the plate on the piece of board, front up. Guide the drill with the {facts.Maker.Hand} hand; each drill goes through all its holes before the next, the smallest first.",
            "Card under every clamp: the black takes scratches. Slow down before it breaks through; back out to clear chips; let it cool.",
            $"Take the burr off{(isGlued ? " on the back" : " on both faces")} with a larger drill turned by hand.",
            .. Large(chart),
        ]));
        blocks.Add(new Paragraph("Points of 60 to 90 degrees (makers of acrylic sheet); the usual 118 grab as they break through.") { IsExplanation = true });
        blocks.Add(new PictureRow([BackDrawing.Front(chart)]));

        if (frozen.Count > 0)
        {
            blocks.Add(new Paragraph($"Drilled already, as the desk file says: {string.Join(", ", frozen)}. They stay where they are; the print follows them."));
        }

        blocks.Add(new BookTable(
            $"Drills of {Text(panel.Title)}, the smallest first: each through all its holes",
            ["Drill", "About turns a minute", "Holes"],
            [.. DrillingOrder.Of(chart).Select(turn => new BookRow(string.Empty, string.Empty, [Text(turn.Drill.Name), turn.TurnsPerMinute.ToString(CultureInfo.InvariantCulture), Text(string.Join(", ", turn.Labels))]))],
            IsTicked: true));
        var unit = Quantities.LengthWords.Name(facts.Maker.Unit);
        blocks.Add(new BookTable(
            $"Drilling table, {Text(panel.Title)}: places from the lower left corner, seen from the front",
            ["No", "Item", $"x, {unit}", $"y, {unit}", "Opening", "Drills", facts.Maker.Unit == Quantities.LengthUnit.Inch ? "Punch" : $"Punch, {unit}", "Then"],
            [.. chart.Holes.Select(hole => Row(hole, panel.Id, facts))],
            IsTicked: true));
        return new(
            $"drill-{panel.Id}",
            $"Drill {panel.Title}",
            BookTimes.StickTemplate + chart.Holes.Where(hole => !hole.IsDrilled).Sum(Minutes),
            [.. blocks],
            new(
                "One real part of each kind slips into its hole by hand, without force and without rattling more than its nut covers.",
                $"Too tight: a turn of the file. Off its place or too large: {Code("lampblack drilled DESK")} writes it into the desk file, and {(isGlued ? "the next build says whether a nut still covers it" : "the print follows it")}; past that, cut a new plate."))
        {
            Tools = [Tool.Drill, Drills(chart), Tool.Clamps, Tool.Board, .. Larger(chart, facts), Tool.File],
            Materials = ["piece of board to drill on", .. facts.Maker.Order == WorkOrder.PrintBehind ? ImmutableArray<string>.Empty : ["the strip of acrylic for trials"], .. isGlued ? ["card"] : new[] { $"{Code("templates.pdf")} on plain paper", "glue stick", "card" }],
            Cautions = [Caution.Drill, .. chart.Holes.Any(hole => !hole.IsDrilled && hole.Way is HoleWay.File or HoleWay.Saw) ? [Caution.Dust] : ImmutableArray<Caution>.Empty],
            Needs = isGlued ? [Made.Plate, Made.PaperOpen, Made.PartsChecked] : [Made.Plate, Made.PartsChecked],
            Makes = [Made.Holes],
        };
    }

    /// <summary>What is no plain drilling: each kind by the numbers of its holes, as their rows say it.</summary>
    private static IEnumerable<string> Large(HoleChart chart)
    {
        string Numbers(Func<ChartHole, bool> are) => string.Join(", ", chart.Holes.Where(hole => !hole.IsDrilled && are(hole)).Select(hole => hole.Label));
        if (Numbers(hole => hole.Way == HoleWay.Saw) is { Length: > 0 } wide)
        {
            var widestMm = chart.Holes.Where(hole => hole is { Way: HoleWay.Saw, IsDrilled: false }).Max(hole => hole.DiameterMm ?? 0);
            yield return $"Hole {wide}: larger than your largest drill. Drill the small hole in its middle, then a hole saw of the size that the tools name turns about it, or a step drill, where there is one so wide, goes on from there: never drill it larger first, or the saw has no middle to turn about. A saw so wide grabs as it breaks through: the plate clamped at two sides at least, only as much pressure as it takes, and stop halfway to let it cool. Try it on what is left over of the plate first. Slowly: about {DrillingOrder.TurnsPerMinute(widestMm).ToString(CultureInfo.InvariantCulture)} turns a minute at the widest, the same speed at the edge as a drill’s. Last the file, to the template's line.";
        }

        if (Numbers(hole => hole is { Way: HoleWay.File, DiameterMm: null }) is { Length: > 0 } edged)
        {
            yield return $"Hole {edged}: no circle. Drill the holes that its row tells of inside its line, in each corner or at each end, saw from one to the next with the fretsaw, and file to the template's line.";
        }

        if (Numbers(hole => hole is { Way: HoleWay.File, DiameterMm: not null }) is { Length: > 0 } flatted)
        {
            yield return $"Hole {flatted}: a circle with a flat. Drill it as its row says, no wider than across the flat, and file the round parts to the template's line.";
        }
    }

    private static BookTool Drills(HoleChart chart) => new(Tool.Drills) { Sizes = [.. DrillingOrder.Of(chart).Select(turn => new ToolSize(turn.Drill.DiameterMm, turn.Drill.Name))] };

    private static IEnumerable<BookTool> Larger(HoleChart chart, BookFacts facts)
    {
        ImmutableArray<ChartHole> left = [.. chart.Holes.Where(hole => !hole.IsDrilled)];
        if (left.Any(hole => hole.Way == HoleWay.Saw))
        {
            yield return new(Tool.HoleSaw) { Sizes = [.. left.Where(hole => hole.Way == HoleWay.Saw).Select(hole => Math.Floor(hole.DiameterMm ?? 0)).Distinct().Select(mm => new ToolSize(mm, facts.Exact(mm)))] };
        }

        if (left.Any(hole => hole is { Way: HoleWay.File, DiameterMm: null }))
        {
            yield return Tool.FretSaw;
        }
    }

    /// <summary>The punches that a panel's paper is opened with, as they are sold.</summary>
    internal static BookTool Punches(IEnumerable<HoleChart> charts, BookFacts facts) => new(Tool.Punches)
    {
        Sizes = [.. charts.SelectMany(chart => chart.Holes).Select(hole => hole.HandPunchMm(facts.Maker.Unit)).OfType<double>().Distinct().Order().Select(mm => new ToolSize(mm, facts.Maker.Unit == Quantities.LengthUnit.Inch ? facts.Ruler(mm) : facts.Exact(mm)))],
    };

    private static BookRow Row(ChartHole hole, string panel, BookFacts facts) => new(
        "hole",
        $"{panel}:{hole.Label}",
        [
            Text(hole.Label),
            Text(hole.Origin.Name),
            facts.Number(hole.Centre.XMm),
            facts.Number(hole.Centre.YMm),
            Text(Opening(hole, facts)),
            Text(string.Join(", ", hole.Drills.Select(drill => drill.Name))),
            hole.HandPunchMm(facts.Maker.Unit) is { } punch ? Punch(punch, facts) : "knife",
            hole.IsDrilled ? "drilled already" : Text(hole.Then),
        ]);

    /// <summary>As punches are sold: whole millimetres, or fractions of an inch.</summary>
    private static string Punch(double mm, BookFacts facts) => facts.Maker.Unit == Quantities.LengthUnit.Inch ? facts.Ruler(mm) : facts.Number(mm);

    /// <summary>A circle in the maker's unit; what is none is filed to the template, and told as it is drawn there.</summary>
    private static string Opening(ChartHole hole, BookFacts facts) => facts.Maker.Unit == Quantities.LengthUnit.Millimetre ? hole.SizeText
        : hole is { Way: not HoleWay.File, DiameterMm: { } across } ? facts.Exact(across)
        : hole.Shape.Bounds is var box ? $"{facts.Number(box.WidthMm)} x {facts.Exact(box.HeightMm)}" : string.Empty;

    private static double Minutes(ChartHole hole) => (Math.Max(1, hole.Drills.Count()) * BookTimes.DrillOnce * Math.Max(1, hole.Starts.Length)) + hole.Way switch
    {
        HoleWay.File => BookTimes.FileHole,
        HoleWay.Saw => BookTimes.SawHole,
        _ => 0,
    };

    private static BookStep Measure(ImmutableArray<HoleChart> charts) => new(
        "measure-holes",
        "Tell where the holes came out, and build again",
        charts.Length * BookTimes.MeasurePanel,
        [
            new Paragraph("Holes wander by half a millimetre and more under a hand drill. The print is not made yet: it can follow them.") { IsExplanation = true },
            new PictureRow([HoleDrawings.Off(charts[0].Holes[0])]),
            new Doings(
            [
                $"Lay the plate on its page of {Code("drilled.pdf")} and photograph it from above; or measure with a caliper how far each hole lies off.",
                Told(charts),
                $"Build again with {Code("lampblack build DESK")} {InWorkshop.At("Print", "Make the sheets again")}: front and mask fit this very plate now.",
            ]),
        ],
        new("The build says nothing that stops, and names the holes that it moved.", "A nut that no longer covers its hole: a larger washer or bezel, or a new plate."))
    {
        Tools = [Tool.Phone, Tool.Computer],
        Needs = [Made.Holes],
        Makes = [Made.HolesMeasured],
    };

    /// <summary>What is typed: screws have no print that could follow them, and copies of a row or grid have no place of their own in the desk file.</summary>
    private static string Told(ImmutableArray<HoleChart> charts)
    {
        var controls = charts.SelectMany(chart => chart.Laid.Panel.Items.OfType<Control>().Select(control => (Panel: chart.Laid.Panel.Id, Control: control))).ToList();
        var single = controls.Find(one => one.Control.Copies.Count == 1);
        return $"Type {Code("lampblack drilled DESK photo.jpg")}, with the photo’s own name"
            + (single.Control is null ? string.Empty : $"; or for each control such as {Code($"lampblack drilled DESK {single.Panel}/{single.Control.Id}=0.4,-0.2")}: right and up in mm count as plus, seen from the front")
            + ". Screws’ holes need not be told: no print follows them."
            + (controls.Exists(one => one.Control.Copies.Count > 1) ? " Controls of a row or grid are written one by one in the desk file first, each with its own place, which the command lists." : string.Empty);
    }
}
