using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Layout;
using Lampblack.Parts;
using Lampblack.Wiring;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>Parts that have a hole and no wire in the plan, or wires for their data alone: what each needs is told before anything is bought.</summary>
internal static class UnwiredParts
{
    /// <summary>They and what they need; null where the desk has no controller, or everything is wired.</summary>
    public static Paragraph? Told(BookFacts facts)
    {
        string[] told = [.. new[] { Without(facts), InPart(facts) }.OfType<string>()];
        return told.Length == 0
            ? null
            : new($"{string.Join(" ", told)} The sheet that came with a part says what volts and amperes it takes or may switch. Nothing of the mains belongs in this panel.");
    }

    private static string? Without(BookFacts facts)
    {
        var parts = Of(facts).ToList();
        return parts.Count == 0
            ? null
            : $"Not wired by this book, though {(parts.Count == 1 ? "it has its hole" : "they have their holes")}: {string.Join("; ", parts.Select(part => $"{Code(part.Origin.Item)} ({Legend(part, facts)}{Text(part.Part.Name)}) needs {Needs(part.Part, facts)}"))}.";
    }

    /// <summary>As the panel calls it; empty where it has no words.</summary>
    private static string Legend(PlacedPart part, BookFacts facts)
    {
        var (item, copy) = (part.Origin.Name, 0);
        if (item.LastIndexOf('.') is >= 0 and var dot && int.TryParse(item[(dot + 1)..], NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number > 0)
        {
            (item, copy) = (item[..dot], number - 1);
        }

        var control = facts.Laid.Panels.Where(panel => panel.Parts.Contains(part)).SelectMany(panel => panel.Panel.Items.OfType<Control>()).FirstOrDefault(one => one.Id == item);
        return control?.LegendOf(copy) is { Length: > 0 } words ? $"“{Text(words)}”, " : string.Empty;
    }

    /// <summary>Displays and pixels, whose data lines are wired and nothing else.</summary>
    private static string? InPart(BookFacts facts)
    {
        if (facts.Wiring is not { } wiring)
        {
            return null;
        }

        // Pixels of one chain are told together, by the pin of the first.
        var parts = Data(wiring).Where(need => HasWire(need, wiring)).GroupBy(need => need.DataFrom is null ? need.Id : Chain(need, wiring))
            .Select(chain => $"{string.Join(", ", chain.Select(need => Code(need.Part!.Origin.Item)))} ({Text(chain.First().Part!.Part.Name)}): {Lines(chain.Key, wiring)}{(chain.Count() == 1 ? string.Empty : ", then from each to the next")}").ToList();
        var strips = wiring.Needs.Where(need => need is { Part: null, Kind: WiredKind.Data })
            .Select(need => $"the pixels of {Text(need.Name)}: {(Lines(need.Id, wiring) is { Length: > 0 } lines ? lines : "no pin is left for their data")}, 5 V and 0 V by the lamps’ supply").ToList();
        var said = new List<string>();
        if (parts.Count > 0)
        {
            said.Add($"Wired by this book for data only: {string.Join("; ", parts)}. Their 5 V and 0 V are not wired: they come by a pair of their own from a supply that gives their current, its 0 V joined to the controller’s.");
        }

        if (strips.Count > 0)
        {
            said.Add($"Wired behind the panels: {string.Join("; ", strips)}.");
        }

        return said.Count == 0 ? null : $"{string.Join(" ", said)} No program of ours drives any of them: these pins stay silent, and until there is one, their data comes from a controller of its own.";
    }

    private static IEnumerable<WiredNeed> Data(BookWiring wiring) => wiring.Needs.Where(need => need is { Part: not null, Kind: WiredKind.Data });

    private static bool HasWire(WiredNeed need, BookWiring wiring) => wiring.Wires.Nets.Nets.Any(net => net.Terminals.Any(terminal => terminal.ItemId == need.Id));

    /// <summary>The first pixel of the chain.</summary>
    private static string Chain(WiredNeed need, BookWiring wiring) =>
        need.DataFrom is { } from && wiring.Needs.FirstOrDefault(one => one.Id == from) is { } before ? Chain(before, wiring) : need.Id;

    private static string Lines(string item, BookWiring wiring) =>
        string.Join(", ", from plan in wiring.Pins.Controllers from line in plan.DataLines where line.ItemId == item select $"{line.Terminal} to {wiring.Pins.At(plan.Index)}{line.Pin.Header}");

    /// <summary>Whether a panel has any whose cables leave its box.</summary>
    public static bool Any(BookFacts facts, string panel) => Of(facts).Concat(facts.Wiring is { } wiring ? Data(wiring).Select(need => need.Part!) : []).Any(part => facts.Laid.Panels.Any(laid => laid.Panel.Id == panel && laid.Parts.Contains(part)));

    private static IEnumerable<PlacedPart> Of(BookFacts facts) => facts.Wiring is not { } wiring ? []
        : facts.Laid.Panels.SelectMany(panel => panel.Parts).Where(part => part.Part.Class is not (PartClass.Screw or PartClass.Plain) && !wiring.Needs.Any(need => need.Part?.Origin.Item == part.Origin.Item && (need.Kind != WiredKind.Data || HasWire(need, wiring))));

    /// <summary>What its kind needs. Common practice, no source.</summary>
    private static string Needs(Part part, BookFacts facts) => part.Class switch
    {
        PartClass.Meter => "two wires from what it shows; one with digits a supply of its own besides",
        PartClass.Display => facts.Laid.Desk.Controller?.Reserved is { IsEmpty: false } kept ? $"its own supply, and data wires: {string.Join(", ", kept.Select(pin => pin.Header))} are kept free, and no program of ours drives it" : "its own supply, and data wires to pins that this desk’s plan does not keep for it; no program of ours drives it",
        PartClass.Connector => "its cable, joined to both ends by what goes through it",
        PartClass.Lamp when part.IsPixel => "5 V and 0 V of its own, and a data wire that this desk’s plan has no pin for; no program of ours drives it",
        PartClass.Lamp => "a supply and, where none is built in, a resistor",
        _ => "two wires or more to what it switches or sets",
    };
}
