using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;

namespace Lampblack.Wiring;

/// <summary>Gives every contact, phase, wiper, lamp and dimmed channel a pin, with the least hardware that will do.</summary>
public static class PinPlanning
{
    private const int MostControllers = 4;

    // A pointer's own weight smooths what is switched this often: small meters take tenths of a second to follow. From memory.
    private const double MeterHertz = 200;

    // More are no desk: the search would take long, and no chip has room.
    private const int MostNeeds = 1200;

    /// <summary>The plan. What finds no pin is left out, and told.</summary>
    /// <param name="needs">What is to be wired.</param>
    /// <param name="dimmers">What is to be dimmed.</param>
    /// <param name="wish">What the maker wants.</param>
    /// <param name="before">The plan of the last build, of which as much is kept as can be; null for none.</param>
    /// <param name="keepsPace">Whether the engine keeps pace with a plan whatever happens at once; where it does not, another plan is looked for. Null where that doesn't matter.</param>
    public static Checked<PinPlan> Of(ImmutableArray<WiredNeed> needs, ImmutableArray<DimmerNeed> dimmers, ControllerWish wish, PinPlan? before = null, Func<ControllerPlan, bool>? keepsPace = null)
    {
        ArgumentNullException.ThrowIfNull(wish);
        keepsPace ??= _ => true;
        var findings = new List<Finding>();
        findings.AddRange(new[] { SerialSpeed.Check(wish.Baud, wish.Span) }.OfType<Finding>());
        findings.AddRange(UsbRules.Numbers(wish));
        ImmutableArray<DimmerNeed> meters = [.. needs.Where(need => need.Kind == WiredKind.Meter).Select(need => new DimmerNeed(need.Id, MeterHertz, IsMeter: true) { FullScaleAmperes = need.FullScaleAmperes })];
        var (lights, switched) = Dimmed(dimmers, meters.Length, wish);
        var dimmed = lights.AddRange(meters);
        var all = needs.AddRange(switched);
        var wired = all.RemoveAll(need => need.Kind == WiredKind.Data);
        if (Silent(all, wired, dimmed, wish, before, keepsPace, findings) is not { } plans)
        {
            all = wired;
            findings.Add(PinShortage.Of(all, dimmed, wish));
            (all, plans) = Part(all, dimmed, wish, keepsPace);
        }

        findings.AddRange(DataFindings.Of(needs.AddRange(switched), plans, wish));
        findings.AddRange(findings.Exists(finding => finding.Code == "wiring-made-anew") ? [] : DataFindings.Moved(needs, plans, before, wish));
        foreach (var plan in plans)
        {
            findings.AddRange(PinCurrents.Check(wish.Controller, PinCurrents.Of(plan, wish.LampAmperes), wish.Span));
            findings.AddRange(PlanFindings.Of(plan, wish));
        }

        if (plans.Length > 1)
        {
            findings.Add(Finding.Note("controllers-several", $"one {wish.Controller.Name} has too few pins: the plan has {plans.Length}", "each needs its own lead to the computer; a chip with more pins may do alone", wish.Span));
        }

        var pins = new PinPlan(plans, WiredControls.Of(all, plans));
        return new(pins, [.. findings, .. UsbRules.Room(pins, wish)]);
    }

    /// <summary>What timers can dim; lights of their own that find none are switched on and off like indicators.</summary>
    private static (ImmutableArray<DimmerNeed> Dimmed, ImmutableArray<WiredNeed> Switched) Dimmed(ImmutableArray<DimmerNeed> dimmers, int meterCount, ControllerWish wish)
    {
        var driven = wish.Controller.Pins.Where(facts => PinPool.IsDriven(facts) && !facts.IsLink && !wish.Reserved.Contains(facts.Pin)).ToList();
        var fine = driven.Count(PinPool.IsFine);

        // Meters take the coarse pins first.
        fine -= Math.Max(0, meterCount - (driven.Count - fine));
        var most = Math.Max(fine, dimmers.Count(dimmer => dimmer.ItemId is null));
        var kept = dimmers.OrderBy(dimmer => dimmer.ItemId is not null).Take(most).ToHashSet();
        return (
            [.. dimmers.Where(kept.Contains)],
            [.. dimmers.Where(dimmer => !kept.Contains(dimmer)).Select(dimmer => new WiredNeed { Id = dimmer.ItemId!, Name = dimmer.Channel, Kind = WiredKind.Indicator, Panel = -1 })]);
    }

    /// <summary>With pins for what the engine has no code for, where that costs nothing: no diode, no register, no further controller; else without.</summary>
    private static ImmutableArray<ControllerPlan>? Silent(
        ImmutableArray<WiredNeed> all, ImmutableArray<WiredNeed> wired, ImmutableArray<DimmerNeed> dimmed, ControllerWish wish, PinPlan? before, Func<ControllerPlan, bool> keepsPace, List<Finding> findings)
    {
        if (all.Length > MostNeeds)
        {
            return null;
        }

        var found = new List<Finding>();
        var plans = Fitting(wired, dimmed, wish, before, keepsPace, found);
        if (all.Length > wired.Length && plans is { } least)
        {
            var others = new List<Finding>();
            var with = Fitting(all, dimmed, wish, before, keepsPace, others);
            var isFree = with is { } full && full.Length <= least.Length && others.Count <= found.Count && full.Sum(PinSearch.Cost) <= least.Sum(PinSearch.Cost) && (full.All(keepsPace) || !least.All(keepsPace));
            (plans, found) = isFree ? (with, others) : (plans, found);
        }

        findings.AddRange(found);
        return plans;
    }

