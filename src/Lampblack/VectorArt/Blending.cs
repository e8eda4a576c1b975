using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.VectorArt;

/// <summary>Keeps a see-through group as areas: cut up so that none lie over each other, each in the colour that is seen there.</summary>
internal static class Blending
{
    private const int MostAreas = 300;
    private const int MostCorners = 200_000;

    /// <summary>The areas with the group's opacity; null where something in it is no plain colour, or there is too much to cut up.</summary>
    /// <remarks>Colours within the group are put over each other first, and the whole then becomes see-through, as SVG 1.1 asks (14.5): not each part by itself.</remarks>
    public static List<Node>? Flatten(List<Node> children, double opacity)
    {
        if (children.Exists(child => child is not FillNode { Paint: SolidPaint }) || children.Count > MostAreas)
        {
            return null;
        }

        var areas = new List<(Region<ItemSpace> Shape, DrawnColour Colour, SvgElement Source)>();
        long corners = 0;
        foreach (var child in children.Cast<FillNode>())
        {
            corners += child.Shape.CornerCount;
            if (areas.Count > MostAreas || corners > MostCorners)
            {
                return null;
            }

            Put(child, areas);
        }

        return areas.ConvertAll(area => (Node)new FillNode(area.Source, area.Shape, new SolidPaint(area.Colour with { OpacityShare = area.Colour.OpacityShare * opacity })));
    }

    private static void Put(FillNode child, List<(Region<ItemSpace> Shape, DrawnColour Colour, SvgElement Source)> areas)
    {
        var colour = ((SolidPaint)child.Paint).Colour;
        var isOpaque = colour.OpacityShare >= 1;
        var rest = child.Shape;
        var count = areas.Count;
        for (var index = 0; index < count; index++)
        {
            var below = areas[index];
            if (!below.Shape.Bounds.Overlaps(child.Shape.Bounds))
            {
                continue;
            }

            var both = below.Shape.Intersect(child.Shape);
            if (both.IsEmpty)
            {
                continue;
            }

            areas[index] = below with { Shape = below.Shape.Except(child.Shape) };
            if (!isOpaque)
            {
                areas.Add((both, colour.Over(below.Colour), child.Source));
                rest = rest.Except(below.Shape);
            }
        }

        areas.Add((rest, colour, child.Source));
        areas.RemoveAll(area => area.Shape.IsEmpty);
    }
}
