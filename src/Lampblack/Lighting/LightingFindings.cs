using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Circuits;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Parts;

namespace Lampblack.Lighting;

/// <summary>What is said of the light behind a panel.</summary>
internal static class LightingFindings
{
    /// <summary>Less than this of an emitter's straight light left over makes a shadow worth naming. Ours; no source.</summary>
    private const double ShadowShare = 0.4;

    /// <summary>Emitters nearer to the panel than this show as spots. From memory.</summary>
    private const double ShallowMm = 10;

    /// <summary>The dimmest step beside eyes that are used to the dark. Ours, no source: a hundredth of the full luminance of a night panel.</summary>
    private const double DarkCandelaPerM2 = 0.034;

    private const int MostNamed = 4;

    public static IEnumerable<Finding> Of(PanelLighting light, LightSetting setting, Desk desk, DimmingPlan? dimming)
    {
        var panel = light.Laid.Panel;
        var place = desk.Lighting.EmitterSpan ?? desk.Lighting.Span ?? panel.Span;
        foreach (var finding in Depth(light, setting, place, panel).Concat(Walls(setting, light)).Concat(Blocks(light, panel)).Concat(Places(light, setting, panel)).Concat(Cells(light, setting, desk)))
        {
            yield return finding;
        }

        if (light.HasGeneral)
        {
            foreach (var finding in General(light, setting, place, panel))
            {
                yield return finding;
            }
        }

        if (desk.Use.Dim && !light.Emitters.IsEmpty)
        {
            foreach (var finding in Night(light, dimming, panel))
            {
                yield return finding;
            }
        }
    }

    /// <summary>The plan in a sentence.</summary>
    public static string Sentence(PanelLighting light)
    {
        var units = light.Units.Length;
        var pieces = light.Type.Form == EmitterForm.Strip && light.IsPlanned ? $"{Shown.Count(units, "piece")} of strip with {Shown.Count(light.Emitters.Length, "emitter")}" : Shown.Count(units, "emitter");
        if (!light.HasGeneral)
        {
            return light.Cells.IsEmpty ? "nothing on it shines" : "all that shines has a light of its own";
        }

        var proof = !light.IsPlanned || !light.IsMetWhereOpen || (light.LeastUnits <= 1 && units > 1) ? string.Empty
            : light.LeastUnits >= units ? "; fewer can't do it"
            : Invariant($"; {light.LeastUnits - 1} or fewer can't do it, and of more than that not all choices were tried");
        var grid = light.GridUnits is { } count ? Invariant($"; an even grid needs {count}") : light.GridsTriedTo > 0 ? Invariant($"; no even grid of up to {light.GridsTriedTo} does") : string.Empty;
        return Invariant($"{pieces}, legends at {Figure(light.MeanCandelaPerM2)} cd/m2 in the mean, {Evenness(light)}{proof}{grid}");
    }

    private static string Evenness(PanelLighting light) => double.IsFinite(light.EvennessFactor) ? Invariant($"the brightest {light.EvennessFactor:0.00} times the dimmest") : "and no light comes to the dimmest";

    private static IEnumerable<Finding> Depth(PanelLighting light, LightSetting setting, SourceSpan place, Panel panel)
    {
        if (light.IsDepthAssumed && light.IsPlanned)
        {
            yield return Finding.Note("light-depth", Invariant($"the desk does not say how deep the box is; {setting.FloorMm:0.#} mm are taken for panel `{panel.Id}`"), "write `depth` under `[lighting]`: from the plate's back to the floor that carries the emitters", place, panel.Id);
        }
        else if (light.Light.Box.DepthMm < ShallowMm && light.HasGeneral)
        {
            yield return Finding.Warn("light-depth", Invariant($"the emitters of panel `{panel.Id}` start to shine {light.Light.Box.DepthMm:0.#} mm behind it: nearer than {ShallowMm:0} mm each shows as a spot (from memory)"), "make the box deeper, or take flatter emitters; a diffuser at a distance helps", place, panel.Id);
        }
    }

