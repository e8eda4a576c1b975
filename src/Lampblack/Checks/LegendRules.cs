using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Checks;

/// <summary>Lettering that can be read from where one sits, and is not hidden by what is in front of it.</summary>
internal static class LegendRules
{
    private const double SlackMm = 1e-6;

    /// <summary>Free space between lines, in heights of capitals (MIL-STD-1472 and NUREG-0700, from memory).</summary>
    private const double LineGapShare = 0.5;

    /// <summary>An upright of a capital I is the heaviest stroke of a font: a twentieth more than its letters' usual one (ours).</summary>
    private const double UprightFactor = 1.05;

    /// <summary>Two sizes nearer than this look like one that went wrong; halfway to a whole step.</summary>
    private const double LeastTierFactor = 1.12;

    public static void Check(Inspection panel)
    {
        foreach (var text in panel.Laid.Texts.Where(text => text.Letters is not null))
        {
            Height(panel, text, text.Letters!);
            Strokes(panel, text, text.Letters!);
        }

        Tiers(panel);
        Sides(panel);
        UnderLevers(panel);
    }

    /// <summary>Dim rooms ask for what control rooms ask of labels; lit ones for what can be read at all, with a note below the label's height.</summary>
    private static void Height(Inspection panel, PlacedText text, LetterMeasures letters)
    {
        var (distance, dim) = (panel.Desk.Use.DistanceMm, panel.Desk.Use.Dim);
        var least = Legibility.HeightMm(distance, dim ? Legibility.LabelArcMinutes : Legibility.LeastArcMinutes);
        var label = Legibility.HeightMm(distance, Legibility.LabelArcMinutes);
        var isRead = letters.CapitalsMm >= least - SlackMm;
        if (isRead && letters.CapitalsMm >= label - SlackMm)
        {
            return;
        }

        panel.Findings.Add("legend-small", isRead ? Severity.Note : Severity.Warn, () => Small(panel, text, letters, least, label), letters.CapitalsMm - least, text.Origin);
    }

    private static Finding Small(Inspection panel, PlacedText text, LetterMeasures letters, double leastMm, double labelMm)
    {
        var (distance, dim) = (panel.Desk.Use.DistanceMm, panel.Desk.Use.Dim);
        var found = $"{Shown.Code(text.Words)} is {Shown.Mm(letters.CapitalsMm, 2)} high, {Shown.Number(Legibility.ArcMinutes(distance, letters.CapitalsMm), 1)} minutes of arc at {Shown.Mm(distance)}";
        var hint = $"`height` or `state-height`; at this distance others ask for {Others(distance)}; `distance` in `[use]` tells from how far it is read";
        return letters.CapitalsMm >= leastMm - SlackMm
            ? Finding.Note("legend-small", $"{found}; labels of control rooms have 15 minutes, {Shown.Mm(labelMm, 2)} ({CheckSources.Nureg}, 11.4.1.5-1, by angle)", hint, text.Origin.Span, text.Origin.Item)
            : Finding.Warn(
                "legend-small",
                dim
                    ? $"{found}; in the dark it takes 15 minutes, {Shown.Mm(leastMm, 2)} ({CheckSources.Nureg}, 11.4.1.5-1, by angle)"
                    : $"{found}; it takes 10 minutes, {Shown.Mm(leastMm, 2)}, to be read ({CheckSources.HumanFactors})",
                hint,
                text.Origin.Span,
                text.Origin.Item);
    }

    private static string Others(double distanceMm)
    {
        var (least, preferred) = Legibility.ByFactor(distanceMm);
        var band = Legibility.BandHeightMm(distanceMm) is { } mm ? $", MIL-STD-1472 {Shown.Mm(mm)} (from memory)" : string.Empty;
        return $"{Shown.Mm(least, 2)} to {Shown.Mm(preferred, 2)} (NUREG-0700 by its factors), signs {Shown.Mm(Legibility.SignHeightMm(distanceMm), 2)} (DIN 4844-1){band}";
    }

    private static void Strokes(Inspection panel, PlacedText text, LetterMeasures letters)
    {
        if (letters.StrokeMm <= 0)
        {
            return;
        }

        var share = letters.StrokeMm / letters.CapitalsMm;
        if (share is < Legibility.ThinnestStrokeShare or > Legibility.ThickestStrokeShare * UprightFactor)
        {
            panel.Findings.Add(
                "stroke-width",
                Severity.Note,
                () => Stroke(panel, text, letters, share),
                -Math.Abs(share - ((Legibility.ThinnestStrokeShare + Legibility.ThickestStrokeShare) / 2)),
                text.Origin);
        }

        if (text.Words.Length > 1 && letters.LetterGapMm < letters.StrokeMm - SlackMm)
        {
            panel.Findings.Add(
                Finding.Warn(
                    "letters-close",
                    $"the letters of {Shown.Code(text.Words)} stand {Shown.Mm(letters.LetterGapMm, 2)} apart, measured between two I; it takes one stroke, {Shown.Mm(letters.StrokeMm, 2)} (MIL-STD-1472, from memory)",
                    "make `spacing` larger",
                    text.Origin.Span,
                    text.Origin.Item),
                letters.LetterGapMm - letters.StrokeMm,
                text.Origin);
        }

        if (letters.LineGapMm is { } gap && gap < (letters.CapitalsMm * LineGapShare) - SlackMm)
        {
            panel.Findings.Add(
                Finding.Warn(
                    "lines-close",
                    $"the lines of {Shown.Code(text.Words)} stand {Shown.Mm(gap, 2)} apart; it takes half a capital's height, {Shown.Mm(letters.CapitalsMm * LineGapShare, 2)} (MIL-STD-1472, from memory)",
                    "make `leading` 1.5 or more",
                    text.Origin.Span,
                    text.Origin.Item),
                gap - letters.CapitalsMm,
                text.Origin);
        }
    }

