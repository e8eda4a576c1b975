using System.Collections.Generic;
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

        Overlaps(laid, findings);
    }

    /// <summary>Reports parts whose holes run into each other: once for all copies of an item, which go wrong together.</summary>
    private static void Overlaps(LaidPanel laid, List<Finding> findings)
    {
        var holes = laid.Parts.SelectMany((part, number) => part.Holes.Select(hole => (Part: number, Hole: hole))).ToList();
        var index = new RegionIndex<PanelSpace>(holes.Select(pair => pair.Hole));
        var told = new HashSet<(SourceSpan First, SourceSpan Second)>();
        foreach (var (first, hole) in holes)
        {
            foreach (var (second, other) in index.Near(hole.Bounds).Select(place => holes[place]))
            {
                if (second <= first || !hole.Touches(other) || !told.Add((laid.Parts[first].Origin.Span, laid.Parts[second].Origin.Span)))
                {
                    continue;
                }

                var (one, two) = (laid.Parts[first].Origin, laid.Parts[second].Origin);
                findings.Add(Finding.Stop(
                    "holes-overlap", $"the holes of `{one.Item}` and `{two.Item}` run into each other", "move one of them", two.Span, two.Item));
            }
        }
    }
}