    private static IEnumerable<Finding> Walls(LightSetting setting, PanelLighting light)
    {
        var inside = light.Light.Box.Inside;
        var outside = light.Common.Where(piece => !piece.Places.Any(place => inside.Contains(place.At))).DistinctBy(piece => piece.Origin.Item).ToList();
        if (outside.Count > 0)
        {
            yield return Finding.Warn(
                "legend-over-wall",
                Invariant($"{Names(outside.Select(piece => piece.Origin.Item))} on panel `{light.Laid.Panel.Id}` {(outside.Count == 1 ? "stands" : "stand")} over the wall of the box, where no light comes"),
                Invariant($"move it inwards, or give a smaller `inset` under `[lighting]` (the walls' inner faces are {setting.Wish.InsetMm:0.##} mm from the panel's edge)"),
                outside[0].Origin.Span,
                outside[0].Origin.Item);
        }
    }

    private static IEnumerable<Finding> Blocks(PanelLighting light, Panel panel) => light.Blocks.Where(block => block.Blocker is not null).Select(block => Finding.Warn(
        "block-crowded",
        Invariant($"the screw at {block.Screw.XMm:0.##}, {block.Screw.YMm:0.##} of panel `{panel.Id}` has no room for the block of wood that it goes into, {block.Area.WidthMm:0.#} x {block.Area.HeightMm:0.#} mm at least and {ScrewBlock.HighMm:0} mm high: {block.Blocker}"),
        "move one of them; the screw stands best in a corner, some 6 mm from the plate's edges",
        panel.Fixings?.Span ?? panel.Span,
        panel.Id));

    private static IEnumerable<Finding> Places(PanelLighting light, LightSetting setting, Panel panel)
    {
        if (light.IsPlanned)
        {
            yield break;
        }

        var box = light.Light.Box;
        foreach (var (index, emitter) in light.Emitters.Index())
        {
            var body = light.Laid.Parts.FirstOrDefault(part => part.Part.Body is { } one && one.Depth.Mm > box.DepthMm && part.Body().Contains(emitter.At));
            if (body is null && box.Inside.Contains(emitter.At))
            {
                continue;
            }

            yield return Finding.Warn(
                "emitter-blocked",
                Invariant($"emitter {index + 1} of panel `{panel.Id}`, at {emitter.At.XMm:0.##}, {emitter.At.YMm:0.##}, {(body is null ? "is outside the box" : $"stands where the body of {Shown.Code(body.Origin.Item)} is")}"),
                "move it",
                index < setting.Placed.Length ? setting.Placed[index].Span : panel.Span,
                panel.Id);
        }
    }

