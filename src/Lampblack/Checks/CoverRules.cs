using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Layout;
using Lampblack.Parts;

namespace Lampblack.Checks;

/// <summary>
/// The cover rule: what stands on the panel covers the hole, the drill's error and the error of the cut in the paper all round, or a ring of light shows.
/// Shop practice; the two errors are the maker's own, in <c>[bench]</c>.
/// </summary>
internal static class CoverRules
{
    private const double SlackMm = 1e-6;

    // A flattened circle lies inside the true one by no more than this.
    private const double ChordMm = 0.02;

    public static void Check(Inspection panel)
    {
        var bench = panel.Desk.Bench;
        var least = bench.DrillErrorMm + bench.PaperErrorMm;
        var covers = new Dictionary<Part, double?>(ReferenceEqualityComparer.Instance);
        foreach (var part in panel.Laid.Parts)
        {
            // Every copy of a part covers alike.
            if (!covers.TryGetValue(part.Part, out var cover))
            {
                covers.Add(part.Part, cover = CoverMm(part.Part));
            }

            if (cover is { } covered && covered < least - SlackMm)
            {
                panel.Findings.Add(
                    "cover-short",
                    Severity.Warn,
                    () => Finding.Warn(
                        "cover-short",
                        $"the nut, washer or bezel of {Shown.Code(part.Origin.Item)} reaches {Shown.Mm(covered, 2)} past its hole; drill error and paper-cut error together are {Shown.Mm(least, 2)} ({Shown.Number(bench.DrillErrorMm)} + {Shown.Number(bench.PaperErrorMm)}, shop practice), and beyond that a ring of light shows",
                        $"put a washer of {Shown.Mm(part.Part.Cutout.Shape().Bounds.WidthMm + (2 * least), 2)} under the nut and write it as `bezel` in `[[caliper]]`, or drill more exactly and say so in `[bench]`",
                        part.Origin.Span,
                        part.Origin.Item),
                    covered - least,
                    part.Origin);
            }
        }

        foreach (var part in panel.Laid.Parts.Where(part => !part.Part.ExtraHoles.IsEmpty))
        {
            Tabs(panel, part, bench.DrillErrorMm);
        }
    }

    /// <summary>How far the bezel reaches past the main hole where it reaches least; exact for round ones.</summary>
    private static double? CoverMm(Part part) => part is { Bezel: RoundCutout bezel, Cutout: RoundCutout hole, Key: null }
        ? (bezel.Diameter.Mm - hole.Diameter.Mm) / 2
        : part.CoverMm is { } cover ? cover + ChordMm : null;

    /// <summary>Holes for tabs and lugs against turning: nothing but nut, washer or knob covers them.</summary>
    private static void Tabs(Inspection panel, PlacedPart placed, double drillErrorMm)
    {
        var part = placed.Part;
        foreach (var hole in part.ExtraHoles.Where(hole => !hole.Purpose.StartsWith("screw", StringComparison.Ordinal)))
        {
            var reach = Math.Sqrt((hole.XMm * hole.XMm) + (hole.YMm * hole.YMm)) + (hole.Diameter.Mm / 2) + drillErrorMm;
            var covered = Math.Max(part.KnobDiameter?.Mm ?? 0, part.Bezel is RoundCutout round ? round.Diameter.Mm : 0) / 2;
            if (reach > covered + SlackMm && part.Bezel is null or RoundCutout)
            {
                panel.Findings.Add(
                    Finding.Warn(
                        "tab-hole-open",
                        $"the hole for the {hole.Purpose} of {Shown.Code(placed.Origin.Item)} reaches {Shown.Mm(reach, 2)} from the middle, the drill's error included; knob and nut cover {Shown.Mm(covered, 2)}",
                        "drill it from behind and not through the print, snip the tab off, or take a larger knob",
                        placed.Origin.Span,
                        placed.Origin.Item),
                    covered - reach,
                    placed.Origin);
            }
        }
    }
}
