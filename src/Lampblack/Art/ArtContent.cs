using System;
using System.Collections.Immutable;
using Lampblack.Bitmaps;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Art;

/// <summary>Artwork drawn elsewhere, understood: what of it is field and what is not. In mm, x right, y up, origin at its lower left corner.</summary>
/// <param name="WidthMm">Its width.</param>
/// <param name="HeightMm">Its height.</param>
/// <param name="Layers">What is printed of it, the lowest first.</param>
/// <param name="Holes">Holes that it carries.</param>
/// <param name="Account">How its field was found.</param>
public sealed record ArtContent(double WidthMm, double HeightMm, ImmutableArray<ArtLayer> Layers, ImmutableArray<ArtHole> Holes, ArtAccount Account);

/// <summary>Something that is printed.</summary>
public abstract record ArtLayer;

/// <summary>An area.</summary>
/// <param name="Shape">Where.</param>
/// <param name="Ink">Its ink; null for the field's own.</param>
public sealed record ArtArea(Region<ItemSpace> Shape, Ink? Ink) : ArtLayer;

/// <summary>Dots that are not field.</summary>
/// <param name="Shown">The dots.</param>
/// <param name="Placement">Where they go.</param>
/// <param name="Colours">Their colours; null where all are bare paper.</param>
public sealed record ArtDots(BitRaster Shown, Affine<DotSpace, ItemSpace> Placement, ArtColourDots? Colours) : ArtLayer;

/// <summary>Colours of dots.</summary>
/// <param name="WidthPx">Dots in a row.</param>
/// <param name="HeightPx">Rows.</param>
/// <param name="Rgb">sRGB codes, three for each dot, row by row from the top.</param>
/// <param name="Placement">Where they go.</param>
public sealed record ArtColourDots(int WidthPx, int HeightPx, ReadOnlyMemory<byte> Rgb, Affine<DotSpace, ItemSpace> Placement);

/// <summary>A hole that the artwork carries.</summary>
/// <param name="Name">What it is called in the artwork, or its number.</param>
/// <param name="Shape">Its outline.</param>
public sealed record ArtHole(string Name, Region<ItemSpace> Shape);

/// <summary>How the field was found, for the report.</summary>
/// <param name="Kind"><c>SVG</c>, <c>PNG</c> or <c>JPEG</c>.</param>
/// <param name="ThresholdLightness">CIE L* below which is field.</param>
/// <param name="Sureness">How sure that is, in a word.</param>
/// <param name="FieldShare">How much of it is field.</param>
/// <param name="DoubtfulShare">How much of it could be either.</param>
/// <param name="ValleyDepthShare">How deep the valley between field and the rest is; 1 where nothing lies between.</param>
/// <param name="ResolutionDpi">Resolution of its dots; null where all of it stayed vector.</param>
/// <param name="Doubts">A picture (PNG) that shows what could be either, packed when it is asked for; null where there is none.</param>
public sealed record ArtAccount(
    string Kind,
    double ThresholdLightness,
    string Sureness,
    double FieldShare,
    double DoubtfulShare,
    double ValleyDepthShare,
    double? ResolutionDpi,
    Lazy<ImmutableArray<byte>>? Doubts);
