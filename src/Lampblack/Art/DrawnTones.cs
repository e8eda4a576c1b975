using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.VectorArt;

namespace Lampblack.Art;

/// <summary>What is seen of a drawing: areas side by side, no one under another.</summary>
/// <param name="Areas">The areas and their colours; opacity is left where nothing lies below.</param>
/// <param name="Pictures">Parts in dots, cut to what is seen of them, the lowest first.</param>
internal sealed record DrawnTones(ImmutableArray<(Region<ItemSpace> Shape, DrawnColour Colour)> Areas, ImmutableArray<DrawnPicture> Pictures)
{
    private const double Opaque = 0.995;

    /// <summary>Lays a drawing flat.</summary>
    /// <param name="items">What is painted, the lowest first.</param>
    /// <param name="page">All that is kept of it.</param>
    public static DrawnTones Of(ImmutableArray<DrawnItem> items, Box<ItemSpace> page)
    {
        var whole = Region<ItemSpace>.Rectangle(page);
        var shapes = items.Select(item => Cut(ShapeOf(item), page, whole)).ToImmutableArray();
        var hiding = items.Select(Hides).ToImmutableArray();
        var index = new RegionIndex<ItemSpace>(shapes);
        var seen = shapes.Select((shape, place) => Seen(shapes, hiding, index, place)).ToImmutableArray();

        var areas = new List<(Region<ItemSpace> Shape, DrawnColour Colour)>();
        var pictures = ImmutableArray.CreateBuilder<DrawnPicture>();
        foreach (var (place, item) in items.Index().Where(pair => !seen[pair.Index].IsEmpty))
        {
            switch (item)
            {
                case DrawnPicture picture when hiding[place]:
                    pictures.Add(picture with { Shape = seen[place] });
                    break;
                case DrawnPicture picture:
                    GlassPicture.Lay(picture with { Shape = seen[place] }, areas, pictures);
                    break;
                case DrawnShape shape when hiding[place]:
                    areas.Add((seen[place], shape.Colour));
                    break;
                case DrawnShape shape:
                    Mix(areas, seen[place], shape.Colour);
                    break;
            }
        }

        return new([.. areas], pictures.ToImmutable());
    }

    /// <summary>A colour that lets what lies below through, mixed with each of the areas that it covers.</summary>
    private static void Mix(List<(Region<ItemSpace> Shape, DrawnColour Colour)> areas, Region<ItemSpace> glass, DrawnColour colour)
    {
        var rest = glass;
        var bounds = glass.Bounds;
        for (var below = areas.Count - 1; below >= 0; below--)
        {
            var (shape, under) = areas[below];
            if (!shape.Bounds.Overlaps(bounds) || !shape.Touches(glass))
            {
                continue;
            }

            var both = shape.Intersect(glass);
            if (both.AreaMm2 > 0)
            {
                areas[below] = (shape.Except(glass), under);
                areas.Add((both, colour.Over(under)));
                rest = rest.Except(shape);
            }
        }

        areas.RemoveAll(area => area.Shape.IsEmpty);
        if (!rest.IsEmpty)
        {
            areas.Add((rest, colour));
        }
    }

    private static Region<ItemSpace> Seen(ImmutableArray<Region<ItemSpace>> shapes, ImmutableArray<bool> hiding, RegionIndex<ItemSpace> index, int place)
    {
        var shape = shapes[place];
        var over = index.Near(shape.Bounds).Where(later => later > place && hiding[later]).Select(later => shapes[later]).Where(shape.Touches).ToList();
        return over.Count == 0 ? shape : shape.Except(Region<ItemSpace>.Union(over));
    }

    private static Region<ItemSpace> Cut(Region<ItemSpace> shape, Box<ItemSpace> page, Region<ItemSpace> whole) =>
        page.Contains(shape.Bounds) ? shape : shape.Intersect(whole);

    private static bool Hides(DrawnItem item) => (item is DrawnPicture picture && GlassPicture.IsOpaque(picture)) || (item is DrawnShape shape && shape.Colour.OpacityShare >= Opaque);

    private static Region<ItemSpace> ShapeOf(DrawnItem item) => item switch
    {
        DrawnShape shape => shape.Shape,
        DrawnPicture picture => picture.Shape,
        _ => Region<ItemSpace>.Empty,
    };
}
