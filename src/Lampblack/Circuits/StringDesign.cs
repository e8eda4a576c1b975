using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Circuits;

/// <summary>Single diodes as strings: how many in series, with which resistor.</summary>
internal static class StringDesign
{
    // Brightness as the eye takes it goes with the cube root of light: a third of the light looks like seven tenths. The share is ours.
    private const double LeastShare = 1 / 3.0;

    // More in series would fail with any of them; no desk needs more.
    private const int MostInSeries = 100;

    /// <summary>A channel's strings, without the resistors' ratings, which go by the heat.</summary>
    public static (ChannelPlan Plan, ImmutableArray<CircuitIssue> Issues) Of(LampChannel channel, SingleDiodes diodes, CircuitWish wish)
    {
        var issues = new List<CircuitIssue>();
        if (diodes.WantedAmperes > diodes.MostAmperes)
        {
            issues.Add(new LampOverCurrent(channel.Name, diodes.WantedAmperes, diodes.MostAmperes));
            diodes = diodes with { WantedAmperes = diodes.MostAmperes };
        }

        var longest = Longest(channel.Count, diodes, wish);
        if (longest == 0)
        {
            issues.Add(new NoHeadroom(channel.Name, diodes.Curve.VoltsAt(diodes.WantedAmperes), wish.SupplyVolts, diodes.WantedAmperes, Fitted(1, 1, diodes, wish).LowestAmperes));
        }

        // As few strings as can be, all as alike as can be: 15 in strings of up to 7 are three of 5, not 7, 7 and 1 whose resistor would burn most of it.
        var stringCount = (channel.Count + Math.Max(1, longest) - 1) / Math.Max(1, longest);
        var (each, rest) = (channel.Count / stringCount, channel.Count % stringCount);
        ImmutableArray<StringPlan> strings =
        [
            .. new[] { (Diodes: each + 1, Strings: rest), (Diodes: each, Strings: stringCount - rest) }
                .Where(kind => kind.Strings > 0)
                .Select(kind => Fitted(kind.Diodes, kind.Strings, diodes, wish)),
        ];
        var plan = new ChannelPlan(
            channel,
            strings,
            strings.Sum(kind => kind.StringCount * kind.NominalAmperes),
            strings.Sum(kind => kind.StringCount * kind.HighestAmperes),
            Reason(Math.Max(1, longest), strings, channel.Count, diodes, wish));
        return (plan, [.. issues]);
    }

    /// <summary>How many in series still leave enough current where everything is at its worst; 0 where not even one does.</summary>
    private static int Longest(int count, SingleDiodes diodes, CircuitWish wish)
    {
        var longest = 0;
        for (var inSeries = 1; inSeries <= Math.Min(count, MostInSeries) && HasVoltsFor(inSeries, diodes, wish); inSeries++)
        {
            if (Fitted(inSeries, 1, diodes, wish).LowestAmperes >= LeastShare * diodes.WantedAmperes)
            {
                longest = inSeries;
            }
        }

        return longest;
    }

    private static bool HasVoltsFor(int inSeries, SingleDiodes diodes, CircuitWish wish) =>
        inSeries * diodes.Curve.VoltsAt(diodes.WantedAmperes) < wish.SupplyVolts;

    /// <summary>A string with its resistor: no more than the wanted current at the supply's own volts, and no more than the diodes bear at the worst.</summary>
    private static StringPlan Fitted(int inSeries, int stringCount, SingleDiodes diodes, CircuitWish wish)
    {
        var highVolts = (wish.SupplyVolts * (1 + wish.SupplyToleranceShare)) + (inSeries * diodes.SpreadVolts);
        var lowVolts = (wish.SupplyVolts * (1 - wish.SupplyToleranceShare)) - (inSeries * diodes.SpreadVolts);
        var wantedOhms = (wish.SupplyVolts - (inSeries * diodes.Curve.VoltsAt(diodes.WantedAmperes))) / diodes.WantedAmperes;
        var safeOhms = (highVolts - (inSeries * diodes.Curve.VoltsAt(diodes.MostAmperes))) / diodes.MostAmperes / (1 - wish.ResistorToleranceShare);
        var made = new DiodeString(diodes.Curve, inSeries, PreferredValues.NextAbove(wish.Series, Math.Max(wantedOhms, safeOhms)));
        var least = made with { ResistorOhms = made.ResistorOhms * (1 - wish.ResistorToleranceShare) };
        var most = made with { ResistorOhms = made.ResistorOhms * (1 + wish.ResistorToleranceShare) };
        var watts = new[] { least, made, most }.Max(one => Math.Pow(one.AmperesAt(highVolts), 2) * one.ResistorOhms);
        return new(made, stringCount, made.AmperesAt(wish.SupplyVolts), most.AmperesAt(lowVolts), least.AmperesAt(highVolts), watts, 0);
    }

    private static string Reason(int longest, ImmutableArray<StringPlan> strings, int count, SingleDiodes diodes, CircuitWish wish)
    {
        var wanted = CircuitWords.Amperes(diodes.WantedAmperes);
        var kept = Fitted(longest, 1, diodes, wish).LowestAmperes;
        var low = $"At the worst{(wish.SupplyToleranceShare > 0 ? $", with the supply {CircuitWords.Percent(wish.SupplyToleranceShare)} low" : "")}, {CircuitWords.Count(longest, "lamp", "lamps")} in series still {(longest == 1 ? "gets" : "get")} {CircuitWords.Amperes(kept)} of the {wanted} wanted";
        var more = longest >= Math.Min(count, MostInSeries) ? "."
            : HasVoltsFor(longest + 1, diodes, wish) ? $"; one more in series would leave {CircuitWords.Amperes(Fitted(longest + 1, 1, diodes, wish).LowestAmperes)}."
            : $"; one more in series would need {CircuitWords.Volts((longest + 1) * diodes.Curve.VoltsAt(diodes.WantedAmperes))}.";
        var shared = strings[0].String.DiodeCount < longest || strings.Length > 1
            ? $" Shared out evenly: {string.Join(" and ", strings.Select(kind => $"{CircuitWords.Count(kind.StringCount, "string", "strings")} of {CircuitWords.Digits(kind.String.DiodeCount)}"))}."
            : string.Empty;
        return low + more + shared;
    }
}
