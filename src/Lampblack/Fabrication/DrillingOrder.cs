using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Parts;

namespace Lampblack.Fabrication;

/// <summary>One drill in hand, and every hole that it goes into.</summary>
/// <param name="Drill">The drill.</param>
/// <param name="Labels">The holes by their numbers, in the order of the chart.</param>
/// <param name="TurnsPerMinute">About how fast it turns.</param>
public sealed record DrillTurn(Drill Drill, ImmutableArray<string> Labels, int TurnsPerMinute);

/// <summary>In which order a plate's holes are made, and the words for it.</summary>
public static class DrillingOrder
{
    // Surface speeds for acrylic as tables for hand work have them: 1/8 in 3500, 1/4 in 1800, 3/8 in 1200, 1/2 in 900, 5/8 in 700, 1 in 450 per minute. From memory.
    private static readonly ImmutableArray<(double Mm, int Turns)> Speeds =
        [(25.4 / 8, 3500), (25.4 / 4, 1800), (25.4 * 3 / 8, 1200), (25.4 / 2, 900), (25.4 * 5 / 8, 700), (25.4, 450)];

    /// <summary>Each drill once, the smallest first, with all its holes; those that are drilled already are left out.</summary>
    /// <param name="chart">The chart.</param>
    public static ImmutableArray<DrillTurn> Of(HoleChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        return
        [
            .. chart.Holes.Where(hole => !hole.IsDrilled)
                .SelectMany(hole => hole.Drills.Select(drill => (drill, hole.Label)))
                .GroupBy(pair => pair.drill, pair => pair.Label)
                .OrderBy(group => group.Key.DiameterMm)
                .Select(group => new DrillTurn(group.Key, [.. group], TurnsPerMinute(group.Key.DiameterMm))),
        ];
    }

    /// <summary>About how fast a drill turns in acrylic, in turns a minute, between and beyond the table by the same speed at its edge.</summary>
    /// <param name="diameterMm">The drill.</param>
    public static int TurnsPerMinute(double diameterMm)
    {
        if (!(diameterMm > Speeds[0].Mm))
        {
            return Speeds[0].Turns;
        }

        var above = Speeds.FirstOrDefault(speed => speed.Mm >= diameterMm);
        if (above == default)
        {
            return Rounded(Speeds[^1].Turns * Speeds[^1].Mm / diameterMm);
        }

        var below = Speeds.Last(speed => speed.Mm < diameterMm);
        var share = (diameterMm - below.Mm) / (above.Mm - below.Mm);
        return Rounded(below.Turns + (share * (above.Turns - below.Turns)));

        static int Rounded(double turns) => (int)(Math.Round(turns / 50, MidpointRounding.AwayFromZero) * 50);
    }

    /// <summary>What to do at the bench, a step each.</summary>
    /// <param name="order">The order of work.</param>
    /// <param name="chart">The chart.</param>
    public static ImmutableArray<string> Steps(WorkOrder order, HoleChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        string drill = "Drill from the front, plate clamped on a board of wood or scrap: each drill once through all its holes, smallest first (see above). Slow down before it breaks through; back out to clear chips. Points of 60 to 90 degrees; the usual 118 grab.";
        var corner = chart.Laid.Panel.CornerMm > 0
            ? string.Create(CultureInfo.InvariantCulture, $"File the corners to the template, radius {Cutout.Text(chart.Laid.Panel.CornerMm)} mm; a corner can't be snapped.")
            : null;
        string edges = "Blacken the cut edges and the walls of the holes (felt pen, then paint): bare acrylic there glows" + (chart.Holes.Any(hole => hole.ShowsEdge)
            ? $"; nothing covers {string.Join(", ", chart.Holes.Where(hole => hole.ShowsEdge).Select(hole => hole.Label))}."
            : ".");
        var frozen = chart.Holes.Where(hole => hole.IsDrilled).Select(hole => hole.Label).ToList();
        var done = frozen.Count == 0 ? null : $"Already drilled, as the desk file says: {string.Join(", ", frozen)}. They stay where they are; the print follows them.";
        string?[] steps = order switch
        {
            WorkOrder.GlueThenDrill =>
            [
                done,
                "The print is on the plate and the glue is dry; the film on the plate's back stays on. Cut the plate (cut plan).",
                "Cut the paper out of every hole first, with the punch or knife of the chart: a drill tears what it meets.",
                "Lay the template on the marks and prick through the crosses, or use the marks in the print itself.",
                drill, "Take off the burr on the back with a larger drill turned by hand.", corner, edges,
            ],
            WorkOrder.DrillThenGlue =>
            [
                done,
                "Cut the plate (cut plan); the film stays on both sides. Stick the template on it, corner mark on the lower left corner, seen from the front.",
                drill, "Take off the burr on both faces with a larger drill turned by hand.", corner,
                "Measure where the holes came out: photograph them on a page of drilled.pdf, or use a caliper, and write it down with `lampblack drilled`. Build again: the print then fits this plate.",
                edges, "Glue the print on. Open its holes from behind with a sharp knife along the hole's wall, or with the punch of the chart.",
            ],
            _ =>
            [
                done,
                "Cut the plate (cut plan); the film stays on both sides. Stick the template on its front, corner mark on the lower left corner.",
                drill, "Take off the burr on both faces with a larger drill turned by hand.", corner,
                "Measure where the holes came out and write it down with `lampblack drilled`; build again.",
                edges, "Punch the print by the chart before it goes behind the plate: its front faces the plate.",
            ],
        };
        return [.. steps.OfType<string>()];
    }

    /// <summary>The caution that belongs to drilling and cutting acrylic.</summary>
    public const string Caution =
        "Eye protection. Clamp the plate, never hold it by hand under a drill. Cut away from you; gloves for snapping, none near a turning drill. Chips are sharp; acrylic burns. Your tools' own instructions come first.";
}
