using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Circuits;

/// <summary>One channel by the kind of its lamps.</summary>
internal static class ChannelDesign
{
    // Strips and pixels run within a tenth of the volts that they are made for. From memory.
    private const double StripVoltsShare = 0.1;

    // Three white diodes and a resistor at 12 V: 5 % more volts give 20 % more current, by the diode equation and by ngspice.
    private const double StripCurrentFactor = 4;

    // Along a strip's own thin copper. Common practice, no source.
    private const double StretchAmperes = 2;

    // More places than these are told by their distance.
    private const int MostTold = 8;

    // WS2812 and its like: a high level from 0.7 of the supply, 30 µs for each pixel, more than 280 µs of silence behind the last.
    private const double DataShare = 0.7;
    private const double PixelSeconds = 30e-6;
    private const double SilenceSeconds = 280e-6;

    // Small transistors without a heat sink stay cool with a quarter of a watt; a hundredth of the supply's volts is not missed. Common practice, no source.
    private const double SwitchWatts = 0.25;
    private const double SwitchVoltsShare = 0.01;

    // What a pin gives without trouble: the currents that the controllers' sheets state levels for.
    private const double FiveVoltPinAmperes = 0.02;
    private const double ThreeVoltPinAmperes = 0.012;

    // Off while the controller starts, and still off where a pin's own pull-up of 20 kΩ or more is on for a moment.
    private const double PullDownOhms = 10_000;

    /// <summary>The channel, and what is wrong with it.</summary>
    public static (ChannelPlan Plan, ImmutableArray<CircuitIssue> Issues) Of(LampChannel channel, CircuitWish wish)
    {
        var (plan, issues) = channel.Feed switch
        {
            SingleDiodes diodes => StringDesign.Of(channel, diodes, wish),
            CutStrip strip => (Strip(channel, strip, wish), VoltsIssues(channel, strip.StripVolts, wish)),
            AddressablePixels pixels => (Pixels(channel, pixels, wish), VoltsIssues(channel, pixels.PixelVolts, wish).AddRange(FlickerIssues(channel, pixels))),
            _ => throw new InvalidOperationException("unknown feeds are left out before"),
        };
        return (channel.IsDimmed && plan.Pixels is null ? plan with { Switch = Switch(plan.HighestAmperes, wish) } : plan, issues);
    }

    /// <summary>How long it takes to tell so many pixels their colours.</summary>
    internal static double FrameSeconds(int count) => (count * PixelSeconds) + SilenceSeconds;

    private static ChannelPlan Strip(LampChannel channel, CutStrip strip, CircuitWish wish)
    {
        var units = (channel.Count + strip.UnitCount - 1) / strip.UnitCount;
        var amperes = units * strip.UnitAmperes;
        var reason = $"Cut after {CircuitWords.Count(units, "unit", "units")} of {CircuitWords.Digits(strip.UnitCount)}; its resistors are built in.";
        return new(channel, [], amperes, amperes * (1 + (StripCurrentFactor * wish.SupplyToleranceShare)), reason) { StripUnitCount = units };
    }

    private static ChannelPlan Pixels(LampChannel channel, AddressablePixels pixels, CircuitWish wish)
    {
        var amperes = channel.Count * pixels.PixelAmperes;
        var stretch = Math.Max(1, (int)Math.Min(channel.Count, Math.Floor((StretchAmperes / pixels.PixelAmperes) + 1e-9)));
        var stretches = (channel.Count + stretch - 1) / stretch;
        ImmutableArray<int> feedAt = [.. Enumerable.Range(0, stretches).Select(index => 1 + (int)((long)index * channel.Count / stretches))];
        var needed = DataShare * pixels.PixelVolts;
        var shifter = wish.ControllerVolts < needed - 1e-9;
        var places = stretches <= MostTold ? $"pixel {string.Join(", ", feedAt)}" : $"every {CircuitWords.Digits(feedAt[1] - feedAt[0])} pixels";
        var reason = $"Supply and 0 V brought in at {places}, so that no stretch of the strip carries more than {CircuitWords.Amperes(StretchAmperes)}. Data needs {CircuitWords.Volts(needed)} and gets {CircuitWords.Volts(wish.ControllerVolts)}{(shifter ? ": a level shifter is needed." : ".")}";
        return new(channel, [], amperes, amperes, reason) { Pixels = new(needed, shifter, feedAt, FrameSeconds(channel.Count)) };
    }

    private static SwitchPlan Switch(double amperes, CircuitWish wish)
    {
        var highest = Math.Max(amperes, 1e-3);
        var onOhms = Ratings.OnOhms(Math.Min(SwitchWatts / (highest * highest), SwitchVoltsShare * wish.SupplyVolts / highest));
        var isFive = wish.ControllerVolts >= 4.5;
        var gateOhms = PreferredValues.NextAbove(ResistorSeries.E12, wish.ControllerVolts / (isFive ? FiveVoltPinAmperes : ThreeVoltPinAmperes));
        return new(
            Ratings.DrainVolts(wish.SupplyVolts * (1 + wish.SupplyToleranceShare)),
            Ratings.DrainAmperes(highest),
            onOhms,
            isFive ? 4.5 : wish.ControllerVolts >= 2.5 ? 2.5 : 1.8,
            highest * highest * onOhms,
            gateOhms,
            PullDownOhms);
    }

    private static ImmutableArray<CircuitIssue> VoltsIssues(LampChannel channel, double volts, CircuitWish wish) =>
        Math.Abs(wish.SupplyVolts - volts) > (StripVoltsShare * volts) + 1e-9 ? [new StripVoltsDiffer(channel.Name, volts, wish.SupplyVolts)] : [];

    private static ImmutableArray<CircuitIssue> FlickerIssues(LampChannel channel, AddressablePixels pixels) =>
        Flicker.Of(pixels.OwnHertz) == FlickerVerdict.Flickers ? [new PwmFlickers(channel.Name, pixels.OwnHertz, Flicker.LowRiskPercent(pixels.OwnHertz))] : [];
}
