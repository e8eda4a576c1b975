using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.Layout;

/// <summary>Checks that holes lie on the plate and apart: the least without which nothing can be drilled.</summary>
internal static class HoleChecks
{
    public static void Check(LaidPanel laid, List<Finding> findings)
    {
        foreach (var part in laid.Parts)
        {
            foreach (var hole in part.Holes)
            {
                if (!laid.Outline.Contains(hole))
                {
                    findings.Add(Finding.Stop(
                        "hole-off-panel",
                        string.Create(CultureInfo.InvariantCulture, $"the hole of `{part.Origin.Item}` reaches over the edge of its {laid.Panel.WidthMm} x {laid.Panel.HeightMm} mm panel"),
                        "move it inwards, or make the panel larger",
                        part.Origin.Span,
                        part.Origin.Item));
                    break;
                }
            }
        }

        Overlaps(laid.Parts, findings);
    }

    /// <summary>Reports each part whose holes run into those of an earlier one: once, and only once for all copies of an item, which go wrong together.</summary>
    private static void Overlaps(ImmutableArray<PlacedPart> parts, List<Finding> findings)
    {
        var boxes = parts.Select(part => part.Holes.Select(hole => hole.Bounds).ToImmutableArray()).ToList();
        var told = new HashSet<(SourceSpan First, SourceSpan Second)>();
        for (var second = 1; second < parts.Length; second++)
        {
            for (var first = 0; first < second; first++)
            {
                if (!Overlap(parts[first], boxes[first], parts[second], boxes[second]))
                {
                    continue;
                }

                var (one, other) = (parts[first].Origin, parts[second].Origin);
                if (told.Add((one.Span, other.Span)))
                {
                    findings.Add(Finding.Stop(
                        "holes-overlap", $"the holes of `{one.Item}` and `{other.Item}` run into each other", "move one of them", other.Span, other.Item));
                }

                break;
            }
        }
    }

    private static bool Overlap(
        PlacedPart first, ImmutableArray<Box<PanelSpace>> firstBoxes, PlacedPart second, ImmutableArray<Box<PanelSpace>> secondBoxes)
    {
        for (var hole = 0; hole < firstBoxes.Length; hole++)
        {
            for (var other = 0; other < secondBoxes.Length; other++)
            {
                if (firstBoxes[hole].Overlaps(secondBoxes[other]) && first.Holes[hole].Touches(second.Holes[other]))
                {
                    return true;
                }
            }
        }

        return false;
    }
}
