using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Parts;

namespace Lampblack.Fabrication;

/// <summary>The openings of one part, each with how it is made.</summary>
internal static class PartHoles
{
    // A hand drill walks; a small hole first holds the next drill in its place. Common practice, no source.
    private const double PilotMm = 3;

    // Acrylic cracks where a drill takes much at once: at most this much wider than the one before. Common practice, no source.
    private const double StepMm = 4;

    private const string ToTemplate = "file to the template";

    /// <summary>The openings.</summary>
    /// <param name="part">The part in its place.</param>
    /// <param name="number">Its number.</param>
    /// <param name="drills">The drills.</param>
    /// <param name="isDrilled">Whether its holes are drilled already.</param>
    public static IEnumerable<ChartHole> Of(PlacedPart part, int number, DrillSet drills, bool isDrilled)
    {
        var map = part.Map;
        var (lines, covered) = (part.Part.HoleLines(), PartForm.Of(part.Part).AreCovered);
        yield return Main(part, number, map, lines[0].Map(map), drills, isDrilled);
        foreach (var (index, extra) in part.Part.ExtraHoles.Index())
        {
            var diameter = extra.Diameter.Mm;
            var choice = drills.For(diameter);
            yield return new(
                string.Create(CultureInfo.InvariantCulture, $"{number}{Letters(index)}"),
                part.Origin,
                extra.Purpose,
                choice is null ? HoleWay.Saw : HoleWay.Drill,
                map.Apply(new(extra.XMm, extra.YMm)),
                lines[index + 1].Map(map),
                ArcPath<PanelSpace>.Circle(map.Apply(new(extra.XMm, extra.YMm)), (diameter / 2) + PartForm.Of(part.Part).PaperMarginMm),
                part.Holes[index + 1],
                [map.Apply(new(extra.XMm, extra.YMm))],
                Cutout.Text(diameter) + " mm",
                diameter,
                null,
                choice,
                choice is null ? Pilot(drills) : Before(diameter, choice, drills),
                diameter + (2 * PartForm.Of(part.Part).PaperMarginMm),
                choice is null ? $"then a step drill or a hole saw up to {Cutout.Text(Math.Floor(diameter))} mm, {ToTemplate}" : Filed(choice),
                isDrilled,
                !covered[index + 1]);
        }
    }

    private static ChartHole Main(PlacedPart placed, int number, Affine<ItemSpace, PanelSpace> map, ArcPath<PanelSpace> line, DrillSet drills, bool isDrilled)
    {
        var part = placed.Part;
        var (way, diameter, within, then) = part.Cutout switch
        {
            RoundCutout round => (HoleWay.Drill, round.Diameter.Mm, round.Diameter.Mm, Notch(part)),
            FlattedCutout flatted => (HoleWay.File, (double?)flatted.Diameter.Mm, flatted.AcrossFlats.Mm, $"{ToTemplate}: {(flatted.OneFlat ? "one flat" : "two flats")}"),
            SlotCutout slot => (HoleWay.File, null, slot.Width.Mm, "a hole at each end, saw between them, " + ToTemplate),
            RectangleCutout box => (HoleWay.File, null, box.Corner.Mm >= 1 ? 2 * box.Corner.Mm : PilotMm, "a hole in each corner, saw between them, " + ToTemplate),
            DrawnCutout drawn => (HoleWay.File, null, Math.Min(PilotMm, 2 * DeepSpot.Of(drawn.Outline).RadiusMm), "a hole within, saw along the line, " + ToTemplate),
            _ => throw new ArgumentException("an opening is round, flatted, a slot, a rectangle or drawn", nameof(placed)),
        };
        var choice = way == HoleWay.Drill ? drills.For(within) : drills.UpTo(within) is { } inner ? new DrillChoice(inner, inner.DiameterMm - within) : null;
        if (choice is null && way == HoleWay.Drill)
        {
            way = HoleWay.Saw;
        }

        // A hole saw's own drill and the tip of a step drill want a small hole for their middle; a larger one leaves a hole saw nothing to turn about.
        ImmutableArray<Drill> steps = way == HoleWay.Saw ? Pilot(drills) : Before(within, choice, drills);
        var left = way switch
        {
            HoleWay.Saw => $"then a step drill or a hole saw up to {Cutout.Text(Math.Floor(within))} mm, {ToTemplate}" + (then.Length == 0 ? string.Empty : ", " + then),
            HoleWay.Drill => string.Join(", ", new[] { Filed(choice), then }.Where(words => words.Length > 0)),
            _ => then,
        };
        return new(
            number.ToString(CultureInfo.InvariantCulture), placed.Origin, part.Name, way, placed.Centre, line, part.Cutout.PaperLine(PartForm.Of(part).PaperMarginMm).Map(map), placed.Holes[0],
            [.. Starts(part.Cutout, (choice?.Drill.DiameterMm ?? within) / 2).Select(map.Apply)], part.DrillText, diameter, part.Cutout.TolerancePlus?.Mm,
            choice, steps, PartForm.Of(part).PaperPunchMm, left, isDrilled, !PartForm.Of(part).AreCovered[0]);
    }

