namespace Lampblack.Parts;

/// <summary>One pin of a controller.</summary>
/// <param name="Port">The port's capital letter: 'B'.</param>
/// <param name="Bit">The port's bit, 0 to 7.</param>
/// <param name="Header">What is printed beside it on boards that are common for the chip: "D13", "A0".</param>
public sealed record ControllerPin(char Port, int Bit, string Header)
{
    /// <summary>The chip maker's name for it: "PB7".</summary>
    public string Name => $"P{Port}{(char)('0' + Bit)}";
}
