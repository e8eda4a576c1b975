using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Art;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Quantities;

namespace Lampblack.Artwork;

/// <summary>Artwork drawn elsewhere as marks and dots. Where it ends at the panel's edge, what is there runs on into the bleed.</summary>
internal static class ArtMarks
{
    /// <summary>How far what ends at the edge runs on: the bleed, and a little more, as it is cut there.</summary>
    private const double RunOnMm = 3.5;

    /// <summary>Artwork that ends this near to the edge is meant to reach it.</summary>
    private const double AtEdgeMm = 0.2;

    /// <param name="art">The artwork in its place.</param>
    /// <param name="panel">The panel.</param>
    /// <param name="marks">The marks so far.</param>
    /// <param name="dots">The dots so far.</param>
    public static void Add(PlacedArt art, Panel panel, ImmutableArray<Mark>.Builder marks, ImmutableArray<DotMark>.Builder dots)
    {
        var edges = EdgesOf(art, panel);
        foreach (var layer in art.Content.Layers)
        {
            switch (layer)
            {
                case ArtArea area:
                    var style = area.Ink is null ? art.Style with { Ink = null, Role = LightRole.Unlit, Backed = false }
                        : art.Style with { Ink = art.OneInk ? art.Style.Ink : area.Ink };
                    var shape = edges == Edges.None ? area.Shape : RunOn(area.Shape, art.Content, edges);
                    marks.Add(new(art.Origin, "artwork", style, shape.Map(art.Placement), MarkKind.Art));
                    break;
                case ArtDots picture:
                    dots.Add(Dots(art, picture, edges, marks.Count));
                    break;
            }
        }
    }

    private static DotMark Dots(PlacedArt art, ArtDots picture, Edges edges, int below)
    {
        var (shown, placement) = (picture.Shown, picture.Placement);
        var colours = art.OneInk || picture.Colours is not { } own ? null : new DotColours(own.WidthPx, own.HeightPx, own.Rgb, own.Placement.Then(art.Placement));
        if (edges != Edges.None)
        {
            var dots = (int)Math.Ceiling(RunOnMm / Math.Abs(placement.Xx));
            var (left, top) = (edges.HasFlag(Edges.Left) ? dots : 0, edges.HasFlag(Edges.Top) ? dots : 0);
            shown = DotEdges.RunOn(shown, left, top, edges.HasFlag(Edges.Right) ? dots : 0, edges.HasFlag(Edges.Bottom) ? dots : 0);
            placement = Affine<DotSpace, DotSpace>.Shift(-left, -top).Then(placement);
            colours = colours is null ? null : DotEdges.RunOn(colours, RunOnMm);
        }

        return new(art.Origin, "artwork", art.Style with { Ink = art.OneInk ? art.Style.Ink : Ink.None }, shown, placement.Then(art.Placement), colours, below);
    }

    /// <summary>Which of the artwork's edges lie on an edge of the panel, however it is turned.</summary>
    private static Edges EdgesOf(PlacedArt art, Panel panel)
    {
        var (width, height) = (art.Content.WidthMm, art.Content.HeightMm);
        return (IsAtEdge(0, 0, 0, height) ? Edges.Left : 0)
            | (IsAtEdge(0, 0, width, 0) ? Edges.Bottom : 0)
            | (IsAtEdge(width, 0, width, height) ? Edges.Right : 0)
            | (IsAtEdge(0, height, width, height) ? Edges.Top : 0);

        bool IsAtEdge(double fromX, double fromY, double toX, double toY)
        {
            var (from, to) = (art.Placement.Apply(new(fromX, fromY)), art.Placement.Apply(new(toX, toY)));
            return Both(from.XMm, to.XMm, 0) || Both(from.XMm, to.XMm, panel.WidthMm) || Both(from.YMm, to.YMm, 0) || Both(from.YMm, to.YMm, panel.HeightMm);
        }

        static bool Both(double from, double to, double edge) => Math.Abs(from - edge) < AtEdgeMm && Math.Abs(to - edge) < AtEdgeMm;
    }

    /// <summary>What lies at an edge, straight on from there.</summary>
    private static Region<ItemSpace> RunOn(Region<ItemSpace> shape, ArtContent content, Edges edges)
    {
        const double Rim = 0.02;
        var (width, height) = (content.WidthMm, content.HeightMm);
        var across = shape;
        if (edges.HasFlag(Edges.Left))
        {
            across = across.Union(Strips(across, new(0, 0, Rim, height), box => new(-RunOnMm, box.BottomMm, RunOnMm + Rim, box.HeightMm)));
        }

        if (edges.HasFlag(Edges.Right))
        {
            across = across.Union(Strips(across, new(width - Rim, 0, Rim, height), box => new(width - Rim, box.BottomMm, RunOnMm + Rim, box.HeightMm)));
        }

        // From the top and bottom after the sides, so that corners are filled.
        var (from, all) = (-RunOnMm, width + (2 * RunOnMm));
        if (edges.HasFlag(Edges.Bottom))
        {
            across = across.Union(Strips(across, new(from, 0, all, Rim), box => new(box.LeftMm, -RunOnMm, box.WidthMm, RunOnMm + Rim)));
        }

        return edges.HasFlag(Edges.Top)
            ? across.Union(Strips(across, new(from, height - Rim, all, Rim), box => new(box.LeftMm, height - Rim, box.WidthMm, RunOnMm + Rim)))
            : across;
    }

    private static Region<ItemSpace> Strips(Region<ItemSpace> shape, Box<ItemSpace> rim, Func<Box<ItemSpace>, Box<ItemSpace>> strip) =>
        Region<ItemSpace>.Union(shape.Intersect(Region<ItemSpace>.Rectangle(rim)).Pieces.Select(piece => Region<ItemSpace>.Rectangle(strip(piece.Bounds))));
}

/// <summary>Edges of artwork.</summary>
[Flags]
internal enum Edges
{
    None = 0,
    Left = 1,
    Right = 2,
    Bottom = 4,
    Top = 8,
}
