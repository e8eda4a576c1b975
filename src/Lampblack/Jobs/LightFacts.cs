using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Parts;
using Lampblack.SourceText;

namespace Lampblack.Jobs;

/// <summary>The facts of how a desk is lit, as they stand in the file.</summary>
internal static class LightFacts
{
    /// <summary>An item's key for the light behind it.</summary>
    public const string LightKey = "light";

    private const int OutputsOffered = 8;

    /// <summary>The facts of <c>[lighting]</c> that a plan goes by.</summary>
    public static ImmutableArray<ItemFact> OfLighting(TableNode root) =>
    [
        .. new[]
        {
            ItemFacts.Choice("lighting.emitter", "emitters", [.. EmitterTypes.All.Select(type => type.Id)], EmitterTypes.Usual.Id),
            ItemFacts.Choice("lighting.colour", "colour", ["warm-white", "cool-white", "red", "amber", "green", "blue"], "warm-white"),
            ItemFacts.Fact("lighting.supply", "supply", FactKind.Words, "12 V"),
            ItemFacts.Fact("lighting.depth", "depth of the box", FactKind.Length),
            ItemFacts.Fact("lighting.luminance", "legends' cd/m2", FactKind.Number),
            ItemFacts.Fact("lighting.evenness", "brightest to dimmest", FactKind.Number, Words(LightingWish.UsualEvennessFactor)),
            ItemFacts.Fact("lighting.one-emitter", "share of one emitter", FactKind.Number),
            ItemFacts.Fact("lighting.walls", "walls throw back", FactKind.Number, Words(LightingWish.WhiteReflectance)),
            ItemFacts.Fact("lighting.floor", "floor throws back", FactKind.Number, Words(LightingWish.WhiteReflectance)),
        }.Select(fact => fact with { Value = ItemFacts.Written(root, fact.Key) }),
    ];

    /// <summary>Which light is behind an item; null where it has no table.</summary>
    /// <param name="root">The desk file.</param>
    /// <param name="item">The item.</param>
    public static ItemFact? Of(TableNode root, PanelItem item)
    {
        ImmutableArray<string> outputs = [.. Enumerable.Range(1, OutputsOffered).Select(output => output.ToString(CultureInfo.InvariantCulture))];
        var usual = item.Style.Role == LightRole.Hidden ? "own" : "general";
        return ItemFacts.Tables(root).FirstOrDefault(table => table.Span == item.Span) is not { } table ? null
            : ItemFacts.Choice(LightKey, LightKey, ["general", "own", .. outputs], usual) with { Value = ItemFacts.Written(table, LightKey) };
    }

    /// <summary>An emitter's id in words.</summary>
    public static string Named(string emitter) => EmitterTypes.Find(emitter)?.Name ?? emitter;

    private static string Words(double factor) => factor.ToString(CultureInfo.InvariantCulture);
}
