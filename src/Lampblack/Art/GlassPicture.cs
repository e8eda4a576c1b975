using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.InteropServices;
using System.Threading.Tasks;
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
                LayOver(rgba, RegionDots.Of(shape.Intersect(glass), toDots, picture.WidthPx, picture.HeightPx), colour);
                areas[index] = (shape.Except(glass), colour);
            }
        }

        for (var index = 0; index < pictures.Count; index++)
        {
            var below = pictures[index];
            if (below.Shape.Touches(glass))
            {
                var look = Placement(picture).Then(Placement(below).Inverse());
                LayOver(rgba, RegionDots.Of(below.Shape.Intersect(glass), toDots, picture.WidthPx, picture.HeightPx), below, look);
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

    /// <summary>Lays dots over one colour.</summary>
    private static void LayOver(byte[] rgba, BitRaster dots, DrawnColour below) => Parallel.For(0, dots.HeightDots, row =>
    {
        var (last, mixed) = ((uint?)null, 0u);
        foreach (var (start, end) in Runs(dots, row))
        {
            for (var column = start; column < end; column++)
            {
                var dot = rgba.AsSpan(4 * ((row * dots.WidthDots) + column), 4);
                var code = BitConverter.ToUInt32(dot);

                // Most dots are like their left neighbour.
                if (code != last)
                {
                    (last, mixed) = (code, Over(dot, below));
                }

                BitConverter.TryWriteBytes(dot, mixed);
            }
        }
    });

    /// <summary>Lays dots over those of another picture.</summary>
    private static void LayOver(byte[] rgba, BitRaster dots, DrawnPicture below, Affine<DotSpace, DotSpace> look) => Parallel.For(0, dots.HeightDots, row =>
    {
        var (last, mixed) = (((uint, uint)?)null, 0u);
        foreach (var (start, end) in Runs(dots, row))
        {
            for (var column = start; column < end; column++)
            {
                var at = look.Apply(new(column + 0.5, row + 0.5));
                var under = below.Rgba.AsSpan(4 * (((int)Math.Clamp(at.YMm, 0, below.HeightPx - 1) * below.WidthPx) + (int)Math.Clamp(at.XMm, 0, below.WidthPx - 1)), 4);
                var dot = rgba.AsSpan(4 * ((row * dots.WidthDots) + column), 4);
                var codes = (BitConverter.ToUInt32(dot), BitConverter.ToUInt32(under));
                if (codes != last)
                {
                    (last, mixed) = (codes, Over(dot, new(under[0], under[1], under[2], under[3] / 255.0)));
                }

                BitConverter.TryWriteBytes(dot, mixed);
            }
        }
    });

    private static uint Over(ReadOnlySpan<byte> dot, DrawnColour below)
    {
        var mixed = new DrawnColour(dot[0], dot[1], dot[2], dot[3] / 255.0).Over(below);
        return BitConverter.ToUInt32([mixed.Red, mixed.Green, mixed.Blue, (byte)((mixed.OpacityShare * 255) + 0.5)]);
    }

    /// <summary>The box around all dots that are not fully transparent; nothing where all are.</summary>
    private static Box<ItemSpace>? Drawn(DrawnPicture picture)
    {
        var (left, top, right, bottom) = (picture.WidthPx, picture.HeightPx, 0, 0);
        for (var row = 0; row < picture.HeightPx; row++)
        {
            var dots = picture.Rgba.AsSpan(4 * row * picture.WidthPx, 4 * picture.WidthPx);
            for (var column = 0; column < picture.WidthPx; column++)
            {
                if (dots[(4 * column) + 3] > 0)
                {
                    (left, top, right, bottom) = (Math.Min(left, column), Math.Min(top, row), Math.Max(right, column + 1), Math.Max(bottom, row + 1));
                }
            }
        }

        if (left >= right)
        {
            return null;
        }

        var (corner, opposite) = (Placement(picture).Apply(new(left, bottom)), Placement(picture).Apply(new(right, top)));
        return new(corner.XMm, corner.YMm, opposite.XMm - corner.XMm, opposite.YMm - corner.YMm);
    }

    /// <summary>Where set dots stand beside each other in a row: the first of each run and the one after its last.</summary>
    private static IEnumerable<(int Start, int End)> Runs(BitRaster dots, int row)
    {
        for (var start = Find(0, set: true); start < dots.WidthDots;)
        {
            var end = Find(start, set: false);
            yield return (start, end);
            start = Find(end, set: true);
        }

        int Find(int column, bool set) => BitRuns.Find(dots.Row(row), column, dots.WidthDots, set);
    }
}
