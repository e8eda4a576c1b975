using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Quantities;

namespace Lampblack.Separations;

/// <summary>What can go wrong between the two sides.</summary>
internal static class SeparationChecks
{
    // A halftone of less than this is told from solid black at reading distance; ours, to be judged on a printed sheet.
    private const double LeastCoverShare = 0.9;

    // Nearer than this to the edge nothing is left in between that could be printed.
    private const double EdgeMm = 0.05;

    /// <param name="separation">The separated panel.</param>
    /// <param name="seen">Its marks as far as they are seen, one for each of the artwork's; empty where nothing is seen.</param>
    public static ImmutableArray<Finding> Check(PanelSeparation separation, ImmutableArray<Mark> seen)
    {
        var findings = new List<Finding>();
        var visible = separation.Shapes.Visible.Where(mark => mark.Style.Ink is not null).ToList();
        var shining = visible.Where(Separator.Shines).Select(mark => new Shining(mark, separation.SpreadMm)).ToList();
        var holes = new Holes(separation.Artwork.Holes);
        OffThePanel(separation, holes, findings);
        NotSeen(separation, seen, findings);
        foreach (var mark in shining)
        {
            AtTheEdge(separation, holes, mark, findings);
        }

        Meeting(shining, separation.SpreadMm, findings);
        UnlitTooNear(shining, visible, separation.SpreadMm, findings);
        FieldNotBlack(separation, findings);
        ThinCovers(visible, findings);
        HiddenSeen(separation, visible, findings);
        return [.. findings];
    }

    private static void OffThePanel(PanelSeparation separation, Holes holes, List<Finding> findings)
    {
        var outline = separation.Artwork.Laid.Outline;
        // Artwork runs on over the edge, and its holes are its own.
        foreach (var mark in separation.Artwork.Marks.Where(mark => !mark.Shape.IsEmpty && mark.Kind != MarkKind.Art))
        {
            if (outline.Touches(mark.Shape) && !outline.Contains(mark.Shape) && (mark.Kind == MarkKind.Text || mark.Style.Role != LightRole.Unlit))
            {
                findings.Add(Finding.Warn(
                    "mark-off-panel", $"{Name(mark)} reaches over the panel's edge and will be cut", "move it inwards", mark.Origin.Span, mark.Origin.Item));
            }
            else if (holes.Touch(mark.Shape) && mark.Style is not { Role: LightRole.Unlit, Ink: null })
            {
                findings.Add(Finding.Warn(
                    "mark-in-hole", $"{Name(mark)} runs into a hole and will be cut", "move it, or the hole", mark.Origin.Span, mark.Origin.Item));
            }
        }
    }

    /// <summary>No mark is dropped in silence.</summary>
    private static void NotSeen(PanelSeparation separation, ImmutableArray<Mark> seen, List<Finding> findings)
    {
        var marks = separation.Artwork.Marks;
        var index = new RegionIndex<PanelSpace>(marks.Select(mark => mark.Shape));
        for (var place = 0; place < marks.Length; place++)
        {
            // Of artwork, all of it is looked at at once (ArtChecks).
            if (marks[place].Kind != MarkKind.Art && Why(place) is var (why, hint))
            {
                findings.Add(Finding.Warn("mark-not-seen", $"{Name(marks[place])} {why}", hint, marks[place].Origin.Span, marks[place].Origin.Item));
            }
        }

        (string Why, string Hint)? Why(int place)
        {
            var mark = marks[place];
            if (mark.Shape.IsEmpty)
            {
                return ("has no area, so nothing of it is printed", "look at its sizes: two of its points may be the same");
            }

            if (!separation.Artwork.Laid.Outline.Touches(mark.Shape))
            {
                return ("lies off the panel, so nothing of it is seen", "places are mm from the panel's lower-left corner");
            }

            if (seen[place].Shape.IsEmpty)
            {
                return ("is wholly covered by marks that lie over it, or lies in a hole", "move one of them, or delete it");
            }

            return mark.Style.Ink is null && !index.Near(mark.Shape.Bounds).Any(under => under < place && marks[under].Shape.Touches(mark.Shape))
                ? ("is in the field's own ink and lies on the bare field, where it can't be told from it", "give it another `ink`; `black` is seen only on a field that is not black")
                : null;
        }
    }

