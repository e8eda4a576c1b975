using System.Collections.Generic;
using Lampblack.Geometry;

namespace Lampblack.VectorArt;

/// <summary>Something painted, in mm of the drawing with y up, in painting order; not yet decided what of it stays vector.</summary>
/// <param name="Source">The element it comes from.</param>
internal abstract record Node(SvgElement Source);

/// <summary>An area in one paint.</summary>
/// <param name="Source">The element it comes from.</param>
/// <param name="Shape">The area.</param>
/// <param name="Paint">The paint.</param>
internal sealed record FillNode(SvgElement Source, Region<ItemSpace> Shape, Paint Paint) : Node(Source)
{
    /// <summary>The area before the drawing's edge cut through it; null where it doesn't.</summary>
    public Region<ItemSpace>? Uncut { get; init; }
}

/// <summary>An embedded picture.</summary>
/// <param name="Source">The element it comes from.</param>
/// <param name="Picture">Its file's bytes, whose size is known to be sensible.</param>
/// <param name="ToMm">From its dots (y down) to mm.</param>
/// <param name="Shape">What is seen of it.</param>
/// <param name="Opacity">How much it hides.</param>
/// <param name="IsPixelated">Whether its dots stay squares.</param>
internal sealed record ImageNode(SvgElement Source, byte[] Picture, Matrix ToMm, Region<ItemSpace> Shape, double Opacity, bool IsPixelated) : Node(Source);

/// <summary>Things that are painted together first, and then as one.</summary>
/// <param name="Source">The element it comes from.</param>
/// <param name="Children">What is painted.</param>
/// <param name="Opacity">How much the whole hides.</param>
/// <param name="Mask">What is seen of it; null for all.</param>
/// <param name="Filter">What is done to it first; null for nothing.</param>
/// <param name="Clip">What is seen after the filter; null for all.</param>
internal sealed record LayerNode(SvgElement Source, List<Node> Children, double Opacity, Mask? Mask, Filter? Filter, Region<ItemSpace>? Clip) : Node(Source);

/// <summary>A mask: where its things are light (or, by alpha, opaque), what is masked is seen.</summary>
/// <param name="Children">What it is painted of.</param>
/// <param name="Window">Outside of it nothing is seen.</param>
/// <param name="IsByAlpha">Whether opacity alone counts, and not lightness.</param>
internal sealed record Mask(List<Node> Children, Region<ItemSpace> Window, bool IsByAlpha);

/// <summary>What areas are filled with.</summary>
internal abstract record Paint;

/// <summary>One colour.</summary>
internal sealed record SolidPaint(DrawnColour Colour) : Paint;

/// <summary>Colours that run into each other.</summary>
/// <param name="Stops">Offsets from 0 to 1, rising, with their colours.</param>
/// <param name="IsRadial">Whether they run from a focus to a circle, or from one point to another.</param>
/// <param name="From">First point, or the focus.</param>
/// <param name="FromRadius">Radius about the focus where it begins; radial only.</param>
/// <param name="To">Last point, or the circle's centre.</param>
/// <param name="Radius">The circle's radius; radial only.</param>
/// <param name="Spread">pad, reflect or repeat.</param>
/// <param name="ToMm">From its coordinates to mm.</param>
/// <param name="Opacity">How much the whole hides.</param>
internal sealed record GradientPaint(
    List<(double Offset, DrawnColour Colour)> Stops, bool IsRadial, Spot From, double FromRadius, Spot To, double Radius, string Spread, Matrix ToMm, double Opacity) : Paint;

/// <summary>A tile again and again.</summary>
/// <param name="Children">What a tile is painted of, in mm of the tile at its own place.</param>
/// <param name="ToMm">From the tile's coordinates to mm.</param>
/// <param name="X">Left edge of the tile.</param>
/// <param name="Y">Upper edge.</param>
/// <param name="Width">Width of the tile.</param>
/// <param name="Height">Height.</param>
/// <param name="Opacity">How much the whole hides.</param>
internal sealed record PatternPaint(List<Node> Children, Matrix ToMm, double X, double Y, double Width, double Height, double Opacity) : Paint;
