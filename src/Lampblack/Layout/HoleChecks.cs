using System.Collections.Generic;
using System.Globalization;
using Lampblack.Findings;

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

        for (var first = 0; first < laid.Parts.Length; first++)
        {
            for (var second = first + 1; second < laid.Parts.Length; second++)
            {
                CheckPair(laid.Parts[first], laid.Parts[second], findings);
            }
        }
    }

    private static void CheckPair(PlacedPart first, PlacedPart second, List<Finding> findings)
    {
        foreach (var hole in first.Holes)
        {
            foreach (var other in second.Holes)
            {
                if (!hole.Bounds.Overlaps(other.Bounds) || !hole.Touches(other))
                {
                    continue;
                }

                findings.Add(Finding.Stop(
                    "holes-overlap",
                    $"the holes of `{first.Origin.Item}` and `{second.Origin.Item}` run into each other",
                    "move one of them",
                    second.Origin.Span,
                    second.Origin.Item));
                return;
            }
        }
    }
}