    private static Finding Stroke(Inspection panel, PlacedText text, LetterMeasures letters, double share)
    {
        var (thin, thick) = Legibility.BestStrokeMm(letters.CapitalsMm, isLightOnDark: panel.Laid.Panel.Field is null);
        var lit = text.Style.Role == LightRole.Unlit ? string.Empty : $", lit from behind {Shown.Mm(Legibility.LitDigitMm(letters.CapitalsMm).StrokeMm, 2)} (MIL-STD-1472E 5.4.2.1.3.5)";
        return Finding.Note(
            "stroke-width",
            $"the strokes of {Shown.Code(text.Words)} are {Shown.Mm(letters.StrokeMm, 2)} wide, 1/{Shown.Number(1 / share, 1)} of the height; 1/12 to 1/6 is read well ({CheckSources.HumanFactors})",
            $"take a {(share < Legibility.ThinnestStrokeShare ? "bolder" : "lighter")} font; best is {(thin < thick ? $"{Shown.Mm(thin, 2)} to {Shown.Mm(thick, 2)}" : Shown.Mm(thin, 2))} (DOD-HDBK-791 6-5.3.2.3){lit}",
            text.Origin.Span,
            text.Origin.Item);
    }

    /// <summary>Sizes of legends and titles that are meant to be told apart; states and numerals have their own.</summary>
    private static void Tiers(Inspection panel)
    {
        var sizes = panel.Laid.Panel.Items.Select(item => new Sized(item, item switch
        {
            Legend legend => legend.Text.HeightMm,
            Rule { Title.Length: > 0 } rule => rule.TitleText.HeightMm,
            Control { Legends.IsEmpty: false } control => control.LegendText.HeightMm,
            _ => 0,
        })).Where(pair => pair.HeightMm > 0).OrderBy(pair => pair.HeightMm).ToList();
        for (var index = 1; index < sizes.Count; index++)
        {
            var (small, large) = (sizes[index - 1], sizes[index]);
            var factor = large.HeightMm / small.HeightMm;
            if (factor > 1 + SlackMm && factor < LeastTierFactor)
            {
                panel.Findings.Add(
                    Finding.Note(
                        "sizes-alike",
                        $"letters of {Shown.Mm(small.HeightMm, 2)} and {Shown.Mm(large.HeightMm, 2)} on one panel are hardly told apart; from size to size a quarter is usual (NUREG-0700 Rev. 2, 11.3.1.1-4)",
                        $"take one size for both, or sizes such as {string.Join(", ", Legibility.TiersMm(sizes[0].HeightMm, 3).Select(mm => Shown.Number(mm, 2)))} mm",
                        large.Item.Span,
                        $"{panel.Laid.Panel.Id}/{large.Item.Id}"),
                    factor,
                    new($"{panel.Laid.Panel.Id}/{large.Item.Id}", large.Item.Span));
            }
        }
    }

    private sealed record Sized(PanelItem Item, double HeightMm);

    /// <summary>A hand on a lever or knob hides what stands below it; where the maker's panel has legends above as well, they even differ.</summary>
    private static void Sides(Inspection panel)
    {
        var below = panel.Controls.Where(control => control.Control.Side == LegendSide.Below && control.Control.Legends.Any(lines => lines.Any(line => !string.IsNullOrWhiteSpace(line))))
            .Where(control => control.Kind is not (ControlKind.PushButton or ControlKind.LegendSwitch)).DistinctBy(control => control.Origin.Span).ToList();
        foreach (var control in below)
        {
            panel.Findings.Add(
                Finding.Note(
                    "legend-below",
                    $"the legend of {Shown.Code(control.Origin.Item)} stands below it, where the hand hides it; usual is above ({CheckSources.HumanFactors}, chapter 4)",
                    "`side = \"above\"`, or say in `accept` why it stands below",
                    control.Origin.Span,
                    control.Origin.Item),
                0,
                control.Origin);
        }
    }

    private static void UnderLevers(Inspection panel)
    {
        var levers = panel.Laid.Parts.Where(part => part.Part.Lever is not null)
            .Select(part => (Part: part, Map: part.Map)).ToList();
        var texts = panel.Laid.Texts;
        List<Box<PanelSpace>> boxes = [.. levers.Select(lever => Grip.Of(lever.Part).Bounds), .. texts.Select(text => text.Box)];
        foreach (var (first, second) in Neighbours.Pairs(boxes, 0).Where(pair => pair.First < levers.Count && pair.Second >= levers.Count))
        {
            var (lever, text) = (levers[first], texts[second - levers.Count]);

            // What stands under nut or bezel is told by the layout.
            if (lever.Part.Part.LeverSweep().Map(lever.Map).Touches(text.Shape) && !lever.Part.Part.Front().Map(lever.Map).Touches(text.Shape))
            {
                panel.Findings.Add(
                    Finding.Warn(
                        "legend-under-lever",
                        $"the lever of {Shown.Code(lever.Part.Origin.Item)} stands over {Shown.Code(text.Words)} of {Shown.Code(text.Origin.Item)} in one of its positions (its length is {lever.Part.Part.Lever!.Length.Source})",
                        "move the words outwards; `gap` moves a control's legend",
                        text.Origin.Span,
                        text.Origin.Item),
                    0,
                    text.Origin,
                    lever.Part.Origin);
            }
        }
    }
}
