using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Geometry;

namespace Lampblack.Separations;

/// <summary>What is left of each mark after later ones have been laid over it.</summary>
internal static class VisibleMarks
{
    public static ImmutableArray<Mark> Of(ImmutableArray<Mark> marks)
    {
        var visible = new List<Mark>(marks.Length);
        var boxes = marks.Select(mark => mark.Shape.Bounds).ToArray();
        for (var index = 0; index < marks.Length; index++)
        {
            var over = new List<Region<PanelSpace>>();
            for (var later = index + 1; later < marks.Length; later++)
            {
                if (boxes[later].Overlaps(boxes[index]) && marks[later].Shape.Touches(marks[index].Shape))
                {
                    over.Add(marks[later].Shape);
                }
            }

            var shape = over.Count == 0 ? marks[index].Shape : marks[index].Shape.Except(Region<PanelSpace>.Union(over));
            if (!shape.IsEmpty)
            {
                visible.Add(marks[index] with { Shape = shape });
            }
        }

        return [.. visible];
    }
}
