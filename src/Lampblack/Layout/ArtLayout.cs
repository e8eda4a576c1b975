using System;
using System.Globalization;
using Lampblack.Art;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Parts;

namespace Lampblack.Layout;

/// <summary>Puts artwork in its place, and the holes that it carries.</summary>
internal static class ArtLayout
{
    /// <summary>Shapes that fill this much of the box around them are rectangles.</summary>
    private const double RectangleShare = 0.98;

    /// <param name="art">The item.</param>
    /// <param name="content">What its file holds.</param>
    /// <param name="shift">Shift of this copy.</param>
    /// <param name="origin">Where it comes from.</param>
    /// <param name="into">The panel.</param>
    public static void Place(ArtItem art, ArtContent content, Vector<PanelSpace> shift, Origin origin, PanelBuilder into)
    {
        var place = new Point<PanelSpace>(art.XMm, art.YMm) + shift;
        var map = Affine<ItemSpace, ItemSpace>.Turn(-art.TurnDegrees).Then(Affine<ItemSpace, PanelSpace>.Shift(place.XMm, place.YMm));
        into.Arts.Add(new(origin, art.Style, art.Reading.OneInk, content, map));
        foreach (var hole in content.Holes)
        {
            into.Parts.Add(Part(hole, map, art.TurnDegrees, origin with { Item = $"{origin.Item}, {hole.Name}" }));
        }
    }

    private static PlacedPart Part(ArtHole hole, Affine<ItemSpace, PanelSpace> map, double turnDegrees, Origin origin)
    {
        var box = hole.Shape.Bounds;
        var share = hole.Shape.AreaMm2 / (box.WidthMm * box.HeightMm);
        var isDisc = Math.Abs(box.WidthMm - box.HeightMm) < 0.01 && Math.Abs(share - (Math.PI / 4)) < 0.005;
        Cutout cutout = isDisc
            ? new RoundCutout(Figure.FromUser(Rounded(box.WidthMm, 2)))
            : new RectangleCutout(Figure.FromUser(Rounded(box.WidthMm, 1)), Figure.FromUser(Rounded(box.HeightMm, 1)), Figure.FromUser(0));
        var part = new Part
        {
            Id = string.Create(CultureInfo.InvariantCulture, $"{(isDisc ? "hole" : share > RectangleShare ? "cut-out" : "shape")}-{cutout.SizeText.Replace(" ", string.Empty, StringComparison.Ordinal)}"),
            Name = isDisc ? "hole in the artwork" : "cut-out in the artwork",
            Class = PartClass.Plain,
            Cutout = cutout,
        };
        var centre = map.Apply(box.Centre);

        // A disc and a rectangle come from their figures, so that they are true; anything else is cut as it was drawn.
        var shape = isDisc || share > RectangleShare
            ? cutout.Shape().Map(Affine<ItemSpace, ItemSpace>.Turn(-turnDegrees).Then(Affine<ItemSpace, PanelSpace>.Shift(centre.XMm, centre.YMm)))
            : hole.Shape.Map(map);
        return new(origin, part, centre, turnDegrees, [shape], Region<PanelSpace>.Empty);

        static double Rounded(double mm, int digits) => Math.Round(mm, digits, MidpointRounding.AwayFromZero);
    }
}
