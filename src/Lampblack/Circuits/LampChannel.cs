namespace Lampblack.Circuits;

/// <summary>What a channel's lamps are.</summary>
public abstract record LampFeed;

/// <summary>Single diodes, wired in strings with resistors.</summary>
/// <param name="Curve">Each diode's curve.</param>
/// <param name="WantedAmperes">The current each should have at full brightness.</param>
/// <param name="MostAmperes">The current each bears for long.</param>
public sealed record SingleDiodes(DiodeCurve Curve, double WantedAmperes, double MostAmperes) : LampFeed
{
    /// <summary>How far one diode's volts may lie off its curve, either way. Diodes out of one bag: common practice, no source.</summary>
    public double SpreadVolts { get; init; } = 0.1;
}

/// <summary>A strip with resistors built in, which may be cut between its units. A channel's count is its emitters.</summary>
/// <param name="StripVolts">The volts that it is made for.</param>
/// <param name="UnitAmperes">Current of one unit at these.</param>
/// <param name="UnitCount">Emitters in one unit, at least 1.</param>
public sealed record CutStrip(double StripVolts, double UnitAmperes, int UnitCount) : LampFeed;

/// <summary>Pixels that are told their colour over one data line (WS2812 and its like).</summary>
/// <param name="PixelVolts">Their supply.</param>
/// <param name="PixelAmperes">Current of one, all colours at full.</param>
public sealed record AddressablePixels(double PixelVolts, double PixelAmperes) : LampFeed
{
    /// <summary>How often the pixels themselves switch their light. About 430 for the first kinds, about 2000 for later ones: from memory.</summary>
    public double OwnHertz { get; init; } = 430;
}

/// <summary>Lamps that are switched and dimmed together.</summary>
/// <param name="Name">What it is called, such as the panel's name.</param>
/// <param name="Feed">What the lamps are.</param>
/// <param name="Count">How many emitters.</param>
/// <param name="IsDimmed">Whether the controller dims it; else it is on as long as the supply is. Pixels dim themselves.</param>
public sealed record LampChannel(string Name, LampFeed Feed, int Count, bool IsDimmed)
{
    /// <summary>The controller's pin that switches it, or that the data comes from.</summary>
    public string PinName { get; init; } = "PWM pin";
}
