using System.Collections.Immutable;

namespace Lampblack.Wiring;

/// <summary>What kind of thing answers when the roll is called.</summary>
public enum WiredKind
{
    /// <summary>Stands in one of several states: switches, buttons, selectors.</summary>
    States,

    /// <summary>Turns without end.</summary>
    Encoder,

    /// <summary>Has a travel from one end to the other.</summary>
    Analog,

    /// <summary>A lamp; says nothing itself.</summary>
    Indicator,

    /// <summary>A meter with a pointer; says nothing itself.</summary>
    Meter,

    /// <summary>A part with data lines that the engine has no code for: pins are kept for them, and no host sees it.</summary>
    Data,
}

/// <summary>One control, indicator or push of a knob as the host sees it.</summary>
public sealed record WiredControl
{
    /// <summary>The item's id: "dome/shutter"; the push of a knob has "dome/focus.push", a button's lamp "dome/go-1.lamp".</summary>
    public required string Id { get; init; }

    /// <summary>What people call it: its legend, else its id.</summary>
    public required string Name { get; init; }

    /// <summary>What it is.</summary>
    public required WiredKind Kind { get; init; }

    /// <summary>Its controller.</summary>
    public required int Controller { get; init; }

    /// <summary>
    /// Numbers of its contacts in the controller's list, in the order of their throws (a switch's second pole after its first);
    /// empty for all else, and for a selector with a ladder.
    /// </summary>
    public ImmutableArray<int> Contacts { get; init; } = [];

    /// <summary>Its number among the controller's encoders, wipers, ladders, indicators or (a meter) dimmers; -1 where it has contacts.</summary>
    public int Number { get; init; } = -1;

    /// <summary>Its states in the order that the hand meets them (up to down, clockwise), if it has any.</summary>
    public ImmutableArray<WiredState> States { get; init; } = [];

    /// <summary>Whether several positions follow each other with a gap between (a selector): the host waits 20 ms before it believes in none.</summary>
    public bool BreaksBetween { get; init; }

    /// <summary>Whether it springs back to the state that <see cref="RestState"/> tells.</summary>
    public bool Momentary { get; init; }

    /// <summary>The state a momentary one stands in when nobody touches it: index into <see cref="States"/>.</summary>
    public int RestState { get; init; }
}

/// <summary>One state of a control.</summary>
/// <param name="Name">As printed on the panel, else "up", "middle", "down", "in", "out", "1"...</param>
/// <param name="Closed">For each of the control's contacts whether it is closed in this state; empty with a ladder, where the state's place is the ladder's position.</param>
public sealed record WiredState(string Name, ImmutableArray<bool> Closed);
