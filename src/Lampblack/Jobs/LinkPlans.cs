using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Firmware;
using Lampblack.Link;
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
    public static LinkExpectation? Of(DeskSource? desk, ImmutableArray<byte> plan, string planName, List<Finding> findings)
    {
        var pins = plan.IsDefaultOrEmpty ? Planned(desk, findings) : PinFile.Read(plan.AsSpan(), planName, findings);
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

    /// <summary>The desk's own plan.</summary>
    private static PinPlan? Planned(DeskSource? desk, List<Finding> findings)
    {
        findings.Add(Finding.Stop(
            "pins-unknown",
            desk is null ? "neither a desk nor a file of pins was given" : $"the pins of {Shown.Code(desk.Name)} are not planned yet",
            "name a file of pins with --plan"));
        return null;
    }
}
