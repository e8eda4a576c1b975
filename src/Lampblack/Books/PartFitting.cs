using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Layout;
using Lampblack.Parts;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>How a part goes into its hole, by how the catalogue says that it is held.</summary>
internal static class PartFitting
{
    /// <summary>What hands do with all parts that are held so; null where nothing is done.</summary>
    public static string? Doing(Mounting way, BookMaker maker) => way switch
    {
        Mounting.NutInFront => $"Nut in front: hold the part behind with the {maker.OtherHand} hand, turn the nut in front with the {maker.Hand} one: finger-tight, then a quarter turn with the spanner, padded with card. The lock washer lies behind the plate; the flat washer in front, under the nut.",
        Mounting.RingBehind => $"Ring behind: put the part in from the front, hold its bezel with the {maker.OtherHand} hand, turn the ring nut behind with the {maker.Hand} one: finger-tight, then an eighth of a turn with the spanner. The seal lies under the bezel, in front.",
        Mounting.ClipFromFront => "Clip or bezel: put it in from the front, push the lamp into it from behind until it snaps, or turn its nut on behind.",
        Mounting.PushedFromBehind => "Pushed in from behind: a drop of glue behind holds what does not hold by itself.",
        Mounting.SnapsIn => "Snaps in: push it in from the front, square, with both thumbs.",
        Mounting.SmallScrews => "Small screws: hold the part behind its opening and put its screws in from the front, by turns, finger-tight with the screwdriver: the thread in a part is short.",
        Mounting.BySheet => "What is held by brackets or frames of its own: as the sheet that came with it says. A bare module without either: lay it behind its opening, and turn it until what it shows stands in the middle; then strips of foam tape along its frame, from the module to the panel’s back, where no print is seen through.",
        _ => null,
    };

    /// <summary>Whether its knob points at a dial from one end to the other.</summary>
    public static bool HasPointer(Part part) => part.KnobDiameter is not null && part.Class is PartClass.Potentiometer or PartClass.Rotary;

    /// <summary>Whether a lug or tab beside its thread has a hole of its own.</summary>
    public static bool HasTab(Part part) => part.ExtraHoles.Any(hole => hole.Purpose.Contains("lug", StringComparison.Ordinal) || hole.Purpose.Contains("tab", StringComparison.Ordinal));

    /// <summary>Levers, stops, lugs and knobs: what is set as a part goes in. Common practice, no source.</summary>
    public static IEnumerable<string> Settings(ImmutableArray<Part> parts)
    {
        if (parts.Any(part => part.Class == PartClass.Toggle))
        {
            yield return "A lever moves towards the words of its positions: move it once before the nut is tight.";
        }

        if (parts.Any(part => part.Class == PartClass.Rotary))
        {
            yield return "A selector’s stop is set before it goes in: turn its shaft fully to the left, lift the ring with the tab that lies under its nut, and put the tab into the hole numbered as many as the table tells positions. Turn it through: so many clicks less one.";
        }

        if (parts.Any(HasTab))
        {
            yield return "A lug or tab beside a thread goes into the small hole that is drilled for it: the part then can’t turn. If yours has none, it is held by its nut alone; stick black tape over the small hole from behind.";
        }

        if (parts.Any(part => part is { Class: PartClass.Lamp, IsPixel: false }))
        {
            yield return "A lamp has a longer leg, plus: press it home so turned that, seen from behind, this leg is at the right; all alike.";
        }

        if (parts.Any(part => part is { Class: PartClass.PushButton, Illuminated: true }))
        {
            yield return "A lit button is turned so that its lamp’s plus is up, as in the picture of its tags at the step of its wires.";
        }

        if (parts.Any(HasPointer))
        {
            yield return "A knob with a pointer comes last: turn the shaft fully to the left, push the knob on with its pointer at the first mark of its dial, and tighten its small screw. Turn it fully to the right: where the pointer misses the last mark, loosen it and share the error between both ends.";
        }
    }

    /// <summary>What it takes.</summary>
    public static IEnumerable<BookTool> Tools(ImmutableArray<Mounting> ways, bool hasKnob)
    {
        if (ways.Contains(Mounting.NutInFront) || ways.Contains(Mounting.RingBehind))
        {
            yield return Tool.Spanners;
        }

        if (hasKnob || ways.Contains(Mounting.SmallScrews))
        {
            yield return Tool.Screwdriver;
        }
    }

    /// <summary>What is told of one part in its row.</summary>
    public static string How(PlacedPart placed, BookFacts facts)
    {
        var part = placed.Part;
        var how = new List<string>
        {
            part.Mounting switch
            {
                Mounting.NutInFront => "from behind; nut in front",
                Mounting.RingBehind => "from the front; ring nut behind",
                Mounting.ClipFromFront => "clip or bezel from the front, lamp from behind",
                Mounting.PushedFromBehind => "pushed in from behind",
                Mounting.SnapsIn => "pushed in from the front",
                Mounting.SmallScrews => "from behind; small screws from the front",
                Mounting.ScrewThrough => "screw, washer, not forced",
                Mounting.Open => "stays open",
                _ => "as the sheet that came with it says",
            },
        };
        if (part.Key is not null)
        {
            how.Add("key in the notch");
        }

        how.AddRange(part.ExtraHoles.Select(hole => hole.Purpose).Distinct());
        if (placed.TurnDegrees != 0)
        {
            how.Add(string.Create(CultureInfo.InvariantCulture, $"turned by {Math.Abs(placed.TurnDegrees):0.#}° {(placed.TurnDegrees < 0 ? "counter-clockwise" : "clockwise")}, seen from the front"));
        }

        if (part is { Class: PartClass.Rotary, Positions: { } set })
        {
            how.Add(string.Create(CultureInfo.InvariantCulture, $"stop at {set.Count} positions"));
        }

        if (part.KnobDiameter is { } knob)
        {
            how.Add($"knob of {facts.Exact(knob.Mm)}{(HasPointer(part) ? ", pointer at the first mark when fully left" : string.Empty)}");
        }

        return string.Join("; ", how);
    }

    /// <summary>As one says it, and as lists and drawings call it where that is something else.</summary>
    public static string Named(PlacedPart part, ImmutableDictionary<string, string> spoken) =>
        spoken.GetValueOrDefault(part.Origin.Item) is { } words && words != part.Origin.Name ? words.Contains($"({part.Origin.Name})", StringComparison.Ordinal) ? Text(words) : $"{Text(words)}<br/>{Code(part.Origin.Name)}" : Code(part.Origin.Name);
}
