using System.Collections.Immutable;

namespace Lampblack.Circuits;

/// <summary>What is to be fed, and from what. Any value is taken; what can't be used is told of in the plan.</summary>
/// <param name="SupplyVolts">The supply's volts, direct current.</param>
/// <param name="Channels">The channels.</param>
public sealed record CircuitWish(double SupplyVolts, ImmutableArray<LampChannel> Channels)
{
    /// <summary>How far the supply may be off, either way.</summary>
    public double SupplyToleranceShare { get; init; } = 0.1;

    /// <summary>What the supply can give for long; nothing to be told what is needed.</summary>
    public double? SupplyAmperes { get; init; }

    /// <summary>What else runs from the supply: the controller, indicators.</summary>
    public double OtherAmperes { get; init; }

    /// <summary>The resistors' steps.</summary>
    public ResistorSeries Series { get; init; } = ResistorSeries.E24;

    /// <summary>How far a resistor may be off, either way.</summary>
    public double ResistorToleranceShare { get; init; } = 0.05;

    /// <summary>What the resistors at hand may take, at up to 70 °C.</summary>
    public double ResistorWatts { get; init; } = 0.25;

    /// <summary>From the supply to the panel, one way.</summary>
    public double WireLengthMm { get; init; } = 1500;

    /// <summary>From there on to the last panel that has lamps, one way; 0 where one panel has them all.</summary>
    public double OnwardLengthMm { get; init; }

    /// <summary>The wire at hand, as its American gauge number; nothing to have it chosen.</summary>
    public int? WireAwg { get; init; }

    /// <summary>The closed box behind the panel; nothing where there is none or it is open.</summary>
    public CircuitBox? Box { get; init; }

    /// <summary>The air around the box.</summary>
    public double AmbientCelsius { get; init; } = 25;

    /// <summary>The controller's supply, which its pins switch up to: 5 or 3.3.</summary>
    public double ControllerVolts { get; init; } = 5;

    /// <summary>The clock that counts the dimming steps.</summary>
    public double ClockHertz { get; init; } = 16_000_000;

    /// <summary>How often the light is switched to dim it; nothing for 4096 steps of the clock.</summary>
    public double? PwmHertz { get; init; }
}

/// <summary>A closed box of so much outside size.</summary>
/// <param name="WidthMm">Width.</param>
/// <param name="HeightMm">Height.</param>
/// <param name="DepthMm">Depth.</param>
public sealed record CircuitBox(double WidthMm, double HeightMm, double DepthMm);
