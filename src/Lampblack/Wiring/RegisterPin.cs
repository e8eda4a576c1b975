using System.Collections.Immutable;
using System.Globalization;

namespace Lampblack.Wiring;

/// <summary>An input or output of a shift register that a wire leads to.</summary>
/// <param name="IsInput">Of a 74HC165; else of a 74HC595.</param>
/// <param name="Chip">0 for the one next to the controller.</param>
/// <param name="Line">0 for A to 7 for H.</param>
public sealed record RegisterPin(bool IsInput, int Chip, int Line)
{
    // By the data sheets of both chips.
    private static readonly ImmutableArray<int> InputPins = [11, 12, 13, 14, 3, 4, 5, 6];
    private static readonly ImmutableArray<int> OutputPins = [15, 1, 2, 3, 4, 5, 6, 7];

    /// <summary>The kind of chip.</summary>
    public string ChipName => IsInput ? "74HC165" : "74HC595";

    /// <summary>The pin of the chip, 1 to 16.</summary>
    public int Pin => (IsInput ? InputPins : OutputPins)[Line];

    /// <summary>Its letter on the data sheet.</summary>
    public char Letter => (char)('A' + Line);

    /// <summary>"shift register 2, input C".</summary>
    public string Words => string.Create(CultureInfo.InvariantCulture, $"shift register {Chip + 1}, {(IsInput ? "input" : "output")} {Letter}");

    /// <summary>"74HC165 no 2, pin 13": as one finds it at the socket.</summary>
    public string AtSocket => string.Create(CultureInfo.InvariantCulture, $"{ChipName} no {Chip + 1}, pin {Pin}");
}
