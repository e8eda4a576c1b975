using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;

namespace Lampblack.Wiring;

/// <summary>What is to be said of a finished plan.</summary>
internal static class PlanFindings
{
    // What its sheet states levels for. From memory.
    private const double ChainAmperes = 0.006;

    public static IEnumerable<Finding> Of(ControllerPlan plan, ControllerWish wish)
    {
        if (!plan.Columns.IsEmpty && !plan.Diodes && Ghost(plan) is { } ghost)
        {
            yield return Finding.Warn(
                "matrix-ghosts",
                $"without diodes `{ghost}` can read closed though it is open: three others that close together stand at the corners of a rectangle with it",
                "solder a diode at every crossing: leave out `diodes = false`",
                wish.Span);
        }

        if (plan.Outputs is not null && wish.LampAmperes > ChainAmperes)
        {
            yield return Finding.Warn(
                "lamp-current-chain",
                FormattableString.Invariant($"{wish.LampAmperes * 1000:0.#} mA for each lamp are more than the {ChainAmperes * 1000:0} mA that an output of a 74HC595 is made for (from memory)"),
                "give less with `lamp-current` in `[wiring]`",
                wish.Span);
        }
    }

    /// <summary>A contact that others can make look closed: two contacts in its row and column, and one where those cross.</summary>
    private static string? Ghost(ControllerPlan plan)
    {
        var at = plan.Contacts.Where(contact => contact.Place is MatrixInput).ToDictionary(contact => (MatrixInput)contact.Place, contact => contact.ItemId);
        foreach (var (place, item) in at)
        {
            foreach (var other in at.Keys.Where(other => other.Column != place.Column && other.Row != place.Row))
            {
                if (at.TryGetValue(new(place.Column, other.Row), out var one) && at.TryGetValue(new(other.Column, place.Row), out var two)
                    && new[] { one, two, at[other] }.Distinct().Count() == 3)
                {
                    return item;
                }
            }
        }

        return null;
    }
}
