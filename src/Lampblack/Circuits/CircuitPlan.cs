using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;

namespace Lampblack.Circuits;

/// <summary>The whole circuit.</summary>
/// <param name="Wish">What was asked for, without what can't be used.</param>
/// <param name="Channels">The channels, in the order of the wish; those that can't be used are left out.</param>
/// <param name="Supply">The supply.</param>
/// <param name="Wire">The wire from the supply to the panel, and the fuse that protects it.</param>
/// <param name="Heat">The heat.</param>
/// <param name="Dimming">How it is dimmed.</param>
/// <param name="Issues">What is wrong with it.</param>
public sealed record CircuitPlan(
    CircuitWish Wish,
    ImmutableArray<ChannelPlan> Channels,
    SupplyPlan Supply,
    WirePlan Wire,
    HeatPlan Heat,
    DimmingPlan Dimming,
    ImmutableArray<CircuitIssue> Issues)
{
    /// <summary>Whether a transistor switches anything, so that volts at its gate light it: pixels have none.</summary>
    public bool HasGates => Channels.Any(channel => channel.Switch is not null);

    /// <summary>Whether anything waits for data before it lights.</summary>
    public bool HasPixels => Channels.Any(channel => channel.Pixels is not null);

    /// <summary>Each channel's name, in their order; one that stands twice gets a number.</summary>
    public ImmutableArray<string> Names
    {
        get
        {
            var names = new HashSet<string>();
            return
            [
                .. Channels.Select(channel =>
                {
                    var (name, number) = (channel.Channel.Name, 1);
                    while (!names.Add(name))
                    {
                        name = string.Create(CultureInfo.InvariantCulture, $"{channel.Channel.Name} ({++number})");
                    }

                    return name;
                }),
            ];
        }
    }
}

/// <summary>One channel. Which of the details are there depends on its feed.</summary>
/// <param name="Channel">What was asked for.</param>
/// <param name="Strings">Strings of single diodes, the longest first; empty for others.</param>
/// <param name="NominalAmperes">Current of all of it at the supply's own volts.</param>
/// <param name="HighestAmperes">The most that it can come to within all tolerances.</param>
/// <param name="Reason">Why it is made so, in a sentence.</param>
public sealed record ChannelPlan(
    LampChannel Channel,
    ImmutableArray<StringPlan> Strings,
    double NominalAmperes,
    double HighestAmperes,
    string Reason)
{
    /// <summary>What switches it; nothing where it is not dimmed by the controller.</summary>
    public SwitchPlan? Switch { get; init; }

    /// <summary>How pixels are fed; nothing for others.</summary>
    public PixelPlan? Pixels { get; init; }

    /// <summary>How many units of the strip; 0 for others.</summary>
    public int StripUnitCount { get; init; }
}

/// <summary>Strings that are alike.</summary>
/// <param name="String">One of them.</param>
/// <param name="StringCount">How many.</param>
/// <param name="NominalAmperes">Current at the supply's own volts.</param>
/// <param name="LowestAmperes">Current with supply low, resistor high and diodes' volts high.</param>
/// <param name="HighestAmperes">Current with supply high, resistor low and diodes' volts low.</param>
/// <param name="ResistorWatts">The most that the resistor gets.</param>
/// <param name="RatingWatts">What it should be made for.</param>
public sealed record StringPlan(
    DiodeString String,
    int StringCount,
    double NominalAmperes,
    double LowestAmperes,
    double HighestAmperes,
    double ResistorWatts,
    double RatingWatts);

/// <summary>A transistor (N-channel MOSFET) that switches the lamps' way to 0 V.</summary>
/// <param name="DrainVolts">Volts it must be made for.</param>
/// <param name="DrainAmperes">Current it must be made for.</param>
/// <param name="OnOhms">Its resistance when on must be no higher, at the gate's volts.</param>
/// <param name="GateVolts">Volts between gate and source at which its sheet must state the resistance.</param>
/// <param name="LossWatts">What it then turns into heat at most.</param>
/// <param name="GateOhms">Resistor between pin and gate.</param>
/// <param name="PullDownOhms">Resistor from gate to 0 V.</param>
public sealed record SwitchPlan(
    double DrainVolts, double DrainAmperes, double OnOhms, double GateVolts, double LossWatts, double GateOhms, double PullDownOhms);

/// <summary>How pixels are fed.</summary>
/// <param name="DataVolts">What their data input needs to take a high level for one.</param>
/// <param name="NeedsShifter">Whether the controller's pin gives less.</param>
/// <param name="FeedAt">Where the supply is brought in: before these pixels, counted from 1.</param>
/// <param name="FrameSeconds">How long it takes to tell all of them.</param>
public sealed record PixelPlan(double DataVolts, bool NeedsShifter, ImmutableArray<int> FeedAt, double FrameSeconds);

/// <summary>The supply.</summary>
/// <param name="NominalAmperes">Current of everything at the supply's own volts.</param>
/// <param name="HighestAmperes">The most that everything can come to.</param>
/// <param name="WantedAmperes">What the supply should give, with the margin.</param>
/// <param name="RatedAmperes">What it gives: as told, or the next usual size.</param>
public sealed record SupplyPlan(double NominalAmperes, double HighestAmperes, double WantedAmperes, double RatedAmperes);

/// <summary>Wire and fuse.</summary>
/// <param name="Gauge">The wire.</param>
/// <param name="DropVolts">Volts lost on both wires at the highest current.</param>
/// <param name="DropShare">The same as a share of the supply's volts.</param>
/// <param name="FuseAmperes">The fuse; nothing where none fits.</param>
public sealed record WirePlan(WireGauge Gauge, double DropVolts, double DropShare, double? FuseAmperes);

/// <summary>The heat.</summary>
/// <param name="Watts">All that becomes heat in the box in the end.</param>
/// <param name="RiseKelvin">How much warmer the air in it gets, roughly; nothing without a closed box.</param>
/// <param name="InsideCelsius">How warm it gets; that of the air around without a closed box.</param>
public sealed record HeatPlan(double Watts, double? RiseKelvin, double InsideCelsius);

/// <summary>How the light is dimmed: switched on and off, always in full.</summary>
/// <param name="PwmHertz">How often.</param>
/// <param name="StepCount">In how many steps.</param>
/// <param name="Verdict">What the flicker limits say of it.</param>
public sealed record DimmingPlan(double PwmHertz, int StepCount, FlickerVerdict Verdict);
