using System.Collections.Immutable;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.VectorArt;

/// <summary>A drawing as it is painted: in mm, x to the right, y up, origin at its lower-left corner. What lies outside of it is cut off.</summary>
/// <param name="WidthMm">Its width, in mm.</param>
/// <param name="HeightMm">Its height, in mm.</param>
/// <param name="SizeIsStated">Whether the file, or the caller, says how large it is; else a px of the file was taken for 1/96 inch.</param>
/// <param name="Items">What it is painted of, from the lowest to the uppermost.</param>
public sealed record Drawing(double WidthMm, double HeightMm, bool SizeIsStated, ImmutableArray<DrawnItem> Items)
{
    /// <summary>The width that the file says in mm, cm, in, pt or pc; null where it says px, per cent or nothing, which many programs write without meaning it.</summary>
    public double? StatedWidthMm { get; init; }
}

/// <summary>Something painted.</summary>
/// <param name="Id">The id of the element it comes from, if any.</param>
/// <param name="Class">The class of that element as the file has it, if any.</param>
/// <param name="Place">Where that element is in the file.</param>
public abstract record DrawnItem(string? Id, string? Class, SourceSpan Place);

/// <summary>An area in one colour. A fill and a stroke of one element are two of them.</summary>
/// <param name="Id">The id of the element it comes from, if any.</param>
/// <param name="Class">The class of that element as the file has it, if any.</param>
/// <param name="Place">Where that element is in the file.</param>
/// <param name="Shape">The area.</param>
/// <param name="Colour">Its colour, painted over what lies below; see <see cref="DrawnColour.Over"/>. The opacity of groups is in it already.</param>
public sealed record DrawnShape(string? Id, string? Class, SourceSpan Place, Region<ItemSpace> Shape, DrawnColour Colour) : DrawnItem(Id, Class, Place)
{
    /// <summary>The area with what lies outside of the drawing, where the drawing's edge cuts through it; null where it doesn't.</summary>
    public Region<ItemSpace>? Uncut { get; init; }
}

/// <summary>What could not be kept as areas in plain colours, as dots.</summary>
/// <param name="Id">The id of the element it comes from, if any.</param>
/// <param name="Class">The class of that element as the file has it, if any.</param>
/// <param name="Place">Where that element is in the file.</param>
/// <param name="Shape">What is seen of the dots: edges stay vector where the element has them.</param>
/// <param name="Box">What all dots together cover.</param>
/// <param name="WidthPx">Dots in a row.</param>
/// <param name="HeightPx">Rows.</param>
/// <param name="Rgba">Four bytes for each dot, row by row from the top: sRGB codes of red, green, blue, not multiplied by opacity, and opacity (255 hides what lies below).</param>
public sealed record DrawnPicture(
    string? Id, string? Class, SourceSpan Place, Region<ItemSpace> Shape, Box<ItemSpace> Box, int WidthPx, int HeightPx, ImmutableArray<byte> Rgba)
    : DrawnItem(Id, Class, Place);
