using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Bitmaps;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Separations;

/// <summary>
/// Paints pictures over the black. What surrounds any of them comes first and stays within the black, so that it lies neither on a mark nor on another picture.
/// </summary>
internal static class DotPaint
{
    /// <summary>A printer of 600 dots to the inch blackens every dot that black touches: up to its diagonal, 0.06 mm, on the other side of an edge.</summary>
    private const double SeamMm = 0.06;

    /// <summary>The front: covers of hidden pictures, K's edge around the others, and what is seen of them.</summary>
    /// <param name="layers">The pictures.</param>
    /// <param name="build">The black build.</param>
    /// <param name="black">Where the front is black or covered.</param>
    /// <param name="core">Where it has all inks of the build; null where no ink stands back.</param>
    /// <param name="beside">Marks beside or over the pictures, by ink, and windows; a later one lies over an earlier one.</param>
    /// <param name="standBackMm">How far other inks stand back from K's edges.</param>
    public static ImmutableArray<Painted<PanelSpace>> Front(
        ImmutableArray<DotLayer> layers, BlackBuild build, Region<PanelSpace> black, Region<PanelSpace>? core, ImmutableArray<Painted<PanelSpace>> beside, double standBackMm)
    {
        var covers = layers.Where(layer => layer.Cover is not null).Select(layer => layer.Around(layer.Cover!, black, MarkInks.Cover(layer.Mark.Style, build)));
        var seen = layers.Where(layer => !layer.IsHidden).ToImmutableArray();
        var rims = seen.Where(_ => core is not null).Select(layer => layer.Around(Grown(layer, layer.ShownSent, standBackMm), core!, Rim(layer, build)));
        return [.. covers, .. rims, .. seen.SelectMany(layer => Seams(layer, beside)), .. layers.SelectMany(layer => layer.OnFront)];
    }

    /// <summary>Dots at the border to a mark are either wholly the picture's or wholly the mark's, so that no black shows in the seam between both.</summary>
    private static IEnumerable<Painted<PanelSpace>> Seams(DotLayer layer, ImmutableArray<Painted<PanelSpace>> beside)
    {
        var box = layer.Box;
        var near = beside.Where(mark => !mark.Region.IsEmpty && mark.Region.Bounds.Overlaps(box)).ToList();
        if (near.Count == 0)
        {
            return [];
        }

        var around = layer.Shown.Grow(Math.Max(1.5, SeamMm / layer.Mark.MmPerDot)).Except(layer.Shown);
        return near.Select(mark => layer.Around(around, mark.Region, mark.Ink)).Where(seam => seam.AreaMm2 > 0);
    }

    /// <summary>The mask: K's edge around openings, and the openings.</summary>
    /// <param name="layers">The pictures.</param>
    /// <param name="build">The black build.</param>
    /// <param name="core">Where the mask has all inks of the build; null where no ink stands back.</param>
    /// <param name="standBackMm">How far other inks stand back from K's edges.</param>
    public static ImmutableArray<Painted<PanelSpace>> Mask(ImmutableArray<DotLayer> layers, BlackBuild build, Region<PanelSpace>? core, double standBackMm)
    {
        var rims = layers.Where(layer => core is not null && layer.Opening is not null).Select(layer => layer.Around(Grown(layer, layer.OpeningSent!, standBackMm), core!, build.Edge));
        return [.. rims, .. layers.SelectMany(layer => layer.OnMask)];
    }

    /// <summary>A second pass of either side: nothing near what is open in the first one.</summary>
    /// <param name="open">The pictures, and which of their dots are open in the first pass.</param>
    /// <param name="build">The black build.</param>
    /// <param name="core">Where the second pass has all inks of the build; null where no ink stands back.</param>
    /// <param name="chokeMm">How far it stands back from what is open.</param>
    /// <param name="standBackMm">How far other inks stand back from K's edges.</param>
    public static ImmutableArray<Painted<PanelSpace>> Again(
        ImmutableArray<(DotLayer Layer, BitRaster Open)> open, BlackBuild build, Region<PanelSpace>? core, double chokeMm, double standBackMm)
    {
        // Both are rounded up to whole dots, so the edge is never thinner than the stand-back.
        var rims = open.Where(_ => core is not null).Select(dot => dot.Layer.Around(
            dot.Open.Grow(DotLayer.RadiusDots(chokeMm, dot.Layer.Mark.MmPerDot) + (standBackMm / dot.Layer.Mark.MmPerDot)), core!, build.Edge));
        return [.. rims, .. open.Select(dot => dot.Layer.LeftOut(dot.Open, chokeMm))];
    }

    private static BitRaster Grown(DotLayer layer, BitRaster dots, double byMm) => dots.Grow(byMm / layer.Mark.MmPerDot);

    /// <summary>An ink of its own runs on under K's edge, so that no white rim shows when a colour plane is off.</summary>
    private static Ink Rim(DotLayer layer, BlackBuild build) =>
        layer.OwnInk is { Space: InkSpace.Cmyk } own ? Ink.Cmyk(own.Amounts[0], own.Amounts[1], own.Amounts[2], 1) : build.Edge;
}
