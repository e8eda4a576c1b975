using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;

namespace Lampblack.Wiring;

/// <summary>Says of each display and each chain of pixels which pins are kept for it, and that the engine does not drive it.</summary>
internal static class DataFindings
{
    private const string Power = "5 V and 0 V come by a pair of their own from a supply that gives its current, its 0 V joined to the controller's";

    public static IEnumerable<Finding> Of(ImmutableArray<WiredNeed> needs, ImmutableArray<ControllerPlan> plans, ControllerWish wish)
    {
        foreach (var need in needs.Where(need => need.Kind == WiredKind.Data && need.DataFrom is null))
        {
            var what = need.Part is { } placed ? $"`{placed.Part.Id}`" : $"the pixels of \"{need.Name}\"";
            var pins = plans.SelectMany(plan => plan.DataLines.Where(line => line.ItemId == need.Id).Select(line => $"{(plans.Length == 1 ? string.Empty : $"controller {plan.Index + 1} ")}{line.Pin.Header}")).ToList();
            yield return pins.Count > 0
                ? Finding.Note(
                    "part-not-driven",
                    $"our engine has no code for {what}: {string.Join(", ", pins)} {(pins.Count == 1 ? "is" : "are")} kept for {(pins.Count == 1 ? "its data line" : "its data lines")} and {(pins.Count == 1 ? "stays" : "stay")} silent",
                    $"for now its data comes from a controller of its own with a program for it; {Power}{Unsaid(need)}",
                    need.Part?.Origin.Span ?? wish.Span,
                    need.Part is null ? null : need.Id)
                : Finding.Note(
                    "part-not-planned",
                    $"no pin is left for the data lines of {what}, and our engine has no code for it",
                    $"it needs a controller of its own with a program for it; {Power}{Unsaid(need)}",
                    need.Part?.Origin.Span ?? wish.Span,
                    need.Part is null ? null : need.Id);
        }
    }

    /// <summary>Of data lines that had a pin in the last build, and have it no longer: controls come first, and their wires are soldered.</summary>
    public static IEnumerable<Finding> Moved(ImmutableArray<WiredNeed> needs, ImmutableArray<ControllerPlan> plans, PinPlan? before, ControllerWish wish)
    {
        var lines = plans.SelectMany(plan => plan.DataLines.Select(line => (plan.Index, line))).ToHashSet();
        foreach (var lost in (before?.Controllers ?? []).SelectMany(plan => plan.DataLines.Select(line => (plan.Index, line))).Where(one => !lines.Contains(one)).GroupBy(one => one.line.ItemId))
        {
            if (needs.FirstOrDefault(need => need.Id == lost.Key && need.Kind == WiredKind.Data) is { } need)
            {
                yield return Finding.Note(
                    "wiring-made-anew",
                    $"the data lines of \"{need.Name}\" can't keep their pins of the last build ({string.Join(", ", lost.Select(one => one.line.Pin.Header))}): other wires may be planned there now, and what is soldered may be wrong",
                    "compare `wiring/wires.csv` with the last one before you build on",
                    need.Part?.Origin.Span ?? wish.Span,
                    need.Part is null ? null : need.Id);
            }
        }
    }

    /// <summary>Only controls have the key; a strip behind a panel has none.</summary>
    private static string Unsaid(WiredNeed need) => need.Part is null ? string.Empty : "; or say `wired = false`";
}
