using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Runtime.InteropServices;
using Lampblack.Findings;
using Lampblack.Geometry;
using SkiaSharp;

namespace Lampblack.VectorArt;

/// <summary>Turns what can't stay vector into dots, and says so.</summary>
internal sealed class Raster(Budget budget, FindingLog log, double dpi)
{
    /// <summary>A blur wider than this is the slowest of all, whatever sharp things stand beside it.</summary>
    private const double MostBlurDots = 100;

    /// <summary>Where all is blurred, so many dots to a standard deviation are nowhere off by more than 2 % of the step that was blurred: half a dot at its steepest. Ours.</summary>
    private const double DotsOfBlur = 12;

    /// <summary>What else a blurred element shows, and the border between field and light, stays at least this fine.</summary>
    private const double LeastDpiOfBlur = 300;

    /// <summary>How fine dots may be so that all pictures get some; set by <see cref="Share"/>.</summary>
    private double _sharedDpi = double.PositiveInfinity;

    /// <summary>Rows are drawn in bands of this many dots, so that layers within layers need little room.</summary>
    private const int BandDots = 4_000_000;

    /// <summary>Shares the dots that there are among all that needs some.</summary>
    /// <param name="nodes">What will be made.</param>
    /// <exception cref="TooMuchException">All would be too coarse.</exception>
    public void Share(IEnumerable<Node> nodes)
    {
        var squareInches = nodes.Select(Shape).Where(shape => !shape.IsEmpty).Sum(shape => shape.Bounds.WidthMm * shape.Bounds.HeightMm / (25.4 * 25.4));

        // A hundredth less, as dots at the borders are whole ones.
        _sharedDpi = Math.Sqrt(Limits.PictureDots * 0.99 / Math.Max(1e-9, squareInches));
        if (_sharedDpi < Limits.CoarsestDpi)
        {
            throw new TooMuchException(TooMuch.Dots);
        }
    }

    /// <summary>The element as dots; null where nothing of it is seen, or it would be too coarse.</summary>
    public DrawnPicture? Make(Node node)
    {
        var shape = Shape(node);
        if (shape.IsEmpty)
        {
            return null;
        }

        var why = Why(node);
        if (DotBox.Over(shape.Bounds, PaintableDpi(node, shape.Bounds), budget.DotsLeft) is not { } dots)
        {
            log.Add(Finding.Warn(
                "svg-dots",
                $"{node.Source.Shown} has {why}, but what is allowed for all pictures of a drawing together ({Limits.PictureDots / 1_000_000} million dots, and so much to paint) is used up; it is left out.",
                "Make the drawing smaller, or turn the large ones into plain colours.",
                node.Source.Place));
            return null;
        }

        budget.SpendDots((long)dots.WidthPx * dots.HeightPx, (double)dots.WidthPx * dots.HeightPx * (Layers(node) + (ReachMm(node) / dots.MmPerDot)));
        log.Add(Finding.Note(
            "svg-dots",
            FormattableString.Invariant($"{node.Source.Shown} has {why}, which can't be kept as areas: it is drawn as dots at {dots.Dpi:0} dpi{(dots.Dpi < dpi ? FormattableString.Invariant($" instead of {dpi:0}, to bound time and room") : string.Empty)}."),
            "Nothing to do where that is meant. For sharp edges use plain fills.",
            node.Source.Place));
        return new(node.Source.Id, node.Source["class"], node.Source.Place, shape, dots.Box, dots.WidthPx, dots.HeightPx, Draw(node, dots));
    }

    private static string Why(Node node) => node switch
    {
        FillNode { Paint: PatternPaint } => "a pattern fill",
        FillNode => "a gradient",
        ImageNode => "an embedded picture",
        LayerNode { Filter: not null } => "a filter",
        LayerNode { Mask: not null } => "a mask",
        _ => "see-through parts over each other",
    };

