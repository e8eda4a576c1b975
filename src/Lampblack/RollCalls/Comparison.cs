using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Link;
using Lampblack.Wiring;

namespace Lampblack.RollCalls;

/// <summary>Whether what came of a step is what a panel with a fault, or without one, would say.</summary>
internal static class Comparison
{
    /// <summary>Detents that a maker who was asked for a turn has turned at least.</summary>
    public const int LeastDetents = 4;

    /// <summary>The end of a track is reached within this share: tracks have a rest of resistance (common practice, no source).</summary>
    public const double EndShare = 0.05;

    private const double PulledShare = 0.35;

    private const double StillShare = 0.03;

    private const int Trial = 8;

    /// <summary>An edge and back is what the other knobs may shake out of one that rests on it (own measure, no source).</summary>
    private const int StillEdges = 2;

    /// <summary>What does not fit a panel without a fault; empty where all does. Wipers and ladders that hang in the air fit whatever they say.</summary>
    /// <param name="plan">The controller.</param>
    /// <param name="good">Its wires, without a fault.</param>
    /// <param name="control">The control that was called.</param>
    /// <param name="observed">What came of it.</param>
    public static IEnumerable<Misfit> Misfits(ControllerPlan plan, WiringModel good, WiredControl control, Observed observed) =>
        Misfits(plan, Predict(good, control, observed).First(), control, observed);

    /// <summary>Whether all fits, wherever encoders rest that were left at some detent.</summary>
    /// <param name="plan">The controller.</param>
    /// <param name="wires">Its wires.</param>
    /// <param name="control">The control that was called.</param>
    /// <param name="observed">What came of it.</param>
    public static bool Fits(ControllerPlan plan, WiringModel wires, WiredControl control, Observed observed) =>
        Predict(wires, control, observed).Any(predicted => !Misfits(plan, predicted, control, observed).Any());

    /// <summary>What a panel reads on the way of a step, the last one is how it ends; for each way in which its encoders may rest.</summary>
    /// <param name="wires">Its wires; without a fault there is one way.</param>
    /// <param name="control">The control that was called.</param>
    /// <param name="observed">The step, whatever came of it.</param>
    public static IEnumerable<Predicted[]> Predict(WiringModel wires, WiredControl control, Observed observed)
    {
        foreach (var after in wires.Rests(observed.After))
        {
            yield return observed.Step.Kind is StepKind.Clockwise or StepKind.CounterClockwise
                ? [.. Quarters(wires, after, control.Number), wires.Read(after)]
                : [wires.Read(observed.Before with { Quarters = after.Quarters }), wires.Read(after)];
        }
    }

    /// <summary>The same where the readings are predicted already.</summary>
    public static IEnumerable<Misfit> Misfits(ControllerPlan plan, Predicted[] predicted, WiredControl control, Observed observed)
    {
        var after = predicted[^1];
        var isTurn = observed.Step.Kind is StepKind.Clockwise or StepKind.CounterClockwise;
        var quarters = isTurn ? predicted[..^1] : predicted;
        for (var contact = 0; contact < plan.Contacts.Length; contact++)
        {
            var isClosed = observed.ReadAfter.Contacts[contact];
            if (isTurn)
            {
                if (Moves(quarters, contact) is { } moves && moves != observed.Touched.Contains(contact))
                {
                    yield return new(MisfitKind.Contact, contact);
                }
            }
            else if (after.Closed[contact] is { } expected && expected != isClosed && !IsStill(predicted, control, observed, contact))
            {
                yield return new(MisfitKind.Contact, contact);
            }
        }

        for (var encoder = 0; encoder < plan.Encoders.Length; encoder++)
        {
            if (!Turns(plan, quarters, encoder, observed, isTurn ? Edges(plan, control.Number, observed.Step.Kind) : 1))
            {
                yield return new(MisfitKind.Encoder, encoder);
            }
        }

        for (var wiper = 0; wiper < plan.Wipers.Length; wiper++)
        {
            if (after.TravelShares[wiper] is { } share && !Stands(share, predicted[0].TravelShares[wiper], control, observed, wiper))
            {
                yield return new(MisfitKind.Wiper, wiper);
            }
        }

        for (var ladder = 0; ladder < plan.Ladders.Length; ladder++)
        {
            var position = observed.ReadAfter.Ladders[ladder].Position;
            var isOwn = control.Kind == WiredKind.States && control.Contacts.IsEmpty && control.Number == ladder;
            var isStill = !isOwn && position == observed.ReadBefore.Ladders[ladder].Position && predicted[0].Positions[ladder] == after.Positions[ladder];
            if (after.Positions[ladder] is { } expected && expected != (position == LadderFrame.None ? -1 : position) && !isStill)
            {
                yield return new(MisfitKind.Ladder, ladder);
            }
        }
    }

