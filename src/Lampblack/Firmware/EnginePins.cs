using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;

namespace Lampblack.Firmware;

/// <summary>An output of a timer.</summary>
/// <param name="Timer">The timer's number.</param>
/// <param name="Output">0 for A, 1 for B, 2 for C.</param>
public sealed record TimerOutput(int Timer, int Output);

/// <summary>What the pins of each chip can do for the engine. From the chips' data sheets, from memory; port and pin tables of common boards agree.</summary>
public static class EnginePins
{
    private const string Ports = "ABCDEFGHJKL";

    private static readonly ImmutableDictionary<string, string> Bits2560 = Ports.ToImmutableDictionary(port => port.ToString(), port => port == 'G' ? "012345" : "01234567");
    private static readonly ImmutableDictionary<string, string> Bits328 = Of(("B", "01234567"), ("C", "0123456"), ("D", "01234567"));
    private static readonly ImmutableDictionary<string, string> Bits32U4 = Of(("B", "01234567"), ("C", "67"), ("D", "01234567"), ("E", "26"), ("F", "014567"));

    private static readonly ImmutableDictionary<string, TimerOutput> Timers2560 = Timers(
        ("PG5", 0, 1), ("PB5", 1, 0), ("PB6", 1, 1), ("PB7", 1, 2), ("PB4", 2, 0), ("PH6", 2, 1), ("PE3", 3, 0), ("PE4", 3, 1), ("PE5", 3, 2),
        ("PH3", 4, 0), ("PH4", 4, 1), ("PH5", 4, 2), ("PL3", 5, 0), ("PL4", 5, 1), ("PL5", 5, 2));

    private static readonly ImmutableDictionary<string, TimerOutput> Timers328 = Timers(("PD5", 0, 1), ("PB1", 1, 0), ("PB2", 1, 1), ("PB3", 2, 0), ("PD3", 2, 1));

    private static readonly ImmutableDictionary<string, TimerOutput> Timers32U4 = Timers(("PD0", 0, 1), ("PB5", 1, 0), ("PB6", 1, 1), ("PB7", 1, 2), ("PC6", 3, 0));

    private static readonly ImmutableArray<string> Analog32U4 = ["PF0", "PF1", "", "", "PF4", "PF5", "PF6", "PF7", "PD4", "PD6", "PD7", "PB4", "PB5", "PB6"];

    /// <summary>Whether the chip has this pin.</summary>
    public static bool Exists(ControllerChip chip, ControllerPin pin)
    {
        ArgumentNullException.ThrowIfNull(pin);
        var bits = chip switch { ControllerChip.ATmega2560 => Bits2560, ControllerChip.ATmega328P => Bits328, _ => Bits32U4 };
        return bits.TryGetValue(pin.Port.ToString(), out var there) && pin.Bit is >= 0 and <= 7 && there.Contains((char)('0' + pin.Bit), StringComparison.Ordinal);
    }

    /// <summary>What the pin is kept for: the serial line, the reset or the crystal. Null where it is free.</summary>
    public static string? KeptFor(ControllerChip chip, ControllerPin pin)
    {
        ArgumentNullException.ThrowIfNull(pin);
        return (chip, pin.Name) switch
        {
            (ControllerChip.ATmega2560, "PE0" or "PE1") or (ControllerChip.ATmega328P, "PD0" or "PD1") or (ControllerChip.ATmega32U4, "PD2" or "PD3") => "the serial line",
            (ControllerChip.ATmega328P, "PB6" or "PB7") => "the crystal",
            (ControllerChip.ATmega328P, "PC6") => "the reset",
            _ => null,
        };
    }

    /// <summary>The timer's output on a pin, by which the engine can dim; null where there is none it can use.</summary>
    public static TimerOutput? TimerOf(ControllerChip chip, ControllerPin pin)
    {
        ArgumentNullException.ThrowIfNull(pin);
        var timers = chip switch { ControllerChip.ATmega2560 => Timers2560, ControllerChip.ATmega328P => Timers328, _ => Timers32U4 };
        return timers.GetValueOrDefault(pin.Name);
    }

    /// <summary>Every pin that the engine can dim with on this chip, by its name, in order.</summary>
    public static ImmutableArray<string> Dimmable(ControllerChip chip) =>
        [.. (chip switch { ControllerChip.ATmega2560 => Timers2560, ControllerChip.ATmega328P => Timers328, _ => Timers32U4 }).Keys.Order(StringComparer.Ordinal)];

    /// <summary>The pin of an analog channel, by its name; empty where it has none on common boards.</summary>
    public static string AnalogPin(ControllerChip chip, int channel) => chip switch
    {
        ControllerChip.ATmega2560 when channel is >= 0 and < 8 => $"PF{(char)('0' + channel)}",
        ControllerChip.ATmega2560 when channel is >= 8 and < 16 => $"PK{(char)('0' + channel - 8)}",
        ControllerChip.ATmega328P when channel is >= 0 and < 6 => $"PC{(char)('0' + channel)}",
        ControllerChip.ATmega32U4 when channel >= 0 && channel < Analog32U4.Length => Analog32U4[channel],
        _ => string.Empty,
    };

    /// <summary>The pin as one byte of the table: the port above (A is 0, there is no I), the bit below.</summary>
    internal static byte Packed(ControllerPin pin) => (byte)(PortNumber(pin) << 4 | pin.Bit);

    /// <summary>The port's number in the table: A is 0, there is no I.</summary>
    internal static int PortNumber(ControllerPin pin) => Ports.IndexOf(pin.Port, StringComparison.Ordinal);

    private static ImmutableDictionary<string, string> Of(params (string Port, string Bits)[] ports) => ports.ToImmutableDictionary(port => port.Port, port => port.Bits);

    private static ImmutableDictionary<string, TimerOutput> Timers(params (string Pin, int Timer, int Output)[] outputs) =>
        outputs.ToImmutableDictionary(output => output.Pin, output => new TimerOutput(output.Timer, output.Output));
}
