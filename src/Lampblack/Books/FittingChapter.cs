using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Fabrication;
using Lampblack.Layout;
using Lampblack.Parts;
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
        ImmutableArray<BookRow> rows = [.. facts.Charts.SelectMany(chart => chart.Laid.Parts.Where(part => IsScrew(part, chart.Laid)).Select(part => Row(part, chart, facts, part.Origin.Item)))];
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
                    "Black tape over every gap that glows.",
                ]),
                .. rows.IsEmpty ? ImmutableArray<BookBlock>.Empty : [Table("Screws", rows)],
            ],
            new("In a dark room light comes through the legends and nowhere else; every control still moves freely.", "A glow at a seam: black tape from within. A panel under strain: loosen its screws, look for a wire beneath."))
        {
            Tools = ["screwdriver"],
            Materials = ["black tape"],
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
        return new(
            $"fit-{panel.Id}",
            $"Fit the controls of {panel.Title}",
            parts.Length * BookTimes.FitPart,
            [
                .. facts.Picture($"{panel.Id}/day") is { } day ? [day] : ImmutableArray<BookBlock>.Empty,
                .. facts.Picture($"{panel.Id}/back") is { } back ? [back] : ImmutableArray<BookBlock>.Empty,
                new Doings(
                [
                    $"Pull the film off the plate's back. Hold the part behind with the {facts.Maker.OtherHand} hand, turn the nut in front with the {facts.Maker.Hand} one: finger-tight, then a quarter turn with the spanner, padded with card.",
                    "The lock washer or the key's washer lies behind the plate, its tooth in the notch where there is one; the flat washer in front, under the nut. Levers and knobs look as in the picture.",
                ]),
                Table($"What goes into which hole of {Text(panel.Title)}", [.. parts.OrderBy(part => Label(part, chart), LabelOrder.Instance).Select(part => Row(part, chart, facts, part.Origin.Name))]),
            ],
            new(
                "Nothing turns under a firm finger; every nut or bezel covers its hole and the paper's edge; every lever and pointer stands as in the picture; no light comes past a nut when you hold the panel to a lamp.",
                "It turns: the washer's tooth in its notch, or a lock washer more. Light past a nut: a larger washer, blackened."))
        {
            Tools = ["spanners", "card", "desk lamp"],
            Materials = ["the parts in their bags"],
            Needs = [Made.PartsChecked, Made.Holes, Made.PaperOpen, Made.EdgesBlack, .. coated],
            Makes = [Made.ControlsFitted],
        };
    }

    private static BookTable Table(string caption, ImmutableArray<BookRow> rows) => new(caption, ["Hole", "Item", "Part", "How"], rows, IsTicked: true);

    private static BookRow Row(PlacedPart part, HoleChart chart, BookFacts facts, string name) =>
        new("part", part.Origin.Item, [Text(Label(part, chart)), Text(name), $"{Text(part.Part.Name)}<br/>{Code(part.Part.Id)}", Text(How(part, facts))]);

    private static string Label(PlacedPart part, HoleChart chart) => chart.Holes.First(hole => hole.Origin.Item == part.Origin.Item).Label;

    private static string How(PlacedPart placed, BookFacts facts)
    {
        var part = placed.Part;
        var how = new List<string>();
        how.Add(part.Class switch
        {
            PartClass.Screw => "screw, washer, not forced",
            PartClass.Plain when part.Body is null => "stays open, or takes its plug",
            _ when part.BushingLength is not null => "from behind; nut and washer in front",
            PartClass.Meter or PartClass.Display => "as the sheet that came with it says",
            PartClass.Lamp => "clip or bezel from the front, lamp and ring from behind",
            PartClass.PushButton or PartClass.KeySwitch or PartClass.Connector => "from the front; its ring nut behind",
            _ => "as the sheet that came with it says",
        });
        if (part.Key is not null)
        {
            how.Add("key in the notch");
        }

        how.AddRange(part.ExtraHoles.Select(hole => hole.Purpose).Distinct());
        if (placed.TurnDegrees != 0)
        {
            how.Add(string.Create(CultureInfo.InvariantCulture, $"turned by {System.Math.Abs(placed.TurnDegrees):0.#}° {(placed.TurnDegrees < 0 ? "counter-clockwise" : "clockwise")}"));
        }

        if (part.KnobDiameter is { } knob)
        {
            how.Add($"knob of {facts.Exact(knob.Mm)}, pointer by the dial");
        }

        return string.Join("; ", how);
    }

    /// <summary>10 comes after 9.</summary>
    private sealed class LabelOrder : IComparer<string>
    {
        public static LabelOrder Instance { get; } = new();

        public int Compare(string? first, string? second) => (first?.Length ?? 0, first).CompareTo((second?.Length ?? 0, second));
    }
}
