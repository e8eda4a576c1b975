using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Wiring;

namespace Lampblack.Link;

/// <summary>Turns readings into what happened at the controls: states, detents, travel.</summary>
public sealed class ControlStates
{
    /// <summary>A selector has a gap between two positions; none is believed only after it (people-mechanics facts, common practice, no source).</summary>
    public const long GapMs = 20;

    private readonly ControllerPlan plan;
    private readonly ImmutableArray<WiredControl> controls;
    private readonly Known[] known;

    /// <summary>Knows nothing yet.</summary>
    /// <param name="plan">The desk's pins.</param>
    /// <param name="controller">The controller's index in it.</param>
    public ControlStates(PinPlan plan, int controller)
    {
        ArgumentNullException.ThrowIfNull(plan);
        this.plan = plan.Controllers[controller];
        controls = [.. plan.Controls.Where(control => control.Controller == controller)];
        known = [.. controls.Select(_ => new Known())];
    }

    /// <summary>When a gap must be looked at again; null for none.</summary>
    public long? DueMs => known.Min(one => one.GapSinceMs) + GapMs;

    /// <summary>Takes where encoders stand as their beginning, without counting a step: after the panel's start nobody knows what was turned.</summary>
    /// <param name="readings">What the panel says.</param>
    public void Rebase(PanelReadings readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        foreach (var (control, one) in controls.Zip(known).Where(pair => pair.First.Kind == WiredKind.Encoder))
        {
            one.Position = readings.Encoders[control.Number].Position;
        }
    }

    /// <summary>Compares with what was known.</summary>
    /// <param name="readings">What the panel says.</param>
    /// <param name="ms">The time.</param>
    public ImmutableArray<LinkEvent> Compare(PanelReadings readings, long ms)
    {
        ArgumentNullException.ThrowIfNull(readings);
        var events = new List<LinkEvent>();
        foreach (var (control, one) in controls.Zip(known))
        {
            if (Of(control, one, readings, ms) is { } happened)
            {
                events.Add(happened);
            }
        }

        return [.. events];
    }

    /// <summary>The state that a control's contacts, or its ladder, show.</summary>
    /// <param name="control">A control with states.</param>
    /// <param name="readings">What the panel says.</param>
    /// <returns>Index into its states; -1 for none of them.</returns>
    public static int StateOf(WiredControl control, PanelReadings readings)
    {
        ArgumentNullException.ThrowIfNull(control);
        ArgumentNullException.ThrowIfNull(readings);
        if (control.Contacts.IsEmpty)
        {
            var position = readings.Ladders[control.Number].Position;
            return position < control.States.Length ? position : -1;
        }

        for (var state = 0; state < control.States.Length; state++)
        {
            if (control.Contacts.Select(contact => readings.Contacts[contact]).SequenceEqual(control.States[state].Closed))
            {
                return state;
            }
        }

        return -1;
    }

    private LinkEvent? Of(WiredControl control, Known one, PanelReadings readings, long ms)
    {
        switch (control.Kind)
        {
            case WiredKind.States:
                var state = StateOf(control, readings);
                var isOpen = control.BreaksBetween && control.Contacts.All(contact => !readings.Contacts[contact]) && !control.Contacts.IsEmpty;
                if (state == one.State && one.IsSeen)
                {
                    one.GapSinceMs = null;
                    return null;
                }

                if ((state < 0 || isOpen) && ms - (one.GapSinceMs ??= ms) < GapMs)
                {
                    return null;
                }

                (one.GapSinceMs, one.State, one.IsSeen) = (null, state, true);
                return new StateEvent(ms, control.Id, state < 0 ? null : control.States[state].Name);

            case WiredKind.Encoder:
                var edgesPerDetent = plan.Encoders[control.Number].EdgesPerDetent;
                var detents = (short)(readings.Encoders[control.Number].Position - one.Position) / edgesPerDetent;
                one.Position = (short)(one.Position + (detents * edgesPerDetent));
                return detents == 0 ? null : new TurnEvent(ms, control.Id, detents);

            case WiredKind.Analog:
                var value = readings.Wipers[control.Number];
                if (value == one.State && one.IsSeen)
                {
                    return null;
                }

                (one.State, one.IsSeen) = (value, true);
                return new TravelEvent(ms, control.Id, value / (double)WiperFrame.Full);

            default:
                return null;
        }
    }

    private sealed class Known
    {
        public bool IsSeen { get; set; }

        public int State { get; set; }

        public short Position { get; set; }

        public long? GapSinceMs { get; set; }
    }
}
