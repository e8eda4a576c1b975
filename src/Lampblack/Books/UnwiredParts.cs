using System.Collections.Generic;
using System.Linq;
using Lampblack.Layout;
using Lampblack.Parts;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>Parts that have a hole and no wire in the plan: what each needs is told before anything is bought.</summary>
internal static class UnwiredParts
{
    /// <summary>They and what they need; null where the desk has no controller, or everything is wired.</summary>
    public static Paragraph? Told(BookFacts facts)
    {
        var parts = Of(facts).ToList();
        return parts.Count == 0
            ? null
            : new($"Not wired by this book, though {(parts.Count == 1 ? "it has its hole" : "they have their holes")}: {string.Join("; ", parts.Select(part => $"{Code(part.Origin.Item)} ({Text(part.Part.Name)}) needs {Needs(part.Part, facts)}"))}. The sheet that came with a part says what volts and amperes it takes or may switch. Nothing of the mains belongs in this panel.");
    }

    /// <summary>Whether a panel has any.</summary>
    public static bool Any(BookFacts facts, string panel) => Of(facts).Any(part => facts.Laid.Panels.Any(laid => laid.Panel.Id == panel && laid.Parts.Contains(part)));

    private static IEnumerable<PlacedPart> Of(BookFacts facts) => facts.Wiring is not { } wiring ? []
        : facts.Laid.Panels.SelectMany(panel => panel.Parts).Where(part => part.Part.Class is not (PartClass.Screw or PartClass.Plain) && !wiring.Needs.Any(need => need.Part?.Origin.Item == part.Origin.Item));

    /// <summary>What its kind needs. Common practice, no source.</summary>
    private static string Needs(Part part, BookFacts facts) => part.Class switch
    {
        PartClass.Meter => "two wires from what it shows; one with digits a supply of its own besides",
        PartClass.Display => facts.Laid.Desk.Controller?.Reserved is { IsEmpty: false } kept ? $"its own supply, and data wires: {string.Join(", ", kept.Select(pin => pin.Header))} are kept free, and no program of ours drives it" : "its own supply, and data wires to pins that this desk’s plan does not keep for it",
        PartClass.Connector => "its cable, joined to both ends by what goes through it",
        PartClass.Lamp => "a supply and, where none is built in, a resistor",
        _ => "two wires or more to what it switches or sets",
    };
}
