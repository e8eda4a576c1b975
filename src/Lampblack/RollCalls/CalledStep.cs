using System.Collections.Immutable;
using Lampblack.Link;

namespace Lampblack.RollCalls;

/// <summary>What the maker is asked to do.</summary>
internal enum StepKind
{
    /// <summary>Put it in a state.</summary>
    State,

    /// <summary>Turn it clockwise.</summary>
    Clockwise,

    /// <summary>Turn it counter-clockwise.</summary>
    CounterClockwise,

    /// <summary>Move it to its upper end: fully clockwise, up, right.</summary>
    ToEnd,

    /// <summary>Move it to its lower end.</summary>
    ToBeginning,
}

/// <summary>One thing to do at one control.</summary>
/// <param name="Control">Index into the controls that are called.</param>
/// <param name="Kind">What.</param>
/// <param name="State">The state, where it is about one.</param>
internal sealed record CalledStep(int Control, StepKind Kind, int State = -1);

/// <summary>What came of a step, from frames alone.</summary>
/// <param name="Step">What was asked.</param>
/// <param name="Before">How the hands had left the controls.</param>
/// <param name="After">How they should have left them then.</param>
/// <param name="ReadBefore">What was read before.</param>
/// <param name="ReadAfter">What was read after.</param>
/// <param name="Touched">Contacts that said anything.</param>
/// <param name="Edges">For each encoder all edges that it told, to and fro.</param>
/// <param name="FirstEdges">For each encoder which way it went first: 1, -1, or 0 where it said nothing.</param>
internal sealed record Observed(
    CalledStep Step, Hands Before, Hands After, PanelReadings ReadBefore, PanelReadings ReadAfter, ImmutableHashSet<int> Touched, ImmutableArray<int> Edges,
    ImmutableArray<int> FirstEdges);
