using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Imaging;

namespace Lampblack.Separations;

/// <summary>What can go wrong between the two sides of a picture in dots.</summary>
internal static class DotChecks
{
    /// <param name="separation">The separated panel.</param>
    /// <param name="seen">Its marks as far as they are seen, one for each of the artwork's.</param>
    public static ImmutableArray<Finding> Check(PanelSeparation separation, ImmutableArray<Mark> seen)
    {
        var findings = new List<Finding>();
        NotSeen(separation, seen, findings);
        foreach (var layer in separation.Shapes.Dots.Where(layer => layer.ShownDots > 0))
        {
            Check(separation, layer, findings);
        }

        return [.. findings];
    }

    /// <summary>Artwork of which nothing is seen, whether it is areas or dots.</summary>
    private static void NotSeen(PanelSeparation separation, ImmutableArray<Mark> seen, List<Finding> findings)
    {
        var outline = separation.Artwork.Laid.Outline;
        var visible = seen.Where(mark => mark.Kind == MarkKind.Art && mark.Style.Ink is not null && !mark.Shape.IsEmpty && mark.Shape.Touches(outline)).Select(mark => mark.Origin)
            .Concat(separation.Shapes.Dots.Where(layer => layer.ShownDots > 0).Select(layer => layer.Mark.Origin)).ToHashSet();
        findings.AddRange(separation.Artwork.Laid.Arts.Where(art => !visible.Contains(art.Origin)).Select(art => Finding.Warn(
            "art-not-seen",
            $"nothing of the artwork of `{art.Origin.Item}` is seen",
            "it lies off the panel, or all of it is field or lies under other marks",
            art.Origin.Span,
            art.Origin.Item)));
    }

    private static void Check(PanelSeparation separation, DotLayer layer, List<Finding> findings)
    {
        var mark = layer.Mark;
        if (layer.Opening is not { } opening)
        {
            return;
        }

        var laid = separation.Artwork.Laid;
        var spread = separation.SpreadMm.ToString("0.##", CultureInfo.InvariantCulture);
        if (Meets(separation.Artwork.Holes))
        {
            findings.Add(Finding.Warn(
                "opening-at-hole",
                $"an opening behind {Name(mark)} reaches a hole, where light will leak around the part",
                $"keep what shines {spread} mm or more away from holes, or ring the hole with field",
                mark.Origin.Span,
                mark.Origin.Item));
        }

        // The outline's own rim, as wide as two dots: what lies on it reaches the edge.
        var rimMm = 2 * mark.MmPerDot;
        if (Meets(Rim(Math.Max(rimMm, laid.CutErrorMm))))
        {
            findings.Add(Finding.Warn(
                "opening-at-edge",
                $"an opening behind {Name(mark)} {(Meets(Rim(rimMm)) ? SeparationChecks.AtEdge(0, laid.CutErrorMm) : string.Create(CultureInfo.InvariantCulture, $"ends less than {laid.CutErrorMm:0.##} mm from the panel's edge, as far as a cut there may be off: light may leak"))}",
                string.Create(CultureInfo.InvariantCulture, $"keep what shines {separation.SpreadMm + laid.CutErrorMm:0.##} mm or more away from the edge, or paint a frame of field around it"),
                mark.Origin.Span,
                mark.Origin.Item));
        }

        foreach (var other in separation.Shapes.Visible.Where(other => Separator.Shines(other) && other.Style.Role != mark.Style.Role && other.Kind != MarkKind.Art))
        {
            if (Meets(Separator.OpeningOf(other, separation.SpreadMm)))
            {
                findings.Add(Finding.Warn(
                    "openings-meet",
                    $"the openings behind {Name(mark)} and {SeparationChecks.Name(other)} meet, and one of them is hidden, the other always lit: light of one will show in the other",
                    $"keep them {(2 * separation.SpreadMm).ToString("0.##", CultureInfo.InvariantCulture)} mm or more apart",
                    other.Origin.Span,
                    other.Origin.Item));
            }
        }

        var unlit = separation.Shapes.Visible.Where(other => other.Style.Role == LightRole.Unlit && other.Style.Ink is not null && other.Kind != MarkKind.Art).ToList();
        if (unlit.FirstOrDefault(other => Meets(other.Shape.Grow(separation.SpreadMm))) is { } near)
        {
            findings.Add(Finding.Warn(
                "unlit-near-lit",
                $"{SeparationChecks.Name(near)} is not to shine but stands near {Name(mark)}, which does: its edge may glow",
                "move them apart, or make both lit",
                near.Origin.Span,
                near.Origin.Item));
        }

        Region<PanelSpace> Rim(double widthMm) => laid.Outline.Except(laid.Outline.Grow(-widthMm));

        bool Meets(Region<PanelSpace> region) => !region.IsEmpty
            && opening.And(RegionDots.Of(region, layer.Placement.Inverse(), opening.WidthDots, opening.HeightDots)).Count() > 0;
    }

    private static string Name(DotMark mark) => $"the {mark.Name} of `{mark.Origin.Item}`";
}
