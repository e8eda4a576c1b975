using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Edits;
using Lampblack.SourceText;

namespace Lampblack.Jobs;

/// <summary>Plates that the maker has or can buy, as they stand in the file.</summary>
/// <param name="Address">Their name for edits.</param>
/// <param name="Name">Their name for people.</param>
/// <param name="Facts">Their facts.</param>
public sealed record PlateFacts(string Address, string Name, ImmutableArray<ItemFact> Facts);

/// <summary>Reads out of the desk file what the cut plan goes by.</summary>
internal static class CutFacts
{
    /// <summary>The facts of the way of cutting.</summary>
    public static ImmutableArray<ItemFact> OfCutting(TableNode root, Desk desk)
    {
        var way = desk.Cutting.Way ?? DeskCut.UsualWay(desk.Stack.PlateMm);

        // Spares of single panels are kept apart: one number for all would drop them.
        IEnumerable<ItemFact> spares = (root.Find("cutting") as TableNode)?.Find("spares") is TableNode
            ? desk.Panels.Select(panel => ItemFacts.Fact($"cutting.spares.{panel.Id}", $"spares of {panel.Title}", FactKind.Number, "0"))
            : [ItemFacts.Fact("cutting.spares", "spares of each panel", FactKind.Number, "0")];
        return
        [
            .. new[]
            {
                ItemFacts.Choice("cutting.way", "way of cutting", ["snap", "saw"], string.Empty),
                ItemFacts.Fact("cutting.kerf", "a cut eats", FactKind.Length, Number(DeskCut.UsualKerfMm(way))),
            }.Concat(spares).Select(fact => fact with { Value = ItemFacts.Written(root, fact.Key) }),
        ];
    }

    /// <summary>The plates, each with its facts.</summary>
    public static ImmutableArray<PlateFacts> OfPlates(TableNode root, Desk desk) => root.Find("stock") is not ListNode list ? [] :
    [
        .. list.Items.OfType<TableNode>().Select((table, index) => new PlateFacts(
            string.Create(CultureInfo.InvariantCulture, $"stock[{index + 1}]"),
            table.Find("id") is TextNode id ? id.Value : string.Create(CultureInfo.InvariantCulture, $"plate-{index + 1}"),
            [
                .. new[]
                {
                    ItemFacts.Fact("size", "width, height", FactKind.TwoLengths),
                    ItemFacts.Fact("count", "how many", FactKind.Number, "as needed"),
                    ItemFacts.Fact("price", "price of one", FactKind.Number, "0"),
                    ItemFacts.Fact("thickness", "thickness", FactKind.Length, Number(desk.Stack.PlateMm)),
                }.Select(fact => fact with { Value = ItemFacts.Written(table, fact.Key) }),
            ])),
    ];

    /// <summary>The edit that adds plates.</summary>
    public static AddPlate Another(Desk desk)
    {
        var (widthMm, heightMm) = desk.Cutting.Stocks is [.., var last] ? (last.WidthMm, last.HeightMm) : DeskCut.UsualPlateMm(DeskCut.PiecesOf(desk));
        return new(widthMm, heightMm);
    }

    private static string Number(double mm) => mm.ToString("0.##", CultureInfo.InvariantCulture);
}