    /// <summary>How fine the dots may be, so that painting them takes bounded time.</summary>
    private double PaintableDpi(Node node, Box<ItemSpace> box)
    {
        // Layers cost dots each, a morphology dots times its radius in dots: squares and cubes of the resolution.
        var (squareInches, left) = (box.WidthMm * box.HeightMm / (25.4 * 25.4), Math.Max(0, budget.PaintedDotsLeft) / 2);
        var enough = Blurs.LeastMm(node) is > 0 and < double.PositiveInfinity and var least ? DotsOfBlur * 25.4 / least : MostBlurDots * 25.4 / Math.Max(1e-9, BlurMm(node));
        return Math.Min(Math.Min(Math.Min(dpi, _sharedDpi), Math.Max(LeastDpiOfBlur, enough)), Math.Min(
            Math.Sqrt(left / Math.Max(1e-9, squareInches * Layers(node))), Math.Cbrt(left / Math.Max(1e-9, squareInches * ReachMm(node) / 25.4))));
    }

    private static int Layers(Node node) => node switch
    {
        LayerNode layer => 1 + layer.Children.Sum(Layers) + (layer.Mask?.Children.Sum(Layers) ?? 0) + (4 * layer.Filter?.Steps.Count ?? 0),
        FillNode { Paint: PatternPaint pattern } => 1 + pattern.Children.Sum(Layers),
        _ => 1,
    };

    /// <summary>The widest blur or shadow, as its standard deviation.</summary>
    private static double BlurMm(Node node) => node is LayerNode layer
        ? Math.Max(
            layer.Filter?.Steps.Select(step => Math.Max(step.Blur.X, step.Blur.Y)).DefaultIfEmpty().Max() ?? 0,
            layer.Children.Concat(layer.Mask?.Children ?? []).Select(BlurMm).DefaultIfEmpty().Max())
        : 0;

    /// <summary>The radii of all morphologies together.</summary>
    private static double ReachMm(Node node) => node is LayerNode layer
        ? (layer.Filter?.Steps.Where(step => step.Kind == "feMorphology").Sum(step => step.Way.X + step.Way.Y) ?? 0)
            + layer.Children.Sum(ReachMm) + (layer.Mask?.Children.Sum(ReachMm) ?? 0)
        : 0;

    /// <summary>What of the dots can be seen at all.</summary>
    private static Region<ItemSpace> Shape(Node node)
    {
        switch (node)
        {
            case FillNode fill: return fill.Shape;
            case ImageNode image: return image.Shape;
            case LayerNode layer:
                var seen = layer.Filter?.Window ?? Region<ItemSpace>.Union(layer.Children.Select(child => Region<ItemSpace>.Rectangle(Shape(child).Bounds)));
                seen = layer.Mask is { } mask ? seen.Intersect(mask.Window) : seen;
                return layer.Clip is { } clip ? seen.Intersect(clip) : seen;
            default: return Region<ItemSpace>.Empty;
        }
    }

    private static ImmutableArray<byte> Draw(Node node, DotBox dots)
    {
        var rgba = new byte[(long)dots.WidthPx * dots.HeightPx * 4];
        var rows = Math.Clamp(BandDots / dots.WidthPx, 1, dots.HeightPx);
        var held = GCHandle.Alloc(rgba, GCHandleType.Pinned);
        using var surface = SKSurface.Create(new SKImageInfo(dots.WidthPx, rows, SKColorType.Rgba8888, SKAlphaType.Premul));
        using var painter = new Painter(surface.Canvas);
        try
        {
            for (var top = 0; top < dots.HeightPx; top += rows)
            {
                var count = Math.Min(rows, dots.HeightPx - top);
                var scale = 1 / dots.MmPerDot;
                surface.Canvas.ResetMatrix();
                surface.Canvas.Clear(SKColors.Transparent);
                var toDots = new SKMatrix((float)scale, 0, (float)(-dots.LeftMm * scale), 0, (float)-scale, (float)((dots.TopMm * scale) - top), 0, 0, 1);
                surface.Canvas.SetMatrix(in toDots);
                painter.PaintAll(node);
                surface.ReadPixels(
                    new SKImageInfo(dots.WidthPx, count, SKColorType.Rgba8888, SKAlphaType.Unpremul),
                    held.AddrOfPinnedObject() + (nint)(4L * top * dots.WidthPx),
                    dots.WidthPx * 4,
                    0,
                    0);
            }
        }
        finally
        {
            held.Free();
        }

        return ImmutableCollectionsMarshal.AsImmutableArray(rgba);
    }
}