    /// <summary>Where drills go in, in the part's own place: so that the drill's edge just meets the opening's.</summary>
    private static IEnumerable<Point<ItemSpace>> Starts(Cutout cutout, double radiusMm)
    {
        switch (cutout)
        {
            case SlotCutout slot:
                var along = Affine<ItemSpace, ItemSpace>.Turn(slot.DirectionDegrees);
                var end = Math.Max(0, (slot.Length.Mm / 2) - Math.Max(radiusMm, slot.Width.Mm / 2));
                return [along.Apply(new(-end, 0)), along.Apply(new(end, 0))];
            case RectangleCutout box:
                // In a corner rounder than the drill it meets the arc, on the diagonal.
                var inMm = radiusMm < box.Corner.Mm ? box.Corner.Mm - ((box.Corner.Mm - radiusMm) / Math.Sqrt(2)) : radiusMm;
                var (x, y) = (Math.Max(0, (box.Width.Mm / 2) - inMm), Math.Max(0, (box.Height.Mm / 2) - inMm));
                return new Point<ItemSpace>[] { new(-x, -y), new(x, -y), new(x, y), new(-x, y) }.Distinct();
            case DrawnCutout drawn:
                return [DeepSpot.Of(drawn.Outline).At];
            default:
                return [default];
        }
    }

    private static string Notch(Part part) => part.Key is { } key
        ? string.Create(CultureInfo.InvariantCulture, $"file the notch {Cutout.Text(key.Width.Mm)} x {Cutout.Text(key.Depth.Mm)} mm")
        : string.Empty;

    private static string Filed(DrillChoice? choice) => choice is { ErrorMm: < -DrillSet.LeastBelowMm }
        ? string.Create(CultureInfo.InvariantCulture, $"file out by {-choice.ErrorMm:0.00} mm")
        : string.Empty;

    /// <summary>The one drill that holds a hole saw or a step drill in its place.</summary>
    private static ImmutableArray<Drill> Pilot(DrillSet drills) => drills.UpTo(PilotMm) is { } pilot ? [pilot] : [];

    /// <summary>The drills before the last: a pilot, then never more than a step at once.</summary>
    private static ImmutableArray<Drill> Before(double diameterMm, DrillChoice? last, DrillSet drills)
    {
        var endMm = last?.Drill.DiameterMm ?? Math.Min(diameterMm, drills.Largest.DiameterMm + 1e-6);
        if (endMm <= PilotMm + 1)
        {
            return [];
        }

        var steps = ImmutableArray.CreateBuilder<Drill>();
        var reachMm = PilotMm;
        while (drills.UpTo(reachMm) is { } next && next.DiameterMm < endMm - 1e-9 && (steps.Count == 0 || next.DiameterMm > steps[^1].DiameterMm))
        {
            steps.Add(next);
            if (endMm - next.DiameterMm <= StepMm)
            {
                break;
            }

            reachMm = next.DiameterMm + StepMm;
        }

        return steps.ToImmutable();
    }

    // a to z, then aa, ab ...: parts with more than 26 holes are few.
    private static string Letters(int index) => index < 26 ? ((char)('a' + index)).ToString() : Letters((index / 26) - 1) + Letters(index % 26);
}
