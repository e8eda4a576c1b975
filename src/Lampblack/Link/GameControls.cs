using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Wiring;

namespace Lampblack.Link;

/// <summary>Something that a virtual game controller's button or axis does.</summary>
/// <param name="IsAxis">Whether it is an axis.</param>
/// <param name="Number">The button or axis, from 0.</param>
/// <param name="Value">A button: 1 pressed, 0 released. An axis: 0 to 4092.</param>
public readonly record struct GameMove(bool IsAxis, int Number, int Value);

/// <summary>
/// A desk as a game controller: a switch of two states is one button, held in the second (a button's: held while pressed);
/// any other has a button for each state, held while it stands there; an encoder has two, clockwise and counter-clockwise, struck once a detent;
/// a potentiometer is an axis. Numbers follow the desk's order.
/// </summary>
public sealed class GameControls
{
    /// <summary>Long enough for a program that looks 30 times a second (common practice, no source).</summary>
    public const long StrikeMs = 35;

    /// <summary>Strikes that are kept for a knob turned faster than programs look.</summary>
    private const int MostWaiting = 24;

    private readonly ImmutableDictionary<string, (WiredControl Control, int First)> first;
    private readonly Dictionary<int, Queue<int>> strikes = [];
    private long nextMs;

    /// <summary>Counts buttons and axes.</summary>
    /// <param name="plan">The desk's pins.</param>
    /// <param name="controller">The controller's index.</param>
    public GameControls(PinPlan plan, int controller)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var found = ImmutableDictionary.CreateBuilder<string, (WiredControl, int)>(StringComparer.Ordinal);
        foreach (var control in plan.Controls.Where(control => control.Controller == controller))
        {
            var isAxis = control.Kind == WiredKind.Analog;
            found[control.Id] = (control, isAxis ? Axes : Buttons);
            Axes += isAxis ? 1 : 0;
            Buttons += control.Kind switch
            {
                WiredKind.States => control.States.Length == 2 ? 1 : control.States.Length,
                WiredKind.Encoder => 2,
                _ => 0,
            };
        }

        first = found.ToImmutable();
    }

    /// <summary>How many buttons it needs.</summary>
    public int Buttons { get; }

    /// <summary>How many axes it needs.</summary>
    public int Axes { get; }

    /// <summary>When <see cref="Tick"/> has something to do; null for nothing.</summary>
    public long? DueMs => strikes.Count == 0 ? null : nextMs;

    /// <summary>What an event moves at once. Detents are struck by <see cref="Tick"/>.</summary>
    /// <param name="happened">Any event.</param>
    public ImmutableArray<GameMove> Take(LinkEvent happened)
    {
        ArgumentNullException.ThrowIfNull(happened);
        if (!first.TryGetValue(happened.Id, out var place))
        {
            return [];
        }

        switch (happened)
        {
            case TravelEvent travel:
                return [new(true, place.First, (int)Math.Round(travel.ValueShare * WiperFrame.Full, MidpointRounding.AwayFromZero))];
            case StateEvent state:
                var states = place.Control.States;
                var at = states.IndexOf(states.FirstOrDefault(one => one.Name == state.State)!);
                return states.Length == 2
                    ? [new(false, place.First, at >= 0 && at == (place.Control.Momentary ? 1 - place.Control.RestState : 1) ? 1 : 0)]
                    : [.. Enumerable.Range(0, states.Length).OrderBy(one => one == at).Select(one => new GameMove(false, place.First + one, one == at ? 1 : 0))];
            case TurnEvent turn:
                var button = place.First + (turn.Steps > 0 ? 0 : 1);
                if (!strikes.TryGetValue(button, out var waiting))
                {
                    strikes[button] = waiting = new();
                }

                for (var step = 0; step < Math.Abs(turn.Steps) && waiting.Count < 2 * MostWaiting; step++)
                {
                    waiting.Enqueue(1);
                    waiting.Enqueue(0);
                }

                return [];
            default:
                return [];
        }
    }

    /// <summary>Strikes what waits, if it is time.</summary>
    /// <param name="ms">The time.</param>
    public ImmutableArray<GameMove> Tick(long ms)
    {
        if (strikes.Count == 0 || ms < nextMs)
        {
            return [];
        }

        nextMs = ms + StrikeMs;
        ImmutableArray<GameMove> moves = [.. strikes.OrderBy(one => one.Key).Select(one => new GameMove(false, one.Key, one.Value.Dequeue()))];
        foreach (var done in strikes.Where(one => one.Value.Count == 0).Select(one => one.Key).ToList())
        {
            strikes.Remove(done);
        }

        return moves;
    }
}
