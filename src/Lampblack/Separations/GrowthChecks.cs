using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.Separations;

/// <summary>Where black could not be pulled back by as much as toner grows.</summary>
internal static class GrowthChecks
{
    /// <param name="separation">The separated panel.</param>
    /// <param name="onFront">Strokes of the front's black that are pulled back less.</param>
    /// <param name="onMask">The same of the mask's.</param>
    public static IEnumerable<Finding> Check(PanelSeparation separation, ImmutableArray<Region<PanelSpace>> onFront, ImmutableArray<Region<PanelSpace>> onMask)
    {
        foreach (var (side, strokes) in new[] { ("front", onFront), ("mask", onMask) })
        {
            if (strokes.IsEmpty)
            {
                continue;
            }

            var (panel, needMm) = (separation.Artwork.Laid.Panel, (2 * separation.PullBackMm) + PulledBack.LeastStrokeMm);
            var around = strokes[0].Grow(separation.PullBackMm + separation.SpreadMm);
            var near = separation.Shapes.Visible.FirstOrDefault(mark => Separator.Knocks(mark) && mark.Shape.Touches(around));
            var found = string.Create(
                CultureInfo.InvariantCulture,
                $"panel `{panel.Id}`: {strokes.Length} {(strokes.Length == 1 ? "stroke" : "strokes")} of black on the {side}, the first {(near is null ? "between openings" : $"near {SeparationChecks.Name(near)}")}, {(strokes.Length == 1 ? "is" : "are")} narrower than {needMm:0.##} mm and can't be pulled back by all of the {separation.PullBackMm:0.###} mm that toner grows: {(strokes.Length == 1 ? "it comes" : "they come")} out up to {2 * separation.PullBackMm:0.##} mm wider than drawn");
            var (span, item) = (near?.Origin.Span ?? panel.Span, near?.Origin.Item ?? panel.Id);

            // On the front that is seen. On the mask an opening is a little narrower there, and still wider than what shines.
            yield return side == "front"
                ? Finding.Warn("growth-strokes", found, "move what shines apart there, or leave it: only these strokes are wider, and what shines beside them narrower", span, item)
                : Finding.Note("growth-strokes", found, "nothing to do: the openings beside them are narrower than meant by half of that at each edge, and the front's black still covers them", span, item);
        }
    }
}
