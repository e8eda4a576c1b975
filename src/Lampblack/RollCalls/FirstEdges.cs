using System.Linq;
using Lampblack.Wiring;

namespace Lampblack.RollCalls;

/// <summary>
/// Which way an encoder goes first that only goes an edge on and back, because one of its terminals stays as it is: A alone counts up when it closes, B alone down.
/// A hand may shake a knob before it turns it, so this puts causes in order and rules none out.
/// </summary>
internal static class FirstEdges
{
    private const int KnownRest = 4;

    /// <summary>In how many encoders of one step this says something else than what came.</summary>
    /// <param name="plan">The controller.</param>
    /// <param name="wires">Its wires, with a fault.</param>
    /// <param name="control">The control that was called.</param>
    /// <param name="observed">What came of it.</param>
    public static int Against(ControllerPlan plan, WiringModel wires, WiredControl control, Observed observed)
    {
        // With fewer edges to a detent nobody knows at which quarter the knob rested.
        if (observed.Step.Kind is not (StepKind.Clockwise or StepKind.CounterClockwise) || plan.Encoders[control.Number].EdgesPerDetent != KnownRest)
        {
            return 0;
        }

        var way = observed.Step.Kind == StepKind.Clockwise ? 1 : -1;
        return Comparison.Predict(wires, control, observed)
            .Select(predicted => Enumerable.Range(0, plan.Encoders.Length).Count(encoder => Wandering(predicted[..^1], encoder, way) is { } first && first != 0 && observed.FirstEdges[encoder] == -first))
            .Min();
    }

    /// <summary>The first edge of an encoder that ends each turn where it began; null for all others.</summary>
    private static int? Wandering(Predicted[] quarters, int encoder, int way)
    {
        var (first, all, at) = (0, 0, 0);
        for (var edge = 0; edge < quarters.Length; edge++)
        {
            var next = (at + way + quarters.Length) % quarters.Length;
            if (Comparison.Code(quarters[at], encoder) is not { } before || Comparison.Code(quarters[next], encoder) is not { } code)
            {
                return null;
            }

            var step = (code - before) & 3;
            var delta = step == 1 ? 1 : step == 3 ? -1 : 0;
            first = first == 0 ? delta : first;
            all += delta;
            at = next;
        }

        return all == 0 ? first : null;
    }
}