    private static void AtTheEdge(PanelSeparation separation, Holes holes, Shining shining, List<Finding> findings)
    {
        var (mark, outline) = (shining.Mark, separation.Artwork.Laid.Outline);
        var errorMm = separation.Artwork.Laid.CutErrorMm;
        if (!outline.Contains(Region<PanelSpace>.Rectangle(shining.Box.Grow(errorMm))) && (mark.Kind == MarkKind.Art || outline.Contains(mark.Shape)) && ToEdgeMm(outline, shining.Opening) is var edgeMm && (edgeMm <= 0 || edgeMm < errorMm - Resolution.SpreadErrorMm))
        {
            findings.Add(Finding.Warn(
                "opening-at-edge",
                $"the opening behind {Name(mark)} {AtEdge(edgeMm, errorMm)}",
                mark.Style.Role == LightRole.Hidden
                    ? string.Create(CultureInfo.InvariantCulture, $"keep hidden marks {errorMm:0.##} mm or more away from the edge")
                    : string.Create(CultureInfo.InvariantCulture, $"keep lit marks {separation.SpreadMm + errorMm:0.##} mm or more away from the edge"),
                mark.Origin.Span,
                mark.Origin.Item));
        }

        if (holes.Near(shining.Box) && holes.Touch(shining.Opening) && (mark.Kind == MarkKind.Art || !holes.Touch(mark.Shape)))
        {
            findings.Add(Finding.Warn(
                "opening-at-hole",
                $"the opening behind {Name(mark)} reaches a hole, where light will leak around the part",
                string.Create(CultureInfo.InvariantCulture, $"keep lit marks {separation.SpreadMm} mm or more away from holes"),
                mark.Origin.Span,
                mark.Origin.Item));
        }
    }

    /// <summary>How far an opening stays from the panel's edge, in mm; 0 where it reaches it.</summary>
    private static double ToEdgeMm(Region<PanelSpace> outline, Region<PanelSpace> opening) =>
        outline.Contains(opening) ? Region<PanelSpace>.Rectangle(outline.Bounds.Grow(1)).Except(outline).DistanceMm(opening) : 0;

    /// <summary>What is said of an opening at the panel's edge.</summary>
    internal static string AtEdge(double edgeMm, double errorMm) => edgeMm < EdgeMm
        ? "reaches the panel's edge, where light will leak"
        : string.Create(CultureInfo.InvariantCulture, $"ends {edgeMm:0.##} mm from the panel's edge, and a cut there may be {errorMm:0.##} mm off: light may leak");

    /// <summary>Each mark is told of the first one that it meets: among thousands in one place more would only hide the cause.</summary>
    private static void Meeting(List<Shining> shining, double spreadMm, List<Finding> findings)
    {
        var told = new PairFindings();
        var index = new RegionIndex<PanelSpace>(shining.Select(mark => Region<PanelSpace>.Rectangle(mark.Box)));
        for (var first = 0; first < shining.Count; first++)
        {
            foreach (var second in index.Near(shining[first].Box).Where(second => second > first))
            {
                var (a, b) = (shining[first], shining[second]);
                if (!Differ(a.Mark, b.Mark) || (a.Mark.Kind == MarkKind.Art && a.Mark.Origin == b.Mark.Origin) || !a.Opening.Touches(b.Opening))
                {
                    continue;
                }

                var why = a.Mark.Style.Role != b.Mark.Style.Role ? "one of them is hidden, the other always lit" : "they differ in colour";
                var finding = Finding.Warn(
                    "openings-meet",
                    $"the openings behind {Name(a.Mark)} and {Name(b.Mark)} meet, and {why}: light of one will show in the other",
                    string.Create(CultureInfo.InvariantCulture, $"keep them {2 * spreadMm:0.##} mm or more apart"),
                    b.Mark.Origin.Span,
                    b.Mark.Origin.Item);
                told.Add(a.Mark.Origin, b.Mark.Origin, finding, why);
                break;
            }
        }

        findings.AddRange(told.All);
    }

