using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Layout;
using Lampblack.SourceText;

namespace Lampblack.Checks;

/// <summary>The rules of hand, eye and plate: will hands fit, can it be read, does it hold together.</summary>
public static class PanelChecks
{
    /// <summary>The findings that a maker can let stand, by their codes.</summary>
    public static ImmutableArray<string> Rules { get; } =
    [
        "bodies-collide", "body-on-fixing", "body-over-edge", "body-unknown", "bushing-short", "control-small", "controls-close", "cover-short", "depth-short",
        "dial-marks-close", "dial-marks-many", "dial-marks-short", "dial-numbers", "fixing-play", "hole-near-edge", "holes-close", "legend-below", "legend-small",
        "legend-under-lever", "letters-close", "lines-close", "panel-bends", "pitch-small", "selector-opposite", "selector-positions", "selector-step", "sizes-alike",
        "stroke-width", "tab-hole-open", "turns-loose",
    ];

    /// <summary>Checks all panels. What the maker lets stand is among the findings, with the reason in <see cref="Finding.Accepted"/>.</summary>
    /// <param name="desk">The desk in its places.</param>
    /// <param name="isRead">Whether all of it could be read: else a panel may only seem empty.</param>
    public static ImmutableArray<Finding> Check(LaidDesk desk, bool isRead = true)
    {
        ArgumentNullException.ThrowIfNull(desk);
        return [.. desk.Panels.AsParallel().AsOrdered().SelectMany(panel => CheckPanel(desk.Desk, panel, isRead))];
    }

    private static List<Finding> CheckPanel(Desk desk, LaidPanel laid, bool isRead)
    {
        var panel = new Inspection(desk, laid);
        ControlSpacing.Check(panel);
        LegendRules.Check(panel);
        CoverRules.Check(panel);
        TurningRules.Check(panel);
        DialRules.Check(panel);
        SelectorRules.Check(panel);
        HoleRules.Check(panel);
        BodyRules.Check(panel);
        StackRules.Check(panel);
        PlateRules.Check(panel);
        if (isRead)
        {
            PlateRules.Empty(panel);
        }

        return [.. panel.Findings.All(), .. panel.Findings.Idle.Select(accept => Idle(accept, laid))];
    }

    private static Finding Idle(Acceptance accept, LaidPanel laid)
    {
        if (Rules.Contains(accept.Code))
        {
            return Finding.Note("accept-idle", $"{Shown.Code(accept.Code)} is accepted, but was not found here", "delete it", accept.Span, laid.Panel.Id);
        }

        var near = Nearest.To(accept.Code, Rules);
        return Finding.Warn(
            "accept-unknown",
            $"{Shown.Code(accept.Code)} is no finding that can be accepted",
            near is null ? "docs/fitting.md lists those that can" : $"did you mean {Shown.Code(near)}?",
            accept.Span,
            laid.Panel.Id);
    }
}