    private static ImmutableArray<ControllerPlan>? Fitting(ImmutableArray<WiredNeed> needs, ImmutableArray<DimmerNeed> dimmers, ControllerWish wish, PinPlan? before, Func<ControllerPlan, bool> keepsPace, List<Finding> findings)
    {
        var usable = before is not null && !before.Controllers.IsEmpty && before.Controllers.All(plan => plan.Chip == wish.Controller.Chip) ? before : null;
        if (usable is not null && Kept(needs, dimmers, wish, usable) is { } kept)
        {
            return kept;
        }

        if (before is { Controllers.IsEmpty: false })
        {
            findings.Add(Finding.Note("wiring-made-anew", "the wiring of the last build can't be kept: pins were planned anew, and wires that are soldered may be wrong", "compare `wiring/wires.csv` with the last one before you build on", wish.Span));
        }

        // A desk that no number of controllers reads in time is made with the fewest, and told of.
        ImmutableArray<ControllerPlan>? laden = null;
        for (var count = 1; count <= Math.Min(MostControllers, Math.Max(1, needs.Length)); count++)
        {
            ImmutableArray<ControllerPlan?> plans = [.. Shares(needs, count).Select((share, index) => PinSearch.Best(new(index, wish, share, Its(dimmers, index, share)), keepsPace))];
            if (plans.All(plan => plan is not null && keepsPace(plan)))
            {
                return [.. plans.OfType<ControllerPlan>()];
            }

            laden ??= plans.All(plan => plan is not null) ? [.. plans.OfType<ControllerPlan>()] : null;
        }

        return laden;
    }

    /// <summary>The same controls in the desk's order, as even as can be; lamps and pushes stay with their controls' neighbours.</summary>
    private static IEnumerable<ImmutableArray<WiredNeed>> Shares(ImmutableArray<WiredNeed> needs, int count) =>
        Enumerable.Range(0, count).Select(share => needs[(needs.Length * share / count)..(needs.Length * (share + 1) / count)]);

    /// <summary>Light is all at the first controller, where its supply comes in; a meter is where its neighbours are.</summary>
    private static ImmutableArray<DimmerNeed> Its(ImmutableArray<DimmerNeed> dimmers, int index, ImmutableArray<WiredNeed> share)
    {
        var meters = share.Where(need => need.Kind == WiredKind.Meter).Select(need => need.Id).ToHashSet();
        return [.. dimmers.Where(dimmer => dimmer.IsMeter ? meters.Contains(dimmer.Channel) : index == 0)];
    }

    private static ImmutableArray<ControllerPlan>? Kept(ImmutableArray<WiredNeed> needs, ImmutableArray<DimmerNeed> dimmers, ControllerWish wish, PinPlan before)
    {
        var old = before.Controls.Select(control => (control.Id, control.Controller))
            .Concat(before.Controllers.SelectMany(plan => plan.DataLines.Select(line => (Id: line.ItemId, Controller: plan.Index))))
            .DistinctBy(one => one.Id).ToDictionary(one => one.Id, one => one.Controller);
        var plans = ImmutableArray.CreateBuilder<ControllerPlan>();
        foreach (var plan in before.Controllers)
        {
            ImmutableArray<WiredNeed> own = [.. needs.Where(need => old.GetValueOrDefault(need.Id, before.Controllers.Length - 1) == plan.Index)];
            var task = new PinTask(plan.Index, wish, own, Its(dimmers, plan.Index, own));
            var way = new PinWay(plan.Columns.IsEmpty ? plan.Inputs is null ? InputWay.Direct : InputWay.Chain : InputWay.Matrix, 0, plan.Outputs is not null);
            if (PinTrial.Of(task, way, Still(plan, task)) is not { } made)
            {
                return null;
            }

            plans.Add(made);
        }

        return plans.ToImmutable();
    }

    /// <summary>The old plan without ladders that no longer fit their selectors.</summary>
    private static ControllerPlan Still(ControllerPlan plan, PinTask task)
    {
        var selectors = PinTrial.Selectors(task).ToDictionary(need => need.Id);
        return plan with { Ladders = [.. plan.Ladders.Where(ladder => selectors.TryGetValue(ladder.ItemId, out var need) && need.Positions.Length == ladder.Windows.Length)] };
    }

    /// <summary>As many controls, from the first on, as find pins.</summary>
    private static (ImmutableArray<WiredNeed> Needs, ImmutableArray<ControllerPlan> Plans) Part(ImmutableArray<WiredNeed> needs, ImmutableArray<DimmerNeed> dimmers, ControllerWish wish, Func<ControllerPlan, bool> keepsPace)
    {
        var (low, high) = (0, Math.Min(needs.Length, MostNeeds));
        ImmutableArray<DimmerNeed> lights = [.. dimmers.Where(dimmer => !dimmer.IsMeter)];
        while (!lights.IsEmpty && PinSearch.Best(new(0, wish, [], lights), keepsPace) is null)
        {
            lights = lights[..^1];
        }

        var dimmed = lights.AddRange(dimmers.Where(dimmer => dimmer.IsMeter));

        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            (low, high) = Fitting(needs[..middle], dimmed, wish, null, keepsPace, []) is null ? (low, middle - 1) : (middle, high);
        }

        return (needs[..low], Fitting(needs[..low], dimmed, wish, null, keepsPace, []) ?? [new() { Index = 0, Chip = wish.Controller.Chip }]);
    }
}
