using Lampblack.Parts;

namespace Lampblack.Firmware;

/// <summary>How much the engine holds on one chip. The images say the same of themselves; a test compares.</summary>
/// <param name="Banks">Bytes of contacts: each column's rows on one port, each port's own inputs, each 74HC165 counts as one.</param>
/// <param name="Encoders">Encoders: each is read every eighth of a millisecond.</param>
/// <param name="AnalogInputs">Wipers and ladders together.</param>
/// <param name="Indicators">Lamps.</param>
/// <param name="OutputChips">74HC595 in the chain.</param>
/// <param name="Dimmers">Dimmed channels.</param>
public sealed record EngineLimits(int Banks, int Encoders, int AnalogInputs, int Indicators, int OutputChips, int Dimmers)
{
    /// <summary>Bytes of flash for the desk's table: 0x6000 to 0x6FFF on every chip.</summary>
    public const int TableBytes = 0x1000;

    /// <summary>The table's first byte in flash.</summary>
    public const int TableAddress = 0x6000;

    /// <summary>The limits on a chip.</summary>
    public static EngineLimits Of(ControllerChip chip) => chip switch
    {
        ControllerChip.ATmega2560 => new(128, 16, 16, 128, 16, 15),
        ControllerChip.ATmega328P => new(32, 8, 16, 64, 16, 15),
        _ => new(48, 10, 16, 64, 16, 15),
    };
}
