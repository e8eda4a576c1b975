using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>Where a controller reads one contact or one phase of an encoder.</summary>
public abstract record InputPlace;

/// <summary>A pin of its own, pulled up inside the controller; a closed contact pulls it to ground.</summary>
/// <param name="Pin">The pin.</param>
public sealed record DirectInput(ControllerPin Pin) : InputPlace;

/// <summary>A crossing of the matrix; a closed contact pulls the row down while its column is driven low. Its diode lets current flow from row to column.</summary>
/// <param name="Column">Index into <see cref="ControllerPlan.Columns"/>.</param>
/// <param name="Row">Index into <see cref="ControllerPlan.Rows"/>.</param>
public sealed record MatrixInput(int Column, int Row) : InputPlace;

/// <summary>An input of a chain of shift registers, pulled up by a resistor; a closed contact pulls it to ground.</summary>
/// <param name="Chip">0 is the chip whose output the controller reads.</param>
/// <param name="Input">0 for input A to 7 for input H.</param>
public sealed record ChainInput(int Chip, int Input) : InputPlace;

/// <summary>Where a controller drives one indicator.</summary>
public abstract record OutputPlace;

/// <summary>A pin of its own.</summary>
/// <param name="Pin">The pin.</param>
public sealed record DirectOutput(ControllerPin Pin) : OutputPlace;

/// <summary>An output of a chain of shift registers.</summary>
/// <param name="Chip">0 is the chip that the controller's data goes into.</param>
/// <param name="Output">0 for output A to 7 for output H.</param>
public sealed record ChainOutput(int Chip, int Output) : OutputPlace;
