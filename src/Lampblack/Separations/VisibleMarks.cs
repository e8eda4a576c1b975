using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Geometry;

namespace Lampblack.Separations;

/// <summary>What is left of each mark after later ones have been laid over it.</summary>
internal static class VisibleMarks
{
    /// <summary>The same marks in the same order, each cut down to what is seen of it; the shape is empty where nothing is.</summary>
    /// <param name="marks">The marks in the order of painting.</param>
    /// <param name="sheet">All that is printed of the panel: nothing may be painted beyond it, another panel may stand there.</param>
    /// <param name="windows">The white insides of holes: they stay white whatever lies there.</param>
    public static ImmutableArray<Mark> Of(ImmutableArray<Mark> marks, Box<PanelSpace> sheet, Region<PanelSpace> windows)
    {
        var index = new RegionIndex<PanelSpace>(marks.Select(mark => mark.Shape));
        var white = windows.Pieces;
        var whiteIndex = new RegionIndex<PanelSpace>(white);
        var visible = new Mark[marks.Length];
        for (var place = marks.Length - 1; place >= 0; place--)
        {
            var shape = marks[place].Shape;

            // A later mark that is covered itself adds nothing to what covers this one; leaving it out keeps stacks of equal marks quick.
            IEnumerable<Region<PanelSpace>> over =
            [
                .. index.Near(shape.Bounds).Where(later => later > place && !visible[later].Shape.IsEmpty).Select(later => marks[later].Shape),
                .. whiteIndex.Near(shape.Bounds).Select(window => white[window]),
            ];
            var covering = over.Where(shape.Touches).ToList();
            var seen = covering.Count == 0 ? shape : shape.Except(Region<PanelSpace>.Union(covering));
            visible[place] = marks[place] with { Shape = sheet.Contains(seen.Bounds) ? seen : seen.Intersect(Region<PanelSpace>.Rectangle(sheet)) };
        }

        return [.. visible];
    }
}
