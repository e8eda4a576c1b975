using System.Collections.Generic;

namespace Lampblack.Books;

/// <summary>The trade's words that a book uses, for one who meets them the first time.</summary>
internal static class BookWords
{
    /// <summary>Those that this desk's book uses, as they come up.</summary>
    /// <param name="facts">The desk.</param>
    public static IEnumerable<(string Word, string Meaning)> Of(BookFacts facts)
    {
        yield return ("front, mask", "the two sides of the print: the picture that you see, and behind it the mirrored black that lets light through at its words alone");
        yield return ("in register", "front and mask lie so well over each other that no light comes past a word's edge");
        yield return ("pair code", "six signs printed on both sides of a sheet: alike, they belong together");
        yield return ("trim mark, crosshair", "thin lines at a panel's corners, where it is cut off; a cross in the middle of each hole");
        if (!facts.Lamps.IsEmpty)
        {
            yield return ("emitter, lamp board", "a small lamp behind the panel; the board in the box that all of them stand on");
        }

        if (facts.Circuit is not null)
        {
            yield return ("channel, string", "all emitters that are dimmed together; a few of them one behind the other with one resistor");
        }

        if (facts.Wiring is { } wiring)
        {
            yield return ("tag, net", "a metal ear of a part that a wire is soldered to; all wires and tags that are joined to each other");
            yield return ("loom, plug", "a panel's wires tied together; what they all end at");
            yield return ("D2, A0 and the like", "pins of the controller, as they are printed on its board");
            if (wiring.IsCalled)
            {
                yield return ("flash, boot loader", "to write the panel's program into the controller; the small program in it that takes it over USB");
            }
        }
    }
}
