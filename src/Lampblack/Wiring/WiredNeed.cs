using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Wiring;

/// <summary>One control, lamp, or push of a knob that has to be wired, before it is said where.</summary>
public sealed record WiredNeed
{
    /// <summary>As in <see cref="WiredControl"/>.</summary>
    public required string Id { get; init; }

    /// <summary>As in <see cref="WiredControl"/>.</summary>
    public required string Name { get; init; }

    /// <summary>As in <see cref="WiredControl"/>.</summary>
    public required WiredKind Kind { get; init; }

    /// <summary>Which panel, from 0; negative for what has no place on one.</summary>
    public required int Panel { get; init; }

    /// <summary>The part in its hole; null for what is none (a lamp behind a legend).</summary>
    public PlacedPart? Part { get; init; }

    /// <summary>Its contacts, pole by pole.</summary>
    public ImmutableArray<ContactNeed> Contacts { get; init; } = [];

    /// <summary>Names of its positions, in the order of the hand.</summary>
    public ImmutableArray<string> Positions { get; init; } = [];

    /// <summary>Whether it is a selector with gaps between its positions.</summary>
    public bool BreaksBetween { get; init; }

    /// <summary>Whether it springs back.</summary>
    public bool Momentary { get; init; }

    /// <summary>The position it springs back to.</summary>
    public int RestState { get; init; }

    /// <summary>Whether its contacts are believed only when steady.</summary>
    public bool IsSteady { get; init; }

    /// <summary>Of an encoder.</summary>
    public int EdgesPerDetent { get; init; } = 4;

    /// <summary>Of a meter with a pointer: what moves it to the end of its scale.</summary>
    public double FullScaleAmperes { get; init; } = ControlWiring.UsualMeterAmperes;

    /// <summary>Of a display or pixel: the terminals of its data lines, each on a pin of its own. None for a pixel that gets its data from another.</summary>
    public ImmutableArray<string> DataTerminals { get; init; } = [];

    /// <summary>Of a strip of pixels behind a panel: whether its data comes through a level shifter, which the wire from the controller then ends at, not at the data resistor.</summary>
    public bool HasShifter { get; init; }

    /// <summary>Of a pixel that gets its data from another one: that one's id; null for all else.</summary>
    public string? DataFrom { get; init; }

    /// <summary>The contacts of each pole together: they share a terminal, and so a row or a column.</summary>
    public ImmutableArray<ImmutableArray<ContactNeed>> Poles => [.. Contacts.GroupBy(contact => contact.Pole).OrderBy(group => group.Key).Select(group => group.ToImmutableArray())];

    /// <summary>Its place among all panels laid side by side with a metre between, for judging distances.</summary>
    public Point<PanelSpace> Spot => new((1000 * Math.Max(0, Panel)) + (Part?.Centre.XMm ?? 0), Part?.Centre.YMm ?? 0);
}

/// <summary>One contact that is read.</summary>
/// <param name="Number">Its number in its control, from 0.</param>
/// <param name="Pole">Its pole, from 0.</param>
/// <param name="Common">The terminal that it shares with its pole's other contacts.</param>
/// <param name="Throw">Its own terminal.</param>
/// <param name="Closed">For each position whether it is closed.</param>
public sealed record ContactNeed(int Number, int Pole, string Common, string Throw, ImmutableArray<bool> Closed);

/// <summary>A channel of light that the controller dims, or at least switches.</summary>
/// <param name="Channel">The circuit's name for it.</param>
/// <param name="PwmHertz">How often a second it is to be switched for dimming.</param>
/// <param name="ItemId">The legend whose own light it is; null for a panel's common light, which must be dimmed.</param>
/// <param name="IsMeter">Whether it moves a meter's pointer: 250 steps will do, and any speed that the timer has already.</param>
public sealed record DimmerNeed(string Channel, double PwmHertz, string? ItemId = null, bool IsMeter = false)
{
    /// <summary>Of a meter: what moves its pointer to the end of its scale.</summary>
    public double FullScaleAmperes { get; init; } = ControlWiring.UsualMeterAmperes;
}
