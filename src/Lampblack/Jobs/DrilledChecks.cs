using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Jobs;

/// <summary>Holds drilled controls where the last build had them: a plate cannot be drilled back.</summary>
internal static class DrilledChecks
{
    /// <summary>Less than this is no move: a tenth of what a hand drill wanders.</summary>
    private const double SlackMm = 0.05;

    public static ImmutableArray<Finding> Check(LaidDesk laid, ComparisonReport? before)
    {
        var findings = ImmutableArray.CreateBuilder<Finding>();
        if (before is null)
        {
            return [];
        }

        foreach (var panel in laid.Panels)
        {
            var now = ComparisonControls.Of(panel.Panel);
            if (now.Any(control => control.Drilled is not null) && Earlier(panel.Panel, now, laid, before) is { } earlier)
            {
                findings.AddRange(ComparisonControls.Pairs(earlier.Controls, now)
                    .Where(pair => pair.Before.Drilled is not null && pair.Now.Drilled is not null)
                    .Select(pair => Moved(panel, pair.Before, pair.Now)).OfType<Finding>());
            }
        }

        return findings.ToImmutable();
    }

    /// <summary>The panel of the last build: that of the same id, else one whose id is gone and that shares a drilled control.</summary>
    private static ReportedPanel? Earlier(Panel panel, ImmutableArray<ReportedControl> now, LaidDesk laid, ComparisonReport before)
    {
        var ids = laid.Desk.Panels.Select(other => other.Id).ToHashSet(StringComparer.Ordinal);
        var drilled = now.Where(control => control.Drilled is not null).Select(control => control.Id).ToHashSet(StringComparer.Ordinal);
        return before.Panels.FirstOrDefault(other => other.Id == panel.Id)
            ?? before.Panels.FirstOrDefault(other => !ids.Contains(other.Id) && other.Controls.Any(control => control.Drilled is not null && drilled.Contains(control.Id)));
    }

    private static Finding? Moved(LaidPanel panel, ReportedControl before, ReportedControl now)
    {
        var control = panel.Panel.Items.OfType<Control>().First(item => item.Id == now.Id);
        var isAnotherHole = before.HoleHash != now.HoleHash;

        // A new measurement moves the hole on paper but not in the design; a new `at` whose `drilled` makes up for it moves neither plate nor hole.
        var byMm = before.Centre.DistanceMm(now.Centre);
        var isMoved = before.At.DistanceMm(now.At) > SlackMm && byMm > SlackMm;
        if (!isMoved && !isAnotherHole)
        {
            return null;
        }

        var count = panel.Parts.Sum(part => part.Holes.Length);
        var item = $"{panel.Panel.Id}/{now.Id}";
        var plate = string.Create(CultureInfo.InvariantCulture, $"a new plate with {count} {(count == 1 ? "hole" : "holes")}");
        var what = new List<string>();
        if (isMoved)
        {
            what.Add($"is drilled at {Place(before.Centre)} and would now lie at {Place(now.Centre)}, {Far(byMm)} away");
        }

        if (isAnotherHole)
        {
            what.Add(before.Part == now.Part ? "is drilled, and its part now has another hole or turn" : $"is drilled for the part `{before.Part}`, and `{now.Part}` has another hole or turn");
        }

        var cost = isAnotherHole
            ? isMoved ? plate : $"{plate}, or work on the hole by hand where the new one is larger all round"
            : Overlap(control, before.Centre, now.Centre) ? $"{plate}; a second hole {Far(byMm)} beside the first would run into it" : $"{plate}, or a second hole {Far(byMm)} beside the first";
        return Finding.Stop(
            "drilled-moved",
            $"`{item}` {string.Join(", and ", what)}: that costs {cost}",
            $"put it back (it was `at = {Place(before.At)}`, part `{before.Part}`), or unfreeze it: delete `{DrilledReader.Key}` from its table (`lampblack drilled DESK --clear {item}`)",
            control.Span,
            item);
    }

    private static bool Overlap(Control control, Point<PanelSpace> first, Point<PanelSpace> second)
    {
        var there = ComparisonControls.PlacedAt(control, second).Holes;
        return ComparisonControls.PlacedAt(control, first).Holes.Any(hole => there.Any(hole.Touches));
    }

    private static string Place(Point<PanelSpace> point) => string.Create(CultureInfo.InvariantCulture, $"[{point.XMm:0.###}, {point.YMm:0.###}]");

    private static string Far(double mm) => string.Create(CultureInfo.InvariantCulture, $"{mm:0.##} mm");
}
