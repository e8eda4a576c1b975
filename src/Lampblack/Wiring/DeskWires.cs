using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Wiring;

/// <summary>One end of a wire on a panel: a terminal, or the plug.</summary>
/// <param name="Item">The part's item; the plug's name for the plug.</param>
/// <param name="Terminal">The terminal, or the plug's contact.</param>
/// <param name="Inline">What is soldered between terminal and wire.</param>
/// <param name="InlineOhms">The resistor's value.</param>
public sealed record WireEnd(string Item, string Terminal, InlinePart Inline = InlinePart.None, double InlineOhms = 0);

/// <summary>One wire on the back of a panel.</summary>
/// <param name="Number">Its number on the whole desk, from 1.</param>
/// <param name="Net">Its net's name, written on its label.</param>
/// <param name="From">One end.</param>
/// <param name="To">The other.</param>
/// <param name="LengthMm">What to cut, slack included, rounded up to 5 mm.</param>
/// <param name="Colour">Its colour.</param>
/// <param name="Awg">Its gauge.</param>
/// <param name="Way">Where it runs, seen from the front; ends where the loom leaves the panel for the plug.</param>
public sealed record PlannedWire(int Number, string Net, WireEnd From, WireEnd To, double LengthMm, string Colour, int Awg, ImmutableArray<Point<PanelSpace>> Way);

/// <summary>A plug that a panel's loom ends in.</summary>
/// <param name="Name">"J1".</param>
/// <param name="At">Where the loom leaves the panel, seen from the front.</param>
/// <param name="Contacts">For each contact, from 1, its net and where it goes to at the controller.</param>
public sealed record PanelPlug(string Name, Point<PanelSpace> At, ImmutableArray<PlugContact> Contacts);

/// <summary>A contact of a plug.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Net">The net.</param>
/// <param name="Controller">Which controller.</param>
/// <param name="ControllerEnd">Where it goes to there.</param>
public sealed record PlugContact(int Number, string Net, int Controller, string ControllerEnd)
{
    /// <summary>The register's pin that it goes to; null for a pin of the controller.</summary>
    public RegisterPin? Register { get; init; }
}

/// <summary>The wires on the back of one panel.</summary>
/// <param name="Laid">The panel.</param>
/// <param name="Plug">Its plug; null where nothing on it is wired.</param>
/// <param name="Wires">Its wires, net by net.</param>
public sealed record PanelWires(LaidPanel Laid, PanelPlug? Plug, ImmutableArray<PlannedWire> Wires)
{
    /// <summary>Length of the cable from its plug to the controller.</summary>
    public double CableMm { get; init; }
}

/// <summary>All wires of a desk.</summary>
/// <param name="Nets">What is joined.</param>
/// <param name="Panels">The panels, in the desk's order.</param>
public sealed record DeskWires(WireNets Nets, ImmutableArray<PanelWires> Panels)
{
    /// <summary>The panel behind which the controllers live: that with the most contacts; null where nothing is wired.</summary>
    public PanelWires? Home => Panels.Where(panel => panel.Plug is not null).MaxBy(panel => panel.Plug!.Contacts.Length);
}
