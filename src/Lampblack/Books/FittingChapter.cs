using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Fabrication;
using Lampblack.Layout;
using Lampblack.Parts;
using Lampblack.Wiring;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>Controls go into their holes; at the very end the panels into their frame.</summary>
internal static class FittingChapter
{
    /// <summary>The chapter; null where there is nothing to fit.</summary>
    public static BookChapter? Of(BookFacts facts)
    {
        ImmutableArray<BookStep> steps = [.. facts.Charts.Select(chart => Fit(chart, facts)).OfType<BookStep>()];
        return steps.IsEmpty ? null : new("fit", "Fit the controls", steps);
    }

    /// <summary>Everything is in its place and proven: the panels are screwed down.</summary>
    public static BookStep Close(BookFacts facts, ImmutableArray<Made> needs)
    {
        ImmutableArray<BookRow> rows = [.. facts.Charts.SelectMany(chart => chart.Laid.Parts.Where(part => IsScrew(part, chart.Laid)).Select(part => new BookRow("part", part.Origin.Item, [Text($"{chart.Laid.Panel.Title} {Label(part, chart)}"), Text(part.Origin.Name), Text(part.Part.Name)])))];
        return new(
            "close",
            "Close the desk",
            BookTimes.Close,
            [
                new PictureRow([BoxDrawings.Close(!facts.Lamps.IsEmpty, !rows.IsEmpty)]),
                new Doings(
                [
                    "Fold the looms in without a kink, no wire over an emitter, none between panel and box.",
                    rows.IsEmpty ? "Lay the panels on their frame and fasten them." : "Screw the panels down crosswise, each screw finger-tight first: acrylic cracks under a screw that is forced.",
                    .. facts.Lamps.IsEmpty ? ImmutableArray<string>.Empty : ["Turn it on its side on a cloth, and screw the floor on, with a wood screw of 3 x 16 mm into each of its blocks."],
                    "Black tape over every gap that glows.",
                ]),
                .. rows.IsEmpty ? ImmutableArray<BookBlock>.Empty : [new BookTable("Screws, panel by panel, none forced", ["Hole", "Item", "Screw"], rows, IsTicked: true)],
            ],
            new("In a dark room light comes through the legends and nowhere else; every control still moves freely.", "A glow at a seam: black tape from within. A panel under strain: loosen its screws, look for a wire beneath."))
        {
            Tools = [Tool.Screwdriver, .. facts.Lamps.IsEmpty ? ImmutableArray<BookTool>.Empty : [Tool.Cloth]],
            Cautions = [Caution.Use],
            Materials = ["black tape", .. facts.Lamps.IsEmpty ? ImmutableArray<string>.Empty : ["small wood screws"], .. rows.IsEmpty ? ImmutableArray<string>.Empty : ["the panels' screws"]],
            Needs = needs,
            Makes = [Made.Closed],
        };
    }

    private static bool IsScrew(PlacedPart part, LaidPanel laid) => part.Part.Class == PartClass.Screw || part.Part == laid.Panel.Fixings?.Part;

    private static BookStep? Fit(HoleChart chart, BookFacts facts)
    {
        var panel = chart.Laid.Panel;
        ImmutableArray<PlacedPart> parts = [.. chart.Laid.Parts.Where(part => !IsScrew(part, chart.Laid))];
        if (parts.IsEmpty)
        {
            return null;
        }

        ImmutableArray<Made> coated = facts.Maker.Order == WorkOrder.PrintBehind || facts.Laid.Desk.Stack.CoverMm > 0 ? [] : [Made.FaceCoated];
        var names = facts.Wiring is { } wiring ? SpokenNames.Of(wiring.Needs) : ImmutableDictionary<string, string>.Empty;
        ImmutableArray<Mounting> ways = [.. parts.Select(part => part.Part.Mounting).Distinct().Order()];
        return new(
            $"fit-{panel.Id}",
            $"Fit the controls of {panel.Title}",
            parts.Length * BookTimes.FitPart,
            [
                new PictureRow([BackDrawing.Back(chart)]),
                new Doings(
                [
                    facts.Maker.Order == WorkOrder.PrintBehind ? "Lay the panel on a cloth, its print behind it." : "Pull the film off the plate's back and lay the panel on a cloth.",
                    .. ways.Select(way => PartFitting.Doing(way, facts.Maker)).OfType<string>(),
                    .. parts.Any(part => part.Part.Key is not null) ? ["A key, or the tooth of the washer that lies behind the plate, goes into the notch of its hole: the part then can't turn."] : ImmutableArray<string>.Empty,
                    .. PartFitting.Settings([.. parts.Select(part => part.Part)]),
                    "Write its name on each part's back, or on a flag of tape where it is too small: the lists of wires call it so.",
                ]),
                Table($"What goes into which hole of {Text(panel.Title)}", [.. parts.OrderBy(part => Label(part, chart), LabelOrder.Instance).Select(part => Row(part, chart, facts, PartFitting.Named(part, names)))]),
            ],
            new(
                $"Nothing turns under a firm finger; every nut or bezel covers its hole and the paper's edge{(parts.Any(part => part.Part.Class == PartClass.Toggle) ? "; every lever, moved with a finger, goes towards the words of its positions, where it has any" : string.Empty)}{(parts.Any(part => PartFitting.HasPointer(part.Part)) ? "; every pointer goes from the first mark of its dial to the last" : string.Empty)}; no light comes past a nut when you hold the panel to a lamp.",
                $"A lever that goes across its words: turn its part by a quarter. It turns: {(parts.Any(part => part.Part.Key is not null) ? "the washer's tooth in its notch, or " : string.Empty)}a lock washer more. Light past a nut: a larger washer, blackened."))
        {
            Tools = [.. PartFitting.Tools(ways, parts.Any(part => part.Part.KnobDiameter is not null)), Tool.Cloth, Tool.LabelPen, Tool.Lamp],
            Materials = ["the parts in their bags", "card", .. parts.Any(part => PartFitting.HasTab(part.Part)) ? ["black tape"] : ImmutableArray<string>.Empty, .. ways.Contains(Mounting.BySheet) ? ["foam tape"] : ImmutableArray<string>.Empty],
            Needs = [Made.PartsChecked, Made.Holes, Made.PaperOpen, Made.EdgesBlack, .. coated],
            Makes = [Made.ControlsFitted],
        };
    }

    private static BookTable Table(string caption, ImmutableArray<BookRow> rows) => new(caption, ["Hole", "Item", "Part", "How"], rows, IsTicked: true);

    private static BookRow Row(PlacedPart part, HoleChart chart, BookFacts facts, string nameMarkup) => new(
        "part",
        part.Origin.Item,
        [Text(Label(part, chart)), nameMarkup, $"{Text(part.Part.Name)}<br/>{Code(part.Part.Id)}", Text(PartFitting.How(part, facts))]);

    private static string Label(PlacedPart part, HoleChart chart) => chart.Holes.First(hole => hole.Origin.Item == part.Origin.Item).Label;

    /// <summary>10 comes after 9.</summary>
    private sealed class LabelOrder : IComparer<string>
    {
        public static LabelOrder Instance { get; } = new();

        public int Compare(string? first, string? second) => (first?.Length ?? 0, first).CompareTo((second?.Length ?? 0, second));
    }
}
