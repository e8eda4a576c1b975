using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Artwork;
using Lampblack.Findings;
using Lampblack.Firmware;
using Lampblack.Link;
using Lampblack.Printers;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>Where the host's side of the link takes a desk's pins from: the only place.</summary>
internal static class LinkPlans
{
    /// <summary>What the panel should be; null where it can't be told.</summary>
    /// <param name="desk">The desk, if one was given.</param>
    /// <param name="plan">A file of pins, which goes before the desk's own; empty for none.</param>
    /// <param name="planName">That file's name for findings.</param>
    /// <param name="findings">What was noticed.</param>
    /// <param name="cancellation">Stops the planning of a desk that was never built: its light takes a while.</param>
    public static LinkExpectation? Of(DeskSource? desk, ImmutableArray<byte> plan, string planName, List<Finding> findings, CancellationToken cancellation)
    {
        var pins = plan.IsDefaultOrEmpty ? Planned(desk, findings, cancellation) : Read(plan, planName, findings);
        if (pins is null)
        {
            return null;
        }

        // A table that can't be made is told by the one who makes firmware; a panel can't carry it either, so only counts are compared then.
        ImmutableArray<PanelTable> tables = [.. pins.Controllers.Select(controller => PanelTable.Of(controller).Value)];
        return new(pins, tables.Any(table => table.Bytes.IsEmpty) ? [] : [.. tables.Select(table => table.PlanHash)]);
    }

    /// <summary>Ids that can be set: indicators and dimmed channels, in the plan's order.</summary>
    public static ImmutableArray<string> Lamps(PinPlan plan) =>
    [
        .. plan.Controls.Where(control => control.Kind == WiredKind.Indicator).Select(control => control.Id),
        .. plan.Controllers.SelectMany(controller => controller.Dimmers).Select(dimmer => dimmer.Channel),
    ];

    private static PinPlan? Read(ImmutableArray<byte> plan, string name, List<Finding> findings)
    {
        if (WiringPlanFile.Read(plan).Value is { } pins)
        {
            // A desk's own plan was looked at when it was made.
            var slow = pins.Controllers.Select(controller => SerialSpeed.Check(controller.Baud, null)).OfType<Finding>().FirstOrDefault();
            if (slow is not null)
            {
                findings.Add(slow);
            }

            return slow is null ? pins : null;
        }

        findings.Add(Finding.Stop("pin-file", $"{Shown.Code(name)} is no plan of pins ({WiringPlanFile.Schema})", $"build the desk: that writes `{WiringPlanFile.Path}` among its outputs"));
        return null;
    }

    /// <summary>The desk's own plan, where no build wrote one yet.</summary>
    private static PinPlan? Planned(DeskSource? desk, List<Finding> findings, CancellationToken cancellation)
    {
        if (desk is null)
        {
            findings.Add(Finding.Stop("pins-unknown", "neither a desk nor a file of pins was given", "name the desk, or a file of pins with --plan"));
            return null;
        }

        var (found, seen) = (new List<Finding>(), new List<Finding>());
        var laid = DeskLoading.Load(desk, found);
        if (laid.Desk.Controller is null || found.Any(finding => finding.Severity == Severity.Stop))
        {
            findings.Add(Finding.Stop("pins-unknown", $"the pins of {Shown.Code(desk.Name)} are not planned: {(laid.Desk.Controller is null ? "it has no `[controller]`" : "something stops it; `lampblack check` tells what")}", "add `[controller]` with `chip = \"ATmega2560\"`, and build the desk"));
            return null;
        }

        var light = DeskLight.IsAskedFor(laid.Desk)
            ? DeskLight.Of(laid, [.. laid.Panels.Select(PanelArtwork.Draw)], PrinterProperties.Unmeasured.Builds[0], null, LightOptions.InBuild, seen, new Progress<string>(), cancellation)
            : DeskLight.Nothing;
        var wiring = DeskWiring.Of(laid, light, [], withWires: false, seen, cancellation);
        findings.AddRange(seen.Where(finding => finding.Severity == Severity.Stop));
        return wiring?.Pins;
    }
}
