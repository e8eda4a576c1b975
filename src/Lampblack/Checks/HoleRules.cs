using System;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;

namespace Lampblack.Checks;

/// <summary>Holes that neither break out nor crack when acrylic is drilled and snapped. Practice and memory: no text with these figures was found.</summary>
public static class HoleRules
{
    /// <summary>From a screw hole's middle to the edge, in diameters (from memory: 1.5 to 2).</summary>
    public const double FastenerToEdgeShare = 1.5;

    /// <summary>From middle to middle of two screw holes, in diameters (from memory).</summary>
    public const double FastenerPitchShare = 2;

    /// <summary>From a hole's edge to the plate's edge, in thicknesses (from memory): below one the edge breaks out; below two a crack from snapping can run into it.</summary>
    public const double LeastEdgeShare = 1;

    /// <summary>See <see cref="LeastEdgeShare"/>.</summary>
    public const double GoodEdgeShare = 2;

    /// <summary>What stays between two holes, in thicknesses (common practice, no source).</summary>
    public const double LeastWebShare = 1;

    private const double SlackMm = 1e-6;

    /// <summary>Checks a panel.</summary>
    internal static void Check(Inspection panel)
    {
        Edges(panel);
        Webs(panel);
    }

    private static void Edges(Inspection panel)
    {
        var (laid, plate) = (panel.Laid.Panel, panel.Desk.Stack.PlateMm);
        foreach (var hole in panel.Laid.Parts.SelectMany(Opening.Of))
        {
            var edge = hole.ToEdgeMm(laid.WidthMm, laid.HeightMm, laid.CornerMm);
            if (edge < 0)
            {
                // The layout tells of it.
                continue;
            }

            var fastener = panel.IsFastener(hole.Part) ? Math.Max(0, (FastenerToEdgeShare * hole.AcrossMm) - (hole.AcrossMm / 2)) : 0;
            var least = Math.Max(fastener, LeastEdgeShare * plate);

            // Drilled before the plate is snapped, it lies in the way of the crack.
            var drilledFirst = panel.Desk.Order == WorkOrder.DrillThenGlue;
            var good = GoodEdgeShare * plate;
            if (edge >= Math.Max(least, good) - SlackMm)
            {
                continue;
            }

            var (item, span) = (hole.Part.Origin.Item, hole.Part.Origin.Span);
            var found = $"the hole of {Shown.Code(item)} lies {Shown.Mm(edge, 1)} from the plate's edge";
            panel.Findings.Add(
                edge < least - SlackMm
                    ? Finding.Warn(
                        "hole-near-edge",
                        $"{found}; at least {Shown.Mm(least, 1)} should stay{(fastener > plate ? ", one diameter of a screw hole" : ", once the plate's thickness")} (from memory)",
                        "move it inwards",
                        span,
                        item)
                    : drilledFirst
                        ? Finding.Warn(
                            "hole-near-edge",
                            $"{found}, and it is drilled before the edge is snapped; with less than {Shown.Mm(good, 1)}, twice the thickness, a crack may run into it (from memory)",
                            "move it inwards, or snap before you drill",
                            span,
                            item)
                        : Finding.Note(
                            "hole-near-edge",
                            $"{found}; with less than {Shown.Mm(good, 1)}, twice the thickness, it cracks easily (from memory)",
                            "drill it slowly on a board, and don't pull the screw tight",
                            span,
                            item),
                edge,
                hole.Part.Origin);
        }
    }

    private static void Webs(Inspection panel)
    {
        var plate = panel.Desk.Stack.PlateMm;
        var holes = panel.Laid.Parts.SelectMany(Opening.Of).ToList();
        var reach = Math.Max(LeastWebShare * plate, holes.Where(hole => panel.IsFastener(hole.Part)).Select(hole => hole.AcrossMm).DefaultIfEmpty().Max());
        foreach (var (first, second) in Neighbours.Pairs([.. holes.Select(hole => hole.Bounds)], reach))
        {
            // Holes of one part are as its maker has them.
            var (one, other) = (holes[first], holes[second]);
            if (ReferenceEquals(one.Part, other.Part))
            {
                continue;
            }

            var web = one.WebMm(other);
            var screws = panel.IsFastener(one.Part) && panel.IsFastener(other.Part);
            var least = Math.Max(LeastWebShare * plate, screws ? (FastenerPitchShare * Math.Max(one.AcrossMm, other.AcrossMm)) - ((one.AcrossMm + other.AcrossMm) / 2) : 0);
            if (web > SlackMm && web < least - SlackMm)
            {
                panel.Findings.Add(
                    Finding.Warn(
                        "holes-close",
                        $"{Shown.Mm(web, 1)} of plate stay between the holes of {Shown.Code(one.Part.Origin.Item)} and {Shown.Code(other.Part.Origin.Item)}; it takes {Shown.Mm(least, 1)}{(screws ? ", middles two diameters apart (from memory)" : ", once the plate's thickness (common practice, no source)")}",
                        "move one of them",
                        other.Part.Origin.Span,
                        other.Part.Origin.Item),
                    web - least,
                    other.Part.Origin,
                    one.Part.Origin);
            }
        }
    }
}
