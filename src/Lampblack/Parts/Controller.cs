using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Parts;

/// <summary>One pin of a controller and what it can do.</summary>
/// <param name="Pin">The pin.</param>
public sealed record ControllerPinFacts(ControllerPin Pin)
{
    /// <summary>Channel of the converter that reads it, by the chip's own count; null where it reads no voltage.</summary>
    public int? AnalogChannel { get; init; }

    /// <summary>The timer that can switch it for dimming; null where none can.</summary>
    public int? Timer { get; init; }

    /// <summary>Whether that timer counts to 65535, so that light is dimmed in fine steps.</summary>
    public bool IsFineTimer { get; init; }

    /// <summary>Whether it drives it in some 250 steps, at a speed of its own: enough for a meter's pointer, too few for light.</summary>
    public bool IsCoarseTimer { get; init; }

    /// <summary>Whether the link to the computer runs over it.</summary>
    public bool IsLink { get; init; }

    /// <summary>Whether the chip's own two-wire interface has its data line on it (SDA). By the chips' data sheets, from memory.</summary>
    public bool IsTwoWireData { get; init; }

    /// <summary>Whether the chip's own two-wire interface has its clock on it (SCL). By the chips' data sheets, from memory.</summary>
    public bool IsTwoWireClock { get; init; }

    /// <summary>Whether common boards have a lamp on it, which pulls it down: good for driving, not for reading. From memory.</summary>
    public bool HasLamp { get; init; }
}

/// <summary>Pins that together may carry only so much.</summary>
/// <param name="Name">The chip maker's names for the ports: "C, D, L, G0 to G1".</param>
/// <param name="MostAmperes">The most of all together.</param>
/// <param name="Pins">The pins, of those that boards bring out.</param>
public sealed record CurrentGroup(string Name, double MostAmperes, ImmutableArray<ControllerPin> Pins)
{
    /// <summary>Whether it was not looked up which pins share the limit.</summary>
    public bool IsFromMemory { get; init; }
}

/// <summary>A controller as common boards bring it out: its pins, and what they bear.</summary>
/// <param name="Chip">The chip.</param>
/// <param name="Pins">Its pins, in the order of the numbers beside them.</param>
/// <param name="Groups">Which of them share a limit.</param>
public sealed record Controller(ControllerChip Chip, ImmutableArray<ControllerPinFacts> Pins, ImmutableArray<CurrentGroup> Groups)
{
    /// <summary>What its pins drive at.</summary>
    public const double SupplyVolts = 5;

    /// <summary>The clock of common boards.</summary>
    public const double ClockHertz = 16e6;

    /// <summary>What its sheets state levels for; the absolute limit is twice as much.</summary>
    public const double PinAmperes = 0.02;

    /// <summary>The most that all pins together may carry.</summary>
    public const double ChipAmperes = 0.2;

    /// <summary>The weakest of the pull-ups inside.</summary>
    public const double MostPullUpOhms = 50_000;

    /// <summary>The strongest of the pull-ups inside.</summary>
    public const double LeastPullUpOhms = 20_000;

    /// <summary>The chip's name: "ATmega2560".</summary>
    public string Name => Chip.ToString();

    /// <summary>The facts of the pin that people call so, by what stands beside it or by the chip maker's name; small or capital letters; null where there is none.</summary>
    /// <param name="name">"D13", "13", "A0", "PB7".</param>
    public ControllerPinFacts? Find(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return Pins.FirstOrDefault(pin => Is(pin.Pin.Header) || Is(pin.Pin.Name) || Is(pin.Pin.Header.TrimStart('D')));

        bool Is(string known) => string.Equals(known, name, StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>What one pull-up inside gives at most when it is pulled to 0 V.</summary>
    public static double PullUpAmperes => SupplyVolts / LeastPullUpOhms;
}
