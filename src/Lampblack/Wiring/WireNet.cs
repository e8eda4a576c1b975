using System.Collections.Immutable;
using Lampblack.Geometry;

namespace Lampblack.Wiring;

/// <summary>What kind of wire it is.</summary>
public enum NetRole
{
    /// <summary>0 V.</summary>
    Zero,

    /// <summary>The controller's own supply.</summary>
    Supply,

    /// <summary>A row of the matrix.</summary>
    Row,

    /// <summary>A column of the matrix.</summary>
    Column,

    /// <summary>To a pin, or a register's input or output, alone.</summary>
    Signal,
}

/// <summary>What is soldered between a terminal and its wire.</summary>
public enum InlinePart
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>A diode that lets current from the terminal to the wire: its band is at the wire.</summary>
    DiodeToWire,

    /// <summary>A diode that lets current from the wire to the terminal: its band is at the terminal.</summary>
    DiodeToTerminal,

    /// <summary>A resistor.</summary>
    Resistor,
}

/// <summary>A terminal of a part on a panel that a net is joined to.</summary>
/// <param name="Panel">Which panel.</param>
/// <param name="ItemId">The control that the terminal belongs to, as the plan calls it.</param>
/// <param name="PartItem">The part's item: for the push of a knob the knob.</param>
/// <param name="Terminal">The terminal's name.</param>
/// <param name="At">Its place, seen from the front.</param>
/// <param name="Inline">What is soldered between.</param>
/// <param name="InlineOhms">The resistor's value; 0 for others.</param>
public sealed record NetTerminal(int Panel, string ItemId, string PartItem, string Terminal, Point<PanelSpace> At, InlinePart Inline = InlinePart.None, double InlineOhms = 0);

/// <summary>Terminals and pins that are joined by wires.</summary>
/// <param name="Name">As it is written on labels: "R3", "C5", "D22", "0V", "5V".</param>
/// <param name="Role">What kind.</param>
/// <param name="Controller">Which controller.</param>
/// <param name="ControllerEnd">Where it goes to at the controller: "D22", "shift register 2, input C", "GND".</param>
/// <param name="Terminals">Its terminals on panels, in the desk's order.</param>
public sealed record WireNet(string Name, NetRole Role, int Controller, string ControllerEnd, ImmutableArray<NetTerminal> Terminals)
{
    /// <summary>The register's pin that it leads to; null for a pin of the controller.</summary>
    public RegisterPin? Register { get; init; }

    /// <summary>Whether it joins two parts and leads to no controller: data from one pixel to the next.</summary>
    public bool IsLocal => ControllerEnd.Length == 0;
}

/// <summary>A resistor between two neighbouring terminals of a selector.</summary>
/// <param name="Panel">Which panel.</param>
/// <param name="ItemId">The selector.</param>
/// <param name="First">One terminal.</param>
/// <param name="Second">The other.</param>
/// <param name="Ohms">Its value.</param>
public sealed record LadderResistor(int Panel, string ItemId, string First, string Second, double Ohms);
