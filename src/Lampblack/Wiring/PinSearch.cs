using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Wiring;

/// <summary>Of all ways to plan one controller the one with the fewest things to buy and solder; of those that keep the engine's pace, where there are any.</summary>
internal static class PinSearch
{
    // Beside each shift register stand its capacitor and wires, beside each of its inputs a resistor.
    private const int ChipCost = 4;
    private const int InputCost = 8;

    // Pins of their own are read all at once, eight of a port at a time: more ports take longer. All others go into the matrix, one column at a time.
    private static readonly int[] WholePorts = [64, 48, 40, 32, 24, 16, 8, 0];

    /// <summary>The best plan; null where no way fits.</summary>
    /// <param name="task">What the controller has to do.</param>
    /// <param name="keepsPace">Whether the engine keeps pace with a plan.</param>
    public static ControllerPlan? Best(PinTask task, Func<ControllerPlan, bool> keepsPace)
    {
        if (Cheapest(task, [null], _ => true) is not { } cheapest)
        {
            return null;
        }

        // The cheapest plan mostly keeps pace; only where it does not are others looked for.
        var best = keepsPace(cheapest) ? cheapest : Cheapest(task, [null, .. WholePorts.Select(count => (int?)count)], keepsPace) ?? cheapest;
        var shortened = MatrixGrouping.Shortened(best, task);
        return keepsPace(shortened) || !keepsPace(best) ? shortened : best;
    }

    private static ControllerPlan? Cheapest(PinTask task, IEnumerable<int?> mostDirect, Func<ControllerPlan, bool> isGood)
    {
        var ladders = PinTrial.Selectors(task).Count();
        var ways = from input in Enum.GetValues<InputWay>()
                   from hasChain in new[] { false, true }
                   from count in Enumerable.Range(0, ladders + 1)
                   from most in mostDirect
                   where most is null || input != InputWay.Chain
                   select new PinWay(input, count, hasChain) { MostDirect = most };
        ControllerPlan? best = null;
        var least = int.MaxValue;
        foreach (var way in ways.Where(way => !way.HasOutputChain || task.Needs.Any(need => need.Kind == WiredKind.Indicator)))
        {
            if (PinTrial.Of(task, way) is { } plan && Cost(plan) is var cost && cost < least && isGood(plan))
            {
                (best, least) = (plan, cost);
            }
        }

        return best;
    }

    /// <summary>Things to buy and solder beside pins: diodes, resistors of ladders, registers with what stands beside them.</summary>
    /// <param name="plan">The plan.</param>
    public static int Cost(ControllerPlan plan) =>
        plan.Contacts.Count(contact => contact.Place is MatrixInput)
        + plan.Ladders.Sum(ladder => ladder.Windows.Length + 1)
        + ((plan.Inputs?.ChipCount ?? 0) * (ChipCost + InputCost))
        + ((plan.Outputs?.ChipCount ?? 0) * ChipCost);
}