    private static IEnumerable<Finding> General(PanelLighting light, LightSetting setting, SourceSpan place, Panel panel)
    {
        if (light.Emitters.IsEmpty)
        {
            yield return Finding.Warn("light-dim", $"there is no room for an emitter behind panel `{panel.Id}`", "give the box more depth, so that bodies don't reach its floor", place, panel.Id);
            yield break;
        }

        var (brightest, dimmest) = (light.Brightest, light.Dimmest);
        if (light.EvennessFactor > light.Wish.MostEvennessFactor * (1 + 1e-9))
        {
            yield return Finding.Warn(
                "light-uneven",
                double.IsFinite(light.EvennessFactor)
                    ? Invariant($"on panel `{panel.Id}` the brightest legend, {Named(brightest)}, is {light.EvennessFactor:0.0} times as bright as the dimmest, {Named(dimmest)}; {light.Wish.MostEvennessFactor:0.##} times is wanted")
                    : Invariant($"on panel `{panel.Id}` no light comes to {Named(dimmest)}, and the brightest legend, {Named(brightest)}, shows {Figure(brightest.CandelaPerM2)} cd/m2"),
                light.IsPlanned
                    ? "no choice of places that was tried does better: give the box more depth, white walls, other emitters or more of the floor; or take a paler ink for the dimmest"
                    : "move emitters towards the dimmest, add some, or take the panel's `[[panel.emitter]]` out to have them planned",
                dimmest.Piece.Origin.Span,
                dimmest.Piece.Origin.Item);
        }

        if (!light.Dark.IsEmpty)
        {
            var items = light.Dark.GroupBy(legend => legend.Piece.Origin.Item).ToList();
            yield return Finding.Warn(
                "light-shadowed",
                $"right before a body behind panel `{panel.Id}`, where no light comes, {(items.Count == 1 ? "lie marks of one item" : Invariant($"lie marks of {items.Count} items"))}: {string.Join("; ", items.Select(DarkMarks))}",
                "move them off the body or the block of wood that the screw beside them goes into (states of a switch: a larger `state-gap`), or make them `unlit`; measure the body if its size is from memory",
                items[0].First().Piece.Origin.Span,
                items[0].Key);
        }

        foreach (var legend in Shadowed(light))
        {
            yield return Finding.Warn(
                "light-shadowed",
                Invariant($"{Named(legend)} on panel `{panel.Id}` lies in the shadow of bodies: {Shown.Percent(light.Light.OpenShare(light.Emitters, legend.Piece.Box.Centre))} of the straight light is left, and it shows {Figure(legend.CandelaPerM2)} cd/m2 where the mean is {Figure(light.MeanCandelaPerM2)}"),
                "move it away from the bodies, or give it a light of its own: `light = \"own\"`",
                legend.Piece.Origin.Span,
                legend.Piece.Origin.Item);
        }

        if (light.MeanCandelaPerM2 < light.Wish.LeastMeanCandelaPerM2 * (1 - 1e-6) && light.IsPlanned)
        {
            yield return Finding.Warn(
                "light-dim",
                Invariant($"the emitters of panel `{panel.Id}` at full bring its legends to {Figure(light.MeanCandelaPerM2)} cd/m2 in the mean, and {Figure(light.Wish.LeastMeanCandelaPerM2)} is wanted"),
                "take brighter emitters, or paper and inks that let more through; or write a lower `luminance` under `[lighting]`",
                place,
                panel.Id);
        }

        if (light.Wish.MostOneShare is { } most && light.OneShare > most + 1e-9)
        {
            var worst = light.Legends.MaxBy(legend => legend.OneShare)!;
            yield return Finding.Warn(
                "light-one-emitter",
                Invariant($"{Named(worst)} on panel `{panel.Id}` owes {Shown.Percent(worst.OneShare)} of its light to one emitter, and {Shown.Percent(most)} is the most that is wanted: if that one fails, it goes dark"),
                "add emitters near it, or let the plan do so",
                worst.Piece.Origin.Span,
                worst.Piece.Origin.Item);
        }

        if (light.IsPlanned)
        {
            yield return Finding.Note("light-plan", $"panel `{panel.Id}`: {Sentence(light)}", "a build draws where they stand, and lit.png shows it; so does `lampblack light DESK -o DIR`", place, panel.Id);
        }
    }

    /// <summary>An item with all its words that stay dark.</summary>
    private static string DarkMarks(IGrouping<string, LitLegend> item) => $"{Shown.Code(item.Key)} ({string.Join(", ", item.Select(legend => legend.Piece.Words).Distinct().Select(word => Shown.Quoted(word)))})";

    /// <summary>Legends that are dim because something stands in their light.</summary>
    private static IEnumerable<LitLegend> Shadowed(PanelLighting light) => light.Legends
        .Where(legend => legend.CandelaPerM2 < light.MeanCandelaPerM2 / light.Wish.MostEvennessFactor)
        .Where(legend => light.Light.OpenShare(light.Emitters, legend.Piece.Box.Centre) < ShadowShare)
        .OrderBy(legend => legend.CandelaPerM2)
        .DistinctBy(legend => legend.Piece.Origin.Item)
        .Take(MostNamed);

