using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.Circuits;

/// <summary>What is wrong with a circuit, in words.</summary>
public static class CircuitFindings
{
    /// <summary>The findings of a plan.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="place">Where in the user's file a channel of a name stands, and the whole light for nothing; nothing where there is no file.</param>
    public static ImmutableArray<Finding> Of(CircuitPlan plan, Func<string?, SourceSpan?>? place = null)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return [.. plan.Issues.Select(issue => Of(issue) with { Span = place?.Invoke(issue.Channel), Item = issue.Channel })];
    }

    private static Finding Of(CircuitIssue issue) => issue switch
    {
        ValueUnusable it => Finding.Stop(
            "circuit-value",
            $"the {it.What}: found {Shown.Short(it.Found)}, allowed {it.Allowed}",
            it.Channel is null ? "correct the figure; until then it is planned with the usual one, or not at all" : "correct the figure; until then these lamps are left out"),
        SupplyNotSelv it => Finding.Stop(
            "supply-not-selv",
            $"the supply can come to {CircuitWords.Volts(it.HighestVolts)}; up to {CircuitWords.Volts(Ratings.SelvVolts)} of direct current are allowed",
            "take a certified supply of 5, 12 or 24 V whose current is limited; anything higher is work for licensed people under your local code"),
        NoHeadroom it when it.SupplyVolts <= it.NeedVolts => Finding.Stop(
            "string-no-headroom",
            $"one lamp needs {CircuitWords.Volts(it.NeedVolts)} at {CircuitWords.Amperes(it.WantedAmperes)} and the supply gives {CircuitWords.Volts(it.SupplyVolts)}: nothing is left for a resistor",
            "take a supply of more volts, or lamps of fewer"),
        NoHeadroom it => Finding.Warn(
            "string-no-headroom",
            $"with a low supply only {CircuitWords.Amperes(it.LowestAmperes)} of the {CircuitWords.Amperes(it.WantedAmperes)} wanted are left: a lamp needs {CircuitWords.Volts(it.NeedVolts)} of {CircuitWords.Volts(it.SupplyVolts)}, and a third or more is allowed",
            "take a supply of more volts, or one that is known to be off by less"),
        LampOverCurrent it => Finding.Warn(
            "lamp-over-current",
            $"{CircuitWords.Amperes(it.WantedAmperes)} are wanted, and the lamps bear {CircuitWords.Amperes(it.MostAmperes)}; it is planned with these",
            "ask for less, or take more lamps"),
        StripVoltsDiffer it => Finding.Stop(
            "strip-volts",
            $"the strip is made for {CircuitWords.Volts(it.StripVolts)} and the supply gives {CircuitWords.Volts(it.SupplyVolts)}; a tenth more or less is allowed",
            $"take a supply of {CircuitWords.Volts(it.StripVolts)}, or another strip"),
        SupplyTooSmall it when it.GivenAmperes < it.LoadAmperes => Finding.Stop(
            "supply-too-small",
            $"the lamps and what else is fed take {CircuitWords.Amperes(it.LoadAmperes)}, and the supply gives {CircuitWords.Amperes(it.GivenAmperes)}",
            $"take a supply of {CircuitWords.Amperes(it.WantedAmperes)} or more, or fewer lamps, or less current in each"),
        SupplyTooSmall it => Finding.Warn(
            "supply-too-small",
            $"the supply gives {CircuitWords.Amperes(it.GivenAmperes)}; with the worst of all tolerances and a margin of a quarter it should give {CircuitWords.Amperes(it.WantedAmperes)}",
            "it runs, but warm: take the next larger one"),
        WireDrop it => Finding.Warn(
            "wire-drop",
            $"wires of {CircuitWords.Wire(it.Gauge)} lose {CircuitWords.Volts(it.DropVolts)}, {CircuitWords.Percent(it.DropShare)} of the supply; 3 % are allowed",
            it.Better is { } better ? $"take {CircuitWords.Wire(better)} or thicker" : "put the supply nearer, or take one of more volts"),
        WireUnprotected it => Finding.Stop(
            "wire-unprotected",
            it.FuseAmperes is { } fuse
                ? $"the load of {CircuitWords.Amperes(it.LoadAmperes)} needs a fuse of {CircuitWords.Amperes(fuse)}, and wires of {CircuitWords.Wire(it.Gauge)} bear {CircuitWords.Amperes(it.Gauge.SafeAmperes)}: they would burn before the fuse does"
                : $"the load of {CircuitWords.Amperes(it.LoadAmperes)} is more than a fuse of 10 A should carry",
            it.FuseAmperes is null ? "feed the panels from several supplies, each with its own fuse" : "take thicker wires, or several supplies"),
        ResistorTooSmall it => Finding.Warn(
            "resistor-small",
            $"resistors of {CircuitWords.Ohms(it.Ohms)} get up to {CircuitWords.Watts(it.LoadWatts)}; those of {CircuitWords.Watts(it.GivenWatts)} are too small for twice that",
            $"take resistors of {CircuitWords.Watts(it.WantedWatts)}"),
        BoxHot it => Finding.Warn(
            "box-hot",
            $"{CircuitWords.Watts(it.Watts)} in the closed box make it about {CircuitWords.Celsius(it.InsideCelsius)} warm inside; 50 °C are allowed",
            "make holes for air at the bottom and the top, take less current, or put the resistors outside"),
        PwmFlickers { Channel: null } it => Finding.Warn(
            "pwm-flickers",
            $"dimmed at {CircuitWords.Hertz(it.PwmHertz)} the light may be switched {CircuitWords.Digits(it.AllowedPercent)} % deep, and it is switched 100 %; allowed is more than 1250 Hz, better more than 3000 Hz",
            "leave the frequency out, or ask for more"),
        PwmFlickers it => Finding.Note(
            "pwm-flickers",
            $"these pixels dim themselves at {CircuitWords.Hertz(it.PwmHertz)}; light that is switched all the way has low risk only above 1250 Hz",
            "run them at full brightness, take a faster kind, or take single lamps"),
        _ => throw new InvalidOperationException("an issue without words"),
    };
}
