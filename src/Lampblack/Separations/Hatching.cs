using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Separations;

/// <summary>
/// Turns filled shapes in colours into hatches of bare paper and black. The hatch is made on the front, where edges are sharp; the mask opens behind
/// the whole shape, so that by day and lit the same pattern is seen and the promise of the spread holds for its every line.
/// </summary>
internal static class Hatching
{
    /// <summary>What stands on a hatch gets a plain border of this, black around bright marks and bare around dark ones, or nobody could read it.</summary>
    private const double BorderMm = 0.5;

    /// <summary>Words get a wider one: letters are thin beside a hatch's lines.</summary>
    private const double WordBorderMm = 1.1;

    /// <summary>The marks with their hatches, one for each that was given.</summary>
    /// <param name="seen">What is left of each mark after later ones were laid over it, in the order of painting.</param>
    /// <param name="key">Which hatch stands for which ink.</param>
    public static ImmutableArray<Mark> Apply(ImmutableArray<Mark> seen, HatchKey key)
    {
        var index = new RegionIndex<PanelSpace>(seen.Select(mark => mark.Shape));
        return [.. seen.Select((mark, place) => mark.Shape.IsEmpty || !HatchKey.CanHatch(mark) || key.PatternOf(mark.Style.Ink!) is not { } pattern
            ? mark
            : Hatched(mark, pattern, [.. index.Near(mark.Shape.Bounds.Grow(2 * WordBorderMm)).Where(later => later > place).Select(later => seen[later])]))];
    }

    private static Mark Hatched(Mark mark, HatchPattern pattern, IReadOnlyList<Mark> over)
    {
        var bare = Hatch.Bare(pattern, mark.Shape, mark.Course);

        // Ranges of one dial only follow each other; whatever else touches a hatch stands on it.
        var near = over.Where(other => !MarkInks.IsHidden(other) && other.Course is null && other.Shape.Touches(mark.Shape)).ToLookup(other => other.Style.Ink is null, Around);
        bare = bare.Union(Region<PanelSpace>.Union(near[true]).Intersect(mark.Shape)).Except(Region<PanelSpace>.Union(near[false]));
        return mark with { Shape = bare, Extent = mark.Shape, Style = mark.Style with { Ink = Ink.None, Backed = false } };
    }

    /// <summary>What stays plain around a mark. Around words also what lies between their letters, or crumbs of the hatch would be left there.</summary>
    private static Region<PanelSpace> Around(Mark mark) =>
        mark.Kind == MarkKind.Text ? mark.Shape.Grow(2 * WordBorderMm).Grow(-WordBorderMm) : mark.Shape.Grow(BorderMm);
}
