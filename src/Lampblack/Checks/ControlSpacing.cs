using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.Checks;

/// <summary>Controls far enough apart for fingers, and large enough for them.</summary>
internal static class ControlSpacing
{
    /// <summary>Push-buttons of one item that are fewer than this are no keyboard.</summary>
    private const int FewestInArray = 4;

    /// <summary>A push-button for a bare and for a gloved fingertip (MIL-STD-1472 figure 11, from memory), and a knob for fingertips (figure 7, from memory).</summary>
    private const double BareTipMm = 10;

    private const double GlovedTipMm = 19;

    /// <summary>A lever for a gloved hand (MIL-STD-1472 figure 13, from memory).</summary>
    private const double GlovedLeverMm = 38;

    /// <summary>Two lengths that differ by less are the same: rounding, not spacing.</summary>
    private const double SlackMm = 1e-6;

    public static void Check(Inspection panel)
    {
        Distances(panel);
        Sizes(panel);
        Pitches(panel);
    }

    private static void Distances(Inspection panel)
    {
        var use = panel.Desk.Use;
        var all = panel.Controls;

        // Only two hands ask for more than 50 mm, and only buttons, which may be a keyboard, for more than 25.
        var hasButtons = all.Any(control => control.Kind is ControlKind.PushButton or ControlKind.LegendSwitch);
        var reach = use.TwoHands ? SpacingTable.LargestMm : hasButtons ? SpacingTable.LargestOfOneHandMm : SpacingTable.LargestOfPlainMm;
        var near = Neighbours.Pairs([.. all.Select(control => control.Grip.Bounds)], reach)
            .Select(pair => new Near(all[pair.First], all[pair.Second], all[pair.First].Grip.DistanceMm(all[pair.Second].Grip)))
            .ToList();
        var arrays = near.Where(pair => pair.One.Origin.Span == pair.Other.Origin.Span && pair.One.Kind == ControlKind.PushButton
                && pair.One.Control.Copies.Count >= FewestInArray && pair.GapMm < SpacingTable.Least(ControlKind.PushButton, ControlKind.PushButton).Mm)
            .Select(pair => pair.One.Origin.Span).ToHashSet();
        foreach (var (one, other, gap) in near)
        {
            var isSame = one.Origin.Span == other.Origin.Span;
            var (first, second) = (Kind(one, arrays, isSame), Kind(other, arrays, isSame));
            var (least, source) = isSame ? SpacingTable.InSequence(first, use.TwoHands, use.Gloves) : SpacingTable.Least(first, second, use.TwoHands, use.Gloves);
            if (gap < least - SlackMm)
            {
                panel.Findings.Add(
                    "controls-close",
                    Severity.Warn,
                    () => Finding.Warn(
                        "controls-close",
                        $"{Shown.Code(one.Origin.Item)} ({ControlKinds.Name(first)}) and {Shown.Code(other.Origin.Item)} ({ControlKinds.Name(second)}) stand {Shown.Mm(gap, 1)} apart, edge to edge; fingers ask for {Shown.Mm(least)} ({source})",
                        $"move them {Shown.Mm(least - gap + 0.05, 1)} further apart, or say in `accept` why they may stand so near",
                        other.Origin.Span,
                        other.Origin.Item),
                    gap - least,
                    other.Origin,
                    one.Origin);
            }
        }
    }

    /// <summary>Two controls that lie near each other.</summary>
    private sealed record Near(WorkedControl One, WorkedControl Other, double GapMm);

    private static ControlKind Kind(WorkedControl control, HashSet<SourceSpan> arrays, bool isSame) =>
        !isSame && arrays.Contains(control.Origin.Span) ? ControlKind.PushButtonArray : control.Kind;

    private static void Sizes(Inspection panel)
    {
        var gloves = panel.Desk.Use.Gloves;
        foreach (var control in panel.Controls)
        {
            var (found, least, what, source) = (control.Kind, control.Placed.Part) switch
            {
                (ControlKind.PushButton or ControlKind.LegendSwitch, _) => (control.Grip.AcrossMm, gloves ? GlovedTipMm : BareTipMm, "across", CheckSources.MilButton),
                (ControlKind.Knob, _) => (control.Grip.AcrossMm, BareTipMm, "across", CheckSources.MilKnob),

                // A bar knob is at least 25 mm long.
                (ControlKind.Selector, { KnobDiameter: not null }) => (control.Grip.AcrossMm, 25.0, "long", CheckSources.MilSelector),
                (ControlKind.Toggle, { Lever: { } lever }) when gloves => (lever.Length.Mm, GlovedLeverMm, "long", CheckSources.MilToggle),
                _ => (1, 0, string.Empty, string.Empty),
            };
            if (found < least - SlackMm)
            {
                panel.Findings.Add(
                    Finding.Warn(
                        "control-small",
                        $"{Shown.Code(control.Origin.Item)} ({ControlKinds.Name(control.Kind)}) is {Shown.Mm(found, 1)} {what}; {(gloves ? "a gloved" : "a bare")} hand asks for {Shown.Mm(least)} ({source})",
                        "take a larger part or knob; where yours differs from the list, say so in `[[caliper]]`",
                        control.Origin.Span,
                        control.Origin.Item),
                    found - least,
                    control.Origin);
            }
        }
    }

    private static void Pitches(Inspection panel)
    {
        var parts = panel.Laid.Parts.Where(part => part.Part.LeastPitch is not null).ToList();
        foreach (var (first, second) in Neighbours.Pairs([.. parts.Select(part => part.Covered.Bounds)], parts.Select(part => part.Part.LeastPitch!.Value.Mm).DefaultIfEmpty().Max()))
        {
            var (one, other) = (parts[first], parts[second]);
            var (onePitch, otherPitch) = (one.Part.LeastPitch!.Value, other.Part.LeastPitch!.Value);
            var least = (onePitch.Mm + otherPitch.Mm) / 2;
            var pitch = one.Centre.DistanceMm(other.Centre);
            if (pitch < least - SlackMm)
            {
                panel.Findings.Add(
                    Finding.Warn(
                        "pitch-small",
                        $"the middles of {Shown.Code(one.Origin.Item)} and {Shown.Code(other.Origin.Item)} are {Shown.Mm(pitch)} apart; their maker asks for {Shown.Mm(least)} ({onePitch.Source})",
                        "move them apart",
                        other.Origin.Span,
                        other.Origin.Item),
                    pitch - least,
                    other.Origin,
                    one.Origin);
            }
        }
    }
}
