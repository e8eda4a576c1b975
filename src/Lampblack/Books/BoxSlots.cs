using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;

namespace Lampblack.Books;

/// <summary>A slot in the lower edge of a box's upper wall, that a cable is laid into.</summary>
/// <param name="Box">The box.</param>
/// <param name="What">What goes through it.</param>
/// <param name="MiddleMm">Its middle, from the left corner inside, seen from the front.</param>
/// <param name="WideMm">How wide.</param>
/// <param name="HighMm">How high, from the wall's lower edge.</param>
internal sealed record BoxSlot(BookBox Box, string What, double MiddleMm, double WideMm, double HighMm);

/// <summary>
/// Where cables leave the boxes: all through the upper wall, which stands away from the maker's hands, side by side about its middle: so it does not matter how the boxes
/// stand beside each other. Common practice, no source; sizes from memory.
/// </summary>
internal static class BoxSlots
{
    /// <summary>From one slot's middle to the next.</summary>
    public const double NextMm = 25;

    // A plug's grip passes with its cable, up to the socket of a board on spacers of 5 mm; two single wires; a loom.
    private static readonly (double Wide, double High) Usb = (14, 20);
    private static readonly (double Wide, double High) Pair = (6, 6);
    private static readonly (double Wide, double High) Loom = (16, 8);

    // The floor's blocks stand in the corners.
    private const double CornerMm = 14;

    /// <summary>The slots of all boxes, from left to right.</summary>
    public static ImmutableArray<BoxSlot> Of(BookFacts facts) => [.. facts.Boxes.SelectMany(box => Placed(box, [.. Wanted(box, facts)]))];

    /// <summary>The box that the controllers stand in; the first one where their panel has no box of its own; null without controller or box.</summary>
    public static BookBox? Home(BookFacts facts) => facts.Wiring is not { } wiring ? null
        : facts.Boxes.FirstOrDefault(box => box.Id == wiring.Wires.Home?.Laid.Panel.Id) ?? facts.Boxes.FirstOrDefault();

    private static IEnumerable<(string What, (double Wide, double High) Size)> Wanted(BookBox box, BookFacts facts)
    {
        if (facts.Circuit is not null && facts.LampBoards.FirstOrDefault(board => !board.Channels.IsEmpty)?.Box == box)
        {
            yield return ("the pair from the lamps’ supply", Pair);
        }

        if (Home(facts) == box)
        {
            foreach (var plan in facts.Wiring!.Pins.Controllers)
            {
                yield return ($"USB cable of the {plan.Chip}", Usb);
                if (plan.Chip == ControllerChip.ATmega32U4)
                {
                    yield return ("USB cable of the USB-to-serial adapter", Usb);
                }
            }
        }

        if (UnwiredParts.Any(facts, box.Id))
        {
            yield return ("the cables of parts that this book does not wire", Loom);
        }

        if (facts.Boxes.Length > 1 && (facts.Circuit is not null || facts.Wiring is not null))
        {
            yield return ($"cables to {(facts.Boxes.Length > 2 ? "the other boxes" : facts.Boxes.Single(other => other != box).Panel)}", Loom);
        }
    }

    /// <summary>Side by side about the middle; where the wall is too short for that, one for all.</summary>
    private static IEnumerable<BoxSlot> Placed(BookBox box, ImmutableArray<(string What, (double Wide, double High) Size)> wanted)
    {
        if (wanted.Length > 1 && ((wanted.Length - 1) * NextMm) + Loom.Wide > box.WidthMm - (2 * CornerMm))
        {
            yield return new(box, string.Join(", ", wanted.Select(one => one.What)), Math.Round(box.WidthMm / 2, MidpointRounding.AwayFromZero), Math.Min(box.WidthMm / 2, Loom.Wide + Usb.Wide), wanted.Max(one => one.Size.High));
            yield break;
        }

        foreach (var (index, (what, size)) in wanted.Index())
        {
            yield return new(box, what, Math.Round((box.WidthMm / 2) + ((index - ((wanted.Length - 1) / 2.0)) * NextMm), MidpointRounding.AwayFromZero), size.Wide, size.High);
        }
    }
}
