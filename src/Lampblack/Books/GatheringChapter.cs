using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Parts;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>What has to be on the bench before anything is begun, and whether it is the right thing.</summary>
internal static class GatheringChapter
{
    public static BookChapter Of(BookFacts facts, Bill bill) => new("gather", "Get everything together", [Buy(bill, facts), .. Measured(facts)]);

    private static BookStep Buy(Bill bill, BookFacts facts) => new(
        "buy",
        "Buy or find what is on this list",
        bill.Lines.Length * BookTimes.GatherLine,
        [
            new Paragraph("Parts differ from shop to shop under the same name: what counts is in the last column. Keep every part in a bag with its name on it.") { IsExplanation = true },
            new PictureRow([PartsDrawing.All(facts)]),
            new BookTable(
                "Bill of materials, for one desk",
                ["What", "How much", "Where it goes", "Must be, or may be"],
                [.. bill.Lines.Select(line => new BookRow("bill", line.Key, [line.Kind.StartsWith("part-", System.StringComparison.Ordinal) ? $"{Text(line.What)}<br/>{Code(line.Key)}" : Text(line.What), Text(line.Count), Text(line.UsedFor), Text(line.Others)]))],
                IsTicked: true),
        ],
        new("Every line is ticked, and you hold the parts themselves, not their pictures.", $"Take another part of the same hole and body, write its name into the desk file, and build again; {Code("docs/parts.md")} lists what is known."))
    {
        Makes = [Made.Goods],
    };

    private static IEnumerable<BookStep> Measured(BookFacts facts)
    {
        ImmutableArray<Part> parts = [.. facts.Laid.Panels.SelectMany(panel => panel.Parts).Select(part => part.Part).DistinctBy(part => part.Id).OrderBy(part => part.Id, System.StringComparer.Ordinal)];
        if (parts.IsEmpty)
        {
            yield break;
        }

        var stack = facts.Laid.Desk.Stack;
        var thickMm = stack.PlateMm + stack.GlueMm + stack.CoverMm;
        yield return new(
            "measure-parts",
            "Measure the parts before their holes are printed",
            5 + (parts.Length * BookTimes.CaliperPart),
            [
                new Paragraph("The sizes come from tables and data sheets, and a part in your hand may differ. A hole that is drilled can only grow.") { IsExplanation = true },
                new PictureRow([PartsDrawing.Caliper(facts)]),
                new Doings(
                [
                    $"Print {Code("parts.pdf")} on plain paper at actual size (100 %), on any printer, and measure its bar: {facts.Exact(100)}.",
                    "Lay each part on its outline, and measure what the table says with a caliper.",
                ]),
                new BookTable(
                    "What each kind of part must be",
                    ["Part", "Passes a hole of", "Behind the panel", "Holds a panel of at most"],
                    [.. parts.Select(part => new BookRow("kind", part.Id, [$"{Text(part.Name)}<br/>{Code(part.Id)}", Text(BillParts.Hole(part, facts)), Text(Behind(part, facts)), Text(part.LargestPanelThickness is not { } most ? "not known: try it" : most.Mm < thickMm + BoxBlocks.PaperMm ? $"{facts.Exact(most.Mm)}, and the panel has {facts.Exact(thickMm + BoxBlocks.PaperMm)}: it fits with its nut alone, without a washer, if the thread shows past the nut: try it on a scrap as thick" : facts.Exact(most.Mm))]))],
                    IsTicked: true),
            ],
            new(
                $"Every part is slim enough for its hole, no larger behind than the table says, and can hold this panel, without a washer where the table says so: {facts.Exact(thickMm)} of plate{(stack.CoverMm > 0 ? ", glue and cover" : " and glue")}, and the paper.",
                $"Write what the caliper says into the desk file (a {Code("[[caliper]]")} for the part), build again, and begin with the new book."))
        {
            Tools = [Tool.Computer, Tool.Caliper, Tool.Ruler],
            Materials = ["plain paper"],
            Needs = [Made.Goods],
            Makes = [Made.PartsChecked],
        };
    }

    private static string Behind(Part part, BookFacts facts) => part.Body is not { } body ? "nothing"
        : body.IsRound ? string.Create(CultureInfo.InvariantCulture, $"{facts.Exact(body.Width.Mm)} across, {facts.Exact(body.Depth.Mm)} deep")
        : string.Create(CultureInfo.InvariantCulture, $"{facts.Number(body.Width.Mm)} x {facts.Exact(body.Height.Mm)}, {facts.Exact(body.Depth.Mm)} deep");
}
