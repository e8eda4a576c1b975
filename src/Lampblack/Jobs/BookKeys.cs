using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.SourceText;

namespace Lampblack.Jobs;

/// <summary>The facts of what changes a build book, as they stand in the file.</summary>
internal static class BookKeys
{
    /// <summary>The facts.</summary>
    public static ImmutableArray<ItemFact> Of(TableNode root, Desk desk) =>
    [
        .. new[]
        {
            ItemFacts.Choice("order", "order of work", ["A", "B", "C"], "A"),
            ItemFacts.Choice("cutting.way", "way of cutting", ["snap", "saw"], DeskCut.UsualWay(desk.Stack.PlateMm) == CuttingWay.Saw ? "saw" : "snap"),
            ItemFacts.Choice("book.hand", "hand that leads", ["right", "left"], "right"),
            ItemFacts.Choice("book.units", "lengths in", ["mm", "inch"], "mm"),
            ItemFacts.Choice("book.words", "words", ["full", "brief"], "full"),
            ItemFacts.Fact("book.currency", "prices in", FactKind.Words, "EUR"),
        }.Select(fact => fact with { Value = ItemFacts.Written(root, fact.Key) }),
    ];
}