    /// <summary>Edges that a turn of some detents gives, clockwise positive.</summary>
    private static int Edges(ControllerPlan plan, int encoder, StepKind kind) => Trial * plan.Encoders[encoder].EdgesPerDetent * (kind == StepKind.Clockwise ? 1 : -1);

    private static Predicted[] Quarters(WiringModel wires, Hands hands, int encoder) =>
    [
        wires.Read(hands.AtQuarter(encoder, 0)), wires.Read(hands.AtQuarter(encoder, 1)), wires.Read(hands.AtQuarter(encoder, 2)), wires.Read(hands.AtQuarter(encoder, 3)),
    ];

    /// <summary>Whether a contact's reading changes on the way; null where that can't be told.</summary>
    private static bool? Moves(Predicted[] quarters, int contact)
    {
        var first = quarters[0].Closed[contact];
        foreach (var one in quarters)
        {
            if (one.Closed[contact] is null)
            {
                return null;
            }

            if (one.Closed[contact] != first)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Whether an encoder said what its two phases, decoded, would give.</summary>
    private static bool Turns(ControllerPlan plan, Predicted[] on, int encoder, Observed observed, int edges)
    {
        var (delta, illegal, all) = (0, 0, 0);
        var at = 0;
        int? last = Code(on[0], encoder);
        for (var edge = 0; edge < Math.Abs(edges); edge++)
        {
            at = (at + Math.Sign(edges) + on.Length) % on.Length;
            if (Code(on[at], encoder) is not { } code || last is not { } before)
            {
                return true;
            }

            var step = (code - before) & 3;
            delta += step == 1 ? 1 : step == 3 ? -1 : 0;
            illegal += step == 2 ? 1 : 0;
            all += step is 1 or 3 ? 1 : 0;
            last = code;
        }

        var was = observed.ReadBefore.Encoders[encoder];
        var now = observed.ReadAfter.Encoders[encoder];
        var turned = (short)(now.Position - was.Position);
        var wrong = (byte)(now.Illegal - was.Illegal);
        if (Math.Abs(edges) == 1)
        {
            // Nobody turns an encoder here. One that rests on an edge may wander by it; one that shall move must.
            return delta != 0 || illegal != 0 ? turned != 0 || wrong != 0 : Math.Abs(turned) <= 1 && wrong == 0;
        }

        // To and fro shows in the frames alone. One that rests on an edge may wander by it.
        var told = observed.Edges[encoder];
        if (all == 0 ? told > StillEdges : all >= LeastDetents && told < StillEdges)
        {
            return false;
        }

        var least = LeastDetents * plan.Encoders[encoder].EdgesPerDetent;
        var isAsTurned = Math.Abs(delta) >= least ? Math.Sign(turned) == Math.Sign(delta) && Math.Abs(turned) >= least - 1 : Math.Abs(turned) <= Math.Abs(delta) + 2;
        return isAsTurned && (illegal >= LeastDetents ? wrong >= LeastDetents - 1 : wrong <= 2);
    }

    /// <summary>The place in the cycle that two phases show: 0 to 3.</summary>
    public static int? Code(Predicted read, int encoder) => (read.Phases[2 * encoder], read.Phases[(2 * encoder) + 1]) switch
    {
        (false, false) => 0,
        (true, false) => 1,
        (true, true) => 2,
        (false, true) => 3,
        _ => null,
    };

    /// <summary>
    /// Whether a contact of another control stands wrong and does not stir: then it has nothing to do with this step.
    /// It may only have been left in another position, and shows what it is when it is called itself.
    /// </summary>
    private static bool IsStill(Predicted[] predicted, WiredControl control, Observed observed, int contact) =>
        !control.Contacts.Contains(contact)
        && !observed.Touched.Contains(contact)
        && observed.ReadBefore.Contacts[contact] == observed.ReadAfter.Contacts[contact]
        && predicted[0].Closed[contact] == predicted[^1].Closed[contact];

    private static bool Stands(double share, double? before, WiredControl control, Observed observed, int wiper)
    {
        var read = observed.ReadAfter.Wipers[wiper] / (double)WiperFrame.Full;
        var was = observed.ReadBefore.Wipers[wiper] / (double)WiperFrame.Full;
        var isOwn = control.Kind == WiredKind.Analog && control.Number == wiper;

        // Two wipers that touch pull against each other; where that ends depends on their tracks.
        return Math.Abs(read - share) <= (share is > EndShare and < 1 - EndShare ? PulledShare : EndShare)
            || (!isOwn && before == share && Math.Abs(read - was) <= StillShare);
    }
}

/// <summary>What a misfit is about.</summary>
internal enum MisfitKind
{
    /// <summary>A contact.</summary>
    Contact,

    /// <summary>An encoder.</summary>
    Encoder,

    /// <summary>A wiper.</summary>
    Wiper,

    /// <summary>A ladder.</summary>
    Ladder,
}

/// <summary>Something that said what it should not, or did not say what it should.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Number">Its number on the controller.</param>
internal readonly record struct Misfit(MisfitKind Kind, int Number);
