using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Parts;
using Lampblack.SourceText;

namespace Lampblack.Jobs;

/// <summary>The facts of what a desk is wired to, as they stand in the file.</summary>
internal static class WiringFacts
{
    /// <summary>The facts of <c>[controller]</c> and <c>[wiring]</c>; only the chip as long as there is no controller.</summary>
    public static ImmutableArray<ItemFact> Of(TableNode root, Desk desk)
    {
        var usual = new ControllerWish(Controllers.ATmega2560, default!);
        ImmutableArray<ItemFact> chip = [ItemFacts.Choice("controller.chip", "controller", [.. Controllers.All.Select(controller => controller.Name)], Controllers.ATmega2560.Name)];
        ImmutableArray<ItemFact> others = desk.Controller is null ? [] :
        [
            ItemFacts.Fact("controller.reserved", "pins kept free", FactKind.WordList),
            ItemFacts.Fact("wiring.diodes", "diodes", FactKind.Flag, "yes"),
            ItemFacts.Fact("wiring.ladders", "selectors by resistors", FactKind.Flag, "yes"),
            ItemFacts.Fact("wiring.lamp-current", "mA of a lamp", FactKind.Number, Words(usual.LampAmperes * 1000)),
            ItemFacts.Fact("wiring.slack", "slack of a wire", FactKind.Length, Words(usual.SlackMm)),
            ItemFacts.Fact("wiring.cable", "cable to the controller", FactKind.Length, Words(usual.CableMm)),
        ];
        return [.. chip.Concat(others).Select(fact => fact with { Value = ItemFacts.Written(root, fact.Key) })];
    }

    private static string Words(double number) => number.ToString("0.###", CultureInfo.InvariantCulture);
}
