using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Circuits;

/// <summary>Plans the circuit that feeds the lamps.</summary>
public static class CircuitDesign
{
    // Common practice, no source.
    private const double MostDropShare = 0.03;

    // The pair is pulled, bent and clamped: screw clamps take from about 0.2 mm² on, and thinner strands break beside a joint. From memory.
    private const int ThinnestPairAwg = 24;

    // A closed box in still air loses about so much through each square metre for each kelvin, by convection and radiation together. From memory.
    private const double WattsPerM2Kelvin = 5.5;

    // Warmer, lamps age fast, and a hand finds the panel hot. Ours.
    private const double HottestCelsius = 50;

    // A clock of 16 MHz then gives 3906 Hz, above what IEEE 1789 knows an effect of, in steps that no eye counts.
    private const int UsualSteps = 4096;
    private const int MostSteps = 65_536;
    private const double SlowestUsualHertz = 3001;

    /// <summary>The plan, whatever was wished.</summary>
    /// <param name="wish">What is to be fed, and from what.</param>
    public static CircuitPlan Of(CircuitWish wish)
    {
        ArgumentNullException.ThrowIfNull(wish);
        var (sound, unusable) = WishCheck.Of(wish);
        var issues = new List<CircuitIssue>(unusable);
        var highestVolts = sound.SupplyVolts * (1 + sound.SupplyToleranceShare);
        if (highestVolts > Ratings.SelvVolts)
        {
            issues.Add(new SupplyNotSelv(highestVolts));
        }

        var made = sound.Channels.Select(channel => ChannelDesign.Of(channel, sound)).ToList();
        issues.AddRange(made.SelectMany(one => one.Issues));
        var nominal = made.Sum(one => one.Plan.NominalAmperes) + sound.OtherAmperes;
        var highest = made.Sum(one => one.Plan.HighestAmperes) + sound.OtherAmperes;
        var heat = Heat(sound, nominal * sound.SupplyVolts, issues);
        var channels = made.Select(one => Rated(one.Plan, sound, heat.InsideCelsius, issues)).ToImmutableArray();
        var wire = Wire(sound, highest, issues);
        var supply = Supply(sound, nominal, highest, wire.FuseAmperes ?? 0, issues);
        var dimming = Dimming(sound);
        if (channels.Any(channel => channel.Switch is not null) && dimming.Verdict == FlickerVerdict.Flickers)
        {
            issues.Add(new PwmFlickers(null, dimming.PwmHertz, Flicker.LowRiskPercent(dimming.PwmHertz)));
        }

        return new(sound, channels, supply, wire, heat, dimming, [.. issues]);
    }

    private static HeatPlan Heat(CircuitWish wish, double watts, List<CircuitIssue> issues)
    {
        if (wish.Box is not { } box)
        {
            return new(watts, null, wish.AmbientCelsius);
        }

        // The back is not counted: it often stands at a wall.
        var areaMm2 = (box.WidthMm * box.HeightMm) + (2 * box.DepthMm * (box.WidthMm + box.HeightMm));
        var rise = watts / (WattsPerM2Kelvin * areaMm2 * 1e-6);
        if (wish.AmbientCelsius + rise > HottestCelsius)
        {
            issues.Add(new BoxHot(watts, wish.AmbientCelsius + rise));
        }

        return new(watts, rise, wish.AmbientCelsius + rise);
    }

    /// <summary>The channel with its resistors' ratings.</summary>
    private static ChannelPlan Rated(ChannelPlan plan, CircuitWish wish, double celsius, List<CircuitIssue> issues)
    {
        ImmutableArray<StringPlan> rated = [.. plan.Strings.Select(kind => kind with { RatingWatts = Ratings.ResistorWatts(kind.ResistorWatts, celsius) })];
        foreach (var kind in rated.Where(kind => 2 * kind.ResistorWatts > wish.ResistorWatts * Ratings.ResistorShare(celsius)))
        {
            issues.Add(new ResistorTooSmall(plan.Channel.Name, kind.String.ResistorOhms, kind.ResistorWatts, kind.RatingWatts, wish.ResistorWatts));
        }

        return plan with { Strings = rated };
    }

    /// <summary>The wire at hand, or the thinnest that a hand can work with, loses little, and bears what the fuse lets through.</summary>
    private static WirePlan Wire(CircuitWish wish, double amperes, List<CircuitIssue> issues)
    {
        // As if all of the current went on to the last panel: errs upwards.
        var longMm = wish.WireLengthMm + wish.OnwardLengthMm;
        var fuse = amperes > 0 ? Ratings.FuseAmperes(amperes) : null;
        var better = WireGauge.Usual.FirstOrDefault(gauge =>
            gauge.Awg <= ThinnestPairAwg && gauge.SafeAmperes >= (fuse ?? amperes * Ratings.FuseFactor) && gauge.DropVolts(longMm, amperes) <= MostDropShare * wish.SupplyVolts);
        var chosen = wish.WireAwg is { } awg ? new WireGauge(awg) : better ?? WireGauge.Usual[^1];
        var drop = chosen.DropVolts(longMm, amperes);
        var share = wish.SupplyVolts > 0 ? drop / wish.SupplyVolts : 0;
        if (share > MostDropShare)
        {
            issues.Add(new WireDrop(chosen, drop, share, better));
        }

        var protects = fuse <= chosen.SafeAmperes;
        if (amperes > 0 && !protects)
        {
            issues.Add(new WireUnprotected(chosen, amperes, fuse));
        }

        return new(chosen, drop, share, protects ? fuse : null);
    }

    /// <summary>One that is chosen gives at least what blows the fuse.</summary>
    private static SupplyPlan Supply(CircuitWish wish, double nominal, double highest, double fuseAmperes, List<CircuitIssue> issues)
    {
        var wanted = highest / Ratings.SupplyLoadShare;
        if (wish.SupplyAmperes is { } given && given < wanted)
        {
            issues.Add(new SupplyTooSmall(nominal, given, wanted));
        }

        return new(nominal, highest, wanted, wish.SupplyAmperes ?? Ratings.SupplyAmperes(Math.Max(wanted, fuseAmperes)));
    }

    private static DimmingPlan Dimming(CircuitWish wish)
    {
        if (wish.PwmHertz is { } asked)
        {
            return new(asked, (int)Math.Min(MostSteps, Math.Floor(wish.ClockHertz / asked)), Flicker.Of(asked));
        }

        var steps = Math.Min(UsualSteps, (int)Math.Floor(wish.ClockHertz / SlowestUsualHertz));
        return new(wish.ClockHertz / steps, steps, Flicker.Of(wish.ClockHertz / steps));
    }
}