    private static void UnlitTooNear(
        List<Shining> shining, List<Mark> visible, double spreadMm, List<Finding> findings)
    {
        var index = new RegionIndex<PanelSpace>(shining.Select(pair => pair.Mark.Extent));

        // The mask may be off by the spread itself, so black behind an unlit mark is sure only beyond twice the spread.
        var least = 2 * spreadMm;
        // Full K is what the field's own edge is made of, so black words in a glowing area are no worse than the field around it.
        foreach (var mark in visible.Where(mark => mark.Style.Role == LightRole.Unlit && mark.Style.Ink != Ink.FullK && mark.Kind != MarkKind.Art))
        {
            var near = index.Near(mark.Shape.Bounds.Grow(least)).Select(place => shining[place])
                .FirstOrDefault(pair => pair.Mark.Extent.DistanceMm(mark.Shape) < least);
            if (near is not null)
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

    private static void ThinCovers(List<Mark> visible, List<Finding> findings)
    {
        foreach (var mark in visible.Where(mark => mark.Style is { Role: LightRole.Hidden, CoverShare: < LeastCoverShare }))
        {
            findings.Add(Finding.Warn(
                "cover-thin",
                string.Create(CultureInfo.InvariantCulture, $"{Name(mark)} is hidden under {mark.Style.CoverShare * 100:0} % of a K layer and can be read by day"),
                "`cover = 1` hides it best; print one sheet and look at it by day and lit before you choose less",
                mark.Origin.Span,
                mark.Origin.Item));
        }
    }

    /// <summary>A cover hides only where black lies all around it.</summary>
    private static void HiddenSeen(PanelSeparation separation, List<Mark> visible, List<Finding> findings)
    {
        var index = new RegionIndex<PanelSpace>(visible.Select(mark => mark.Shape));
        foreach (var mark in visible.Where(MarkInks.IsHidden))
        {
            var around = separation.Artwork.Laid.Panel.Field is not null ? "a field that is not black"
                : index.Near(mark.Shape.Bounds).Select(place => visible[place])
                    .FirstOrDefault(other => !MarkInks.IsHidden(other) && other.Shape.Touches(mark.Shape)) is { } other ? Name(other) : null;
            if (around is not null)
            {
                findings.Add(Finding.Warn(
                    "hidden-seen",
                    $"{Name(mark)} is to be hidden, but its black cover lies on {around}, where it can be seen by day",
                    "put it where the field is black all around it",
                    mark.Origin.Span,
                    mark.Origin.Item));
            }
        }
    }

    private static bool Differ(Mark first, Mark second) =>
        first.Style.Role != second.Style.Role || first.Style.Ink != second.Style.Ink;

    internal static string Name(Mark mark) => mark.Kind == MarkKind.Text
        ? Shown.Code(mark.Name)
        : $"the {mark.Name} of `{mark.Origin.Item}`";

    /// <summary>The holes one by one: a mark is held against those near it only.</summary>
    private sealed class Holes(Region<PanelSpace> holes)
    {
        private readonly ImmutableArray<Region<PanelSpace>> _pieces = holes.Pieces;
        private readonly RegionIndex<PanelSpace> _index = new(holes.Pieces);

        public bool Near(Box<PanelSpace> box) => !_index.Near(box).IsEmpty;

        public bool Touch(Region<PanelSpace> shape) => _index.Near(shape.Bounds).Any(place => _pieces[place].Touches(shape));
    }

    /// <summary>A mark that light comes through. Most stand far from everything, which a box tells; only for the others the opening is drawn.</summary>
    private sealed class Shining(Mark mark, double spreadMm)
    {
        private Region<PanelSpace>? _opening;

        public Mark Mark => mark;

        /// <summary>Holds the opening.</summary>
        public Box<PanelSpace> Box { get; } = mark.Extent.Bounds.Grow(spreadMm + Resolution.SpreadErrorMm);

        public Region<PanelSpace> Opening => _opening ??= Separator.OpeningOf(mark, spreadMm);
    }
}
