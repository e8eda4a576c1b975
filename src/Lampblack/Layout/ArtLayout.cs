using System;
using System.Linq;
using Lampblack.Art;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Parts;

namespace Lampblack.Layout;

/// <summary>Puts artwork in its place, and the holes that it carries.</summary>
internal static class ArtLayout
{
    // A corner of less is what a file's own edge leaves. Ours.
    private const double SharpMm = 0.2;

    // A shape that is nowhere farther than this from a disc or a rectangle is meant to be one; less than hands saw and file. Ours.
    private const double AsDrawnMm = 0.1;

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
        var (kind, cutout) = Form(hole.Shape.Map(Affine<ItemSpace, ItemSpace>.Shift(-box.Centre.XMm, -box.Centre.YMm)));
        var part = new Part
        {
            Id = $"{kind}-{cutout.SizeText.Replace(" ", string.Empty, StringComparison.Ordinal)}",
            Name = cutout is RoundCutout ? "hole in the artwork" : "cut-out in the artwork",
            Class = PartClass.Plain,
            Cutout = cutout,
        };
        var centre = map.Apply(box.Centre);
        var shape = cutout.Shape().Map(Affine<ItemSpace, ItemSpace>.Turn(-turnDegrees).Then(Affine<ItemSpace, PanelSpace>.Shift(centre.XMm, centre.YMm)));
        return new(origin, part, centre, turnDegrees, [shape], Region<PanelSpace>.Empty);
    }

    /// <summary>A disc and a rectangle come from their figures, so that they are true; anything else is cut as it was drawn.</summary>
    /// <param name="hole">The hole, the middle of the box around it at the origin.</param>
    private static (string Kind, Cutout Cutout) Form(Region<ItemSpace> hole)
    {
        // An island in a hole falls out with it.
        var drawn = Region<ItemSpace>.FromOutlines([hole.Borders().MaxBy(border => border.SignedAreaMm2)!]);
        var box = drawn.Bounds;
        if (Math.Abs(box.WidthMm - box.HeightMm) < 0.01 && Math.Abs((drawn.AreaMm2 / (box.WidthMm * box.HeightMm)) - (Math.PI / 4)) < 0.005 && IsNear(drawn, Region<ItemSpace>.Disc(box.Centre, box.WidthMm / 2)))
        {
            return ("hole", new RoundCutout(Figure.FromUser(Rounded(box.WidthMm, 2))));
        }

        // Rounded corners take (4 - pi) r2 from the box. Corners a file can't leave smaller are sharp ones.
        var missingMm2 = (box.WidthMm * box.HeightMm) - drawn.AreaMm2;
        var radiusMm = Math.Min(Rounded(Math.Sqrt(Math.Max(0, missingMm2) / (4 - Math.PI)), 2), Math.Min(box.WidthMm, box.HeightMm) / 2);
        var radius = radiusMm < SharpMm ? 0 : radiusMm;
        if (!IsNear(drawn, Region<ItemSpace>.RoundedRectangle(box, radius)))
        {
            return ("shape", new DrawnCutout(drawn));
        }

        var (widthMm, heightMm) = (Rounded(box.WidthMm, 1), Rounded(box.HeightMm, 1));
        return ("cut-out", new RectangleCutout(Figure.FromUser(widthMm), Figure.FromUser(heightMm), Figure.FromUser(Math.Min(radius, Math.Min(widthMm, heightMm) / 2))));
    }

    /// <summary>Whether neither reaches farther beyond the other than may be taken for it; an area alone would not show a key.</summary>
    private static bool IsNear(Region<ItemSpace> drawn, Region<ItemSpace> meant) => meant.Grow(AsDrawnMm).Contains(drawn) && drawn.Grow(AsDrawnMm).Contains(meant);

    private static double Rounded(double mm, int digits) => Math.Round(mm, digits, MidpointRounding.AwayFromZero);
}
