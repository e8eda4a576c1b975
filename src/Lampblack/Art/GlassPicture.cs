using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.InteropServices;
using Lampblack.Bitmaps;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.VectorArt;

namespace Lampblack.Art;

/// <summary>Dots of a drawing that let through what lies below them, such as glows and logos without a ground: what lies below becomes part of them.</summary>
internal static class GlassPicture
{
    /// <summary>Opaque but for rounding.</summary>
    private const byte Opaque = 254;

    public static bool IsOpaque(DrawnPicture picture)
    {
        for (var at = 3; at < picture.Rgba.Length; at += 4)
        {
            if (picture.Rgba[at] < Opaque)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>How much of its place it hides.</summary>
    public static double OpacityShare(DrawnPicture picture)
    {
        var sum = 0L;
        for (var at = 3; at < picture.Rgba.Length; at += 4)
        {
            sum += picture.Rgba[at];
        }

        return sum / 255.0 / Math.Max(1, picture.Rgba.Length / 4);
    }

    /// <summary>From its dots to the drawing's mm.</summary>
    public static Affine<DotSpace, ItemSpace> Placement(DrawnPicture picture) =>
        new(picture.Box.WidthMm / picture.WidthPx, 0, picture.Box.LeftMm, 0, -picture.Box.HeightMm / picture.HeightPx, picture.Box.TopMm);

    /// <summary>Lays one over what is there. Where nothing is, it keeps its opacity.</summary>
    public static void Lay(DrawnPicture picture, List<(Region<ItemSpace> Shape, DrawnColour Colour)> areas, ImmutableArray<DrawnPicture>.Builder pictures)
    {
        if (Drawn(picture) is not { } box)
        {
            return;
        }

        var glass = picture.Shape.Intersect(Region<ItemSpace>.Rectangle(box));
        var rgba = picture.Rgba.ToArray();
        var toDots = Placement(picture).Inverse();
        for (var index = 0; index < areas.Count; index++)
        {
            var (shape, colour) = areas[index];
            if (shape.Touches(glass))
            {
                ForEach(RegionDots.Of(shape.Intersect(glass), toDots, picture.WidthPx, picture.HeightPx), dot => Lay(rgba, dot, colour));
                areas[index] = (shape.Except(glass), colour);
            }
        }

        for (var index = 0; index < pictures.Count; index++)
        {
            var below = pictures[index];
            if (below.Shape.Touches(glass))
            {
                var look = Placement(picture).Then(Placement(below).Inverse());
                ForEach(RegionDots.Of(below.Shape.Intersect(glass), toDots, picture.WidthPx, picture.HeightPx), dot =>
                {
                    var at = look.Apply(new((dot % picture.WidthPx) + 0.5, (dot / picture.WidthPx) + 0.5));
                    Lay(rgba, dot, ColourAt(below, (int)Math.Clamp(at.XMm, 0, below.WidthPx - 1), (int)Math.Clamp(at.YMm, 0, below.HeightPx - 1)));
                });
                pictures[index] = below with { Shape = below.Shape.Except(glass) };
            }
        }

        areas.RemoveAll(area => area.Shape.IsEmpty);
        foreach (var hidden in pictures.Where(below => below.Shape.IsEmpty).ToList())
        {
            pictures.Remove(hidden);
        }

        pictures.Add(picture with { Shape = glass, Rgba = ImmutableCollectionsMarshal.AsImmutableArray(rgba) });
    }

    private static void Lay(byte[] rgba, int dot, DrawnColour below)
    {
        var at = 4 * dot;
        var mixed = new DrawnColour(rgba[at], rgba[at + 1], rgba[at + 2], rgba[at + 3] / 255.0).Over(below);
        (rgba[at], rgba[at + 1], rgba[at + 2], rgba[at + 3]) = (mixed.Red, mixed.Green, mixed.Blue, (byte)((mixed.OpacityShare * 255) + 0.5));
    }

    private static DrawnColour ColourAt(DrawnPicture picture, int column, int row)
    {
        var at = 4 * ((row * picture.WidthPx) + column);
        return new(picture.Rgba[at], picture.Rgba[at + 1], picture.Rgba[at + 2], picture.Rgba[at + 3] / 255.0);
    }

    /// <summary>The box around all dots that are not fully transparent; nothing where all are.</summary>
    private static Box<ItemSpace>? Drawn(DrawnPicture picture)
    {
        var (left, top, right, bottom) = (picture.WidthPx, picture.HeightPx, 0, 0);
        for (var dot = 0; dot < picture.WidthPx * picture.HeightPx; dot++)
        {
            if (picture.Rgba[(4 * dot) + 3] > 0)
            {
                var (column, row) = (dot % picture.WidthPx, dot / picture.WidthPx);
                (left, top, right, bottom) = (Math.Min(left, column), Math.Min(top, row), Math.Max(right, column + 1), Math.Max(bottom, row + 1));
            }
        }

        if (left >= right)
        {
            return null;
        }

        var (corner, opposite) = (Placement(picture).Apply(new(left, bottom)), Placement(picture).Apply(new(right, top)));
        return new(corner.XMm, corner.YMm, opposite.XMm - corner.XMm, opposite.YMm - corner.YMm);
    }

    private static void ForEach(BitRaster dots, Action<int> work)
    {
        for (var row = 0; row < dots.HeightDots; row++)
        {
            for (var column = BitRuns.Find(dots.Row(row), 0, dots.WidthDots, set: true); column < dots.WidthDots; column = BitRuns.Find(dots.Row(row), column + 1, dots.WidthDots, set: true))
            {
                work((row * dots.WidthDots) + column);
            }
        }
    }
}
