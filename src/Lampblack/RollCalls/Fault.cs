using Lampblack.Parts;

namespace Lampblack.RollCalls;

/// <summary>One thing that may be wrong with the wires.</summary>
internal abstract record Fault;

/// <summary>The wires of two pins are exchanged at the controller.</summary>
internal sealed record PinsExchanged(ControllerPin One, ControllerPin Other) : Fault;

/// <summary>A pin has no wire, or its wire leads nowhere.</summary>
internal sealed record PinOff(ControllerPin Pin) : Fault;

/// <summary>Two pins or their wires touch.</summary>
internal sealed record PinsJoined(ControllerPin One, ControllerPin Other) : Fault;

/// <summary>A pin or its wire touches 0 V.</summary>
internal sealed record PinGrounded(ControllerPin Pin) : Fault;

/// <summary>A contact's diode is the wrong way round.</summary>
internal sealed record DiodeReversed(int Contact) : Fault;

/// <summary>A contact never closes for the controller: a lead is off, or its diode is dead.</summary>
internal sealed record ContactOff(int Contact) : Fault;

/// <summary>A contact is always closed for the controller.</summary>
internal sealed record ContactStuck(int Contact) : Fault;

/// <summary>Two contacts each stand in the other's place, with all their leads.</summary>
internal sealed record ContactsExchanged(int One, int Other) : Fault;

/// <summary>Two contacts' leads to their rows are exchanged.</summary>
internal sealed record RowLeadsExchanged(int One, int Other) : Fault;

/// <summary>Two contacts' leads to their columns are exchanged.</summary>
internal sealed record ColumnLeadsExchanged(int One, int Other) : Fault;

/// <summary>A potentiometer's two ends are exchanged.</summary>
internal sealed record EndsExchanged(int Wiper) : Fault;

/// <summary>A potentiometer's end has no wire.</summary>
/// <param name="Wiper">The wiper.</param>
/// <param name="IsLow">Whether it is the end at 0 V.</param>
internal sealed record EndOff(int Wiper, bool IsLow) : Fault;
