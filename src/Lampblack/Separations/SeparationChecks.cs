using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.Separations;

/// <summary>What can go wrong between the two sides.</summary>
internal static class SeparationChecks
{
    public static ImmutableArray<Finding> Check(PanelSeparation separation)
    {
        var findings = new List<Finding>();
        var visible = separation.Shapes.Visible.Where(mark => mark.Style.Ink is not null).ToList();
        var shining = visible.Where(Separator.Shines).Select(mark => (Mark: mark, Opening: mark.Shape.Grow(separation.SpreadMm))).ToList();
        var holes = new HoleFinder(separation.Artwork.Holes);
        OffThePanel(separation, holes, findings);
        foreach (var (mark, opening) in shining)
        {
            AtTheEdge(separation, mark, opening, holes, findings);
        }

        Meeting(shining, separation.SpreadMm, findings);
        UnlitTooNear(shining, visible, separation.SpreadMm, findings);
        FieldNotBlack(separation, findings);
        return [.. findings];
    }

    private static void OffThePanel(PanelSeparation separation, HoleFinder holes, List<Finding> findings)
    {
        var outline = separation.Artwork.Laid.Outline;
        foreach (var mark in separation.Artwork.Nothing)
        {
            findings.Add(Finding.Warn(
                "mark-empty", $"{Name(mark)} has no size, so nothing of it is printed", "give it a length and a width, or delete it", mark.Origin.Span, mark.Origin.Item));
        }

        foreach (var mark in separation.Artwork.Marks)
        {
            if (!outline.Touches(mark.Shape))
            {
                findings.Add(Finding.Warn(
                    "mark-off-panel", $"{Name(mark)} lies off the panel, so nothing of it is printed", "move it onto the panel", mark.Origin.Span, mark.Origin.Item));
            }
            else if (!outline.Contains(mark.Shape) && mark.Style.Role != LightRole.Unlit)
            {
                findings.Add(Finding.Warn(
                    "mark-off-panel", $"{Name(mark)} reaches over the panel's edge and will be cut", "move it inwards", mark.Origin.Span, mark.Origin.Item));
            }
            else if (holes.Meet(mark.Shape) && mark.Style is not { Role: LightRole.Unlit, Ink: null })
            {
                findings.Add(Finding.Warn(
                    "mark-in-hole", $"{Name(mark)} runs into a hole and will be cut", "move it, or the hole", mark.Origin.Span, mark.Origin.Item));
            }
        }
    }

    private static void AtTheEdge(
        PanelSeparation separation, Mark mark, Region<PanelSpace> opening, HoleFinder holes, List<Finding> findings)
    {
        if (separation.Artwork.Laid.Outline.Contains(mark.Shape) && !separation.Artwork.Laid.Outline.Contains(opening))
        {
            findings.Add(Finding.Warn(
                "opening-at-edge",
                $"the opening behind {Name(mark)} reaches the panel's edge, where light will leak",
                string.Create(CultureInfo.InvariantCulture, $"keep lit marks {separation.SpreadMm} mm or more away from the edge"),
                mark.Origin.Span,
                mark.Origin.Item));
        }

        if (holes.Meet(opening) && !holes.Meet(mark.Shape))
        {
            findings.Add(Finding.Warn(
                "opening-at-hole",
                $"the opening behind {Name(mark)} reaches a hole, where light will leak around the part",
                string.Create(CultureInfo.InvariantCulture, $"keep lit marks {separation.SpreadMm} mm or more away from holes"),
                mark.Origin.Span,
                mark.Origin.Item));
        }
    }

    /// <summary>Each mark is told of the first one that it meets: among thousands in one place more would only hide the cause.</summary>
    private static void Meeting(List<(Mark Mark, Region<PanelSpace> Opening)> shining, double spreadMm, List<Finding> findings)
    {
        for (var second = 1; second < shining.Count; second++)
        {
            for (var first = 0; first < second; first++)
            {
                var (a, b) = (shining[first], shining[second]);
                if (!Differ(a.Mark, b.Mark) || !a.Opening.Bounds.Overlaps(b.Opening.Bounds) || !a.Opening.Touches(b.Opening))
                {
                    continue;
                }

                findings.Add(Finding.Warn(
                    "openings-meet",
                    $"the openings behind {Name(a.Mark)} and {Name(b.Mark)} meet, and they differ in {(a.Mark.Style.Role != b.Mark.Style.Role ? "light role" : "colour")}: light of one will show in the other",
                    string.Create(CultureInfo.InvariantCulture, $"keep them {2 * spreadMm:0.##} mm or more apart"),
                    b.Mark.Origin.Span,
                    b.Mark.Origin.Item));
                break;
            }
        }
    }

    private static void UnlitTooNear(
        List<(Mark Mark, Region<PanelSpace> Opening)> shining, List<Mark> visible, double spreadMm, List<Finding> findings)
    {
        var unlit = visible.Where(mark => mark.Style.Role == LightRole.Unlit).ToList();

        // The mask may be off by the spread itself, so black behind an unlit mark is sure only beyond twice the spread.
        var least = 2 * spreadMm;
        foreach (var mark in unlit)
        {
            var near = shining.FirstOrDefault(pair =>
                pair.Mark.Shape.Bounds.Grow(least).Overlaps(mark.Shape.Bounds) && pair.Mark.Shape.DistanceMm(mark.Shape) < least);
            if (near.Mark is not null)
            {
                findings.Add(Finding.Warn(
                    "unlit-near-lit",
                    $"{Name(mark)} is not to shine but stands nearer than {least.ToString("0.##", CultureInfo.InvariantCulture)} mm to {Name(near.Mark)}, which does: its edge may glow",
                    "move them apart, or make both lit",
                    mark.Origin.Span,
                    mark.Origin.Item));
            }
        }
    }

    private static void FieldNotBlack(PanelSeparation separation, List<Finding> findings)
    {
        if (separation.Artwork.Laid.Panel.Field is not null)
        {
            findings.Add(Finding.Note(
                "field-not-black",
                "the field is not black, so only the mask holds the light back",
                "expect brighter halos; print the mask twice, or keep the field black",
                separation.Artwork.Laid.Panel.Span,
                separation.Artwork.Laid.Panel.Id));
        }
    }

    private static bool Differ(Mark first, Mark second) =>
        first.Style.Role != second.Style.Role || first.Style.Ink != second.Style.Ink;

    private static string Name(Mark mark) => mark.Name is "area" or "rule" or "range" or "dial" or "leader"
        ? $"the {mark.Name} of `{mark.Origin.Item}`"
        : Shown.Code(mark.Name);

    /// <summary>Finds the hole that something meets. One by one, because holes that are many and far apart are slow to compare as a whole.</summary>
    private sealed class HoleFinder(Region<PanelSpace> holes)
    {
        private readonly ImmutableArray<Region<PanelSpace>> _holes = holes.Pieces;

        /// <summary>Whether a hole shares a point with a shape.</summary>
        public bool Meet(Region<PanelSpace> shape) => _holes.Any(shape.Touches);
    }
}