    private static IEnumerable<Finding> Cells(PanelLighting light, LightSetting setting, Desk desk)
    {
        foreach (var (index, cell) in light.Cells.Index())
        {
            var room = LightCells.Outside(cell.Inside);
            var body = light.Laid.Parts.FirstOrDefault(part => part.Part.Body is not null && part.Body().Touches(Region<PanelSpace>.Rectangle(room)));
            var other = light.Cells.Take(index).FirstOrDefault(one => LightCells.Outside(one.Inside).Overlaps(room, -1e-6));
            var mark = light.Common.FirstOrDefault(piece => piece.Places.Any(place => room.Contains(place.At)));
            var found = body is not null ? $"the body of {Shown.Code(body.Origin.Item)}" : other is not null ? $"the cell of {Shown.Code(other.Item.Item)}" : mark is not null ? $"{Shown.Quoted(mark.Words)} of {Shown.Code(mark.Origin.Item)}, which shines by the common light" : null;
            if (found is not null || !setting.Inside.Contains(room))
            {
                yield return Finding.Warn(
                    "cell-crowded",
                    Invariant($"the cell of {Shown.Code(cell.Item.Item)} needs {room.WidthMm:0.0} x {room.HeightMm:0.0} mm behind the panel (light wanders {LightCells.ReachMm(setting.PlateMm):0.0} mm sideways in the plate), and {(found is null ? "the box's wall is" : $"{found} is")} in the way"),
                    "move one of them, or give both the same light",
                    cell.Item.Span,
                    cell.Item.Item);
            }

            if (cell.LeakShare > 1 / desk.Lighting.LeakFactor)
            {
                yield return Finding.Warn(
                    "cell-leaks",
                    Invariant($"while the cell of {Shown.Code(cell.Item.Item)} is dark, 1:{1 / cell.LeakShare:0} of its neighbours' light comes in over its walls' edges (a seam of {LightCells.SeamMm:0.0} mm, from memory), and at most 1:{desk.Lighting.LeakFactor:0} is wanted"),
                    "seal the walls' edges with black tape or soft foam, or write a lower `leak` under `[lighting]`",
                    cell.Item.Span,
                    cell.Item.Item);
            }

            if (cell.MeanCandelaPerM2 < setting.WantedCandelaPerM2 * (1 - 1e-6))
            {
                yield return Finding.Warn(
                    "cell-dim",
                    Invariant($"the light of {Shown.Code(cell.Item.Item)} at full brings it to {Figure(cell.MeanCandelaPerM2)} cd/m2, and {Figure(setting.WantedCandelaPerM2)} is wanted"),
                    "take brighter emitters or, for a hidden legend, a thinner `cover`; or write a lower `luminance` under `[lighting]`",
                    cell.Item.Span,
                    cell.Item.Item);
            }
        }
    }

    private static IEnumerable<Finding> Night(PanelLighting light, DimmingPlan? dimming, Panel panel)
    {
        if (dimming is { StepCount: > 0 } steps)
        {
            var lowest = light.Legends.Select(legend => legend.CandelaPerM2).DefaultIfEmpty(0).Average() / steps.StepCount;
            if (lowest > DarkCandelaPerM2)
            {
                yield return Finding.Warn("light-steps", Invariant($"at the lowest of {steps.StepCount} steps panel `{panel.Id}` still shows {Figure(lowest)} cd/m2; beside eyes that are used to the dark {DarkCandelaPerM2} is bright enough (ours, no source)"), "drive the emitters with less current: a lower `luminance` under `[lighting]`", panel.Span, panel.Id);
            }
        }

        var open = light.Laid.Parts.Where(part => part.Part.Class is not (PartClass.Lamp or PartClass.Screw) && (part.Part.CoverMm ?? 0) <= 0 && part.Part.Body is not null).Select(part => part.Origin.Item).Distinct(StringComparer.Ordinal).ToList();
        yield return Finding.Note(
            "light-strays",
            $"panel `{panel.Id}` is read in the dark: light that comes out of the plate's edges{(open.Count > 0 ? $" and beside {Names(open)}, whose holes no bezel covers," : string.Empty)} dazzles more than it helps",
            "paint or tape the plate's edges black, and put black foam behind open holes",
            panel.Span,
            panel.Id);
    }

    private static string Names(IEnumerable<string> items)
    {
        var all = items.ToList();
        var named = Shown.List(all.Take(MostNamed).Select(Shown.Code));
        return all.Count > MostNamed ? Invariant($"{named} and {all.Count - MostNamed} more") : named;
    }

    private static string Named(LitLegend legend) => $"{Shown.Quoted(legend.Piece.Words)} of {Shown.Code(legend.Piece.Origin.Item)}";

    /// <summary>Two figures are more than is known of any emitter.</summary>
    internal static string Figure(double value)
    {
        if (value <= 0)
        {
            return "0";
        }

        var unit = Math.Pow(10, Math.Floor(Math.Log10(value)) - 1);
        return (Math.Round(value / unit, MidpointRounding.AwayFromZero) * unit).ToString("0.#####", CultureInfo.InvariantCulture);
    }

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
