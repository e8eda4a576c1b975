using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Bitmaps;
using Lampblack.Geometry;

namespace Lampblack.Formats;

/// <summary>One named area of a drawing.</summary>
/// <typeparam name="TSpace">The space it is in.</typeparam>
/// <param name="Id">Its name for programs: not empty, without white space, once per drawing.</param>
/// <param name="Title">Its name for people, any text.</param>
/// <param name="Region">The area; y points up.</param>
/// <param name="Fill">Its colour, <c>#rrggbb</c>.</param>
public sealed record SvgLayer<TSpace>(string Id, string Title, Region<TSpace> Region, string Fill)
    where TSpace : struct, ISpace
{
    /// <summary>A picture that stands for the region, filling the box around it; empty for none. A PNG.</summary>
    public ImmutableArray<byte> Png { get; init; } = [];

    /// <summary>The set dots of a picture, painted over the region in the same colour; null where there are none.</summary>
    public (BitRaster Dots, Affine<DotSpace, TSpace> Placement)? Stencil { get; init; }
}

/// <summary>Writes drawings in true size (SVG, UTF-8, lines ended by LF). Same layers, same bytes.</summary>
public static class SvgFile
{
    /// <summary>A drawing of the box from (0, 0) to (width, height), its units mm; the lowest layer first.</summary>
    /// <param name="widthMm">Width, in mm; more than 0.</param>
    /// <param name="heightMm">Height, in mm; more than 0.</param>
    /// <param name="title">The drawing's title, any text; control characters are dropped, here and in the layers' titles.</param>
    /// <param name="layers">The layers; an empty region gives a group without a path.</param>
    /// <typeparam name="TSpace">The space of the layers.</typeparam>
    /// <exception cref="ArgumentException">A size is not more than 0, an id is empty, has white space or stands twice, or a fill is not <c>#rrggbb</c>.</exception>
    public static ImmutableArray<byte> Write<TSpace>(double widthMm, double heightMm, string title, ImmutableArray<SvgLayer<TSpace>> layers)
        where TSpace : struct, ISpace
    {
        ArgumentNullException.ThrowIfNull(title);
        Check(widthMm, heightMm, layers);
        var file = Head(widthMm, heightMm, title, layers.Sum(layer => 16 * layer.Region.CornerCount));
        foreach (var layer in layers)
        {
            file.Add("<g id=\""u8).Add(Escape(layer.Id)).Add("\">\n<title>"u8).Add(Escape(layer.Title)).Add("</title>\n"u8);
            if (!layer.Png.IsEmpty)
            {
                AddImage(file, layer, heightMm);
            }
            else if (!layer.Region.IsEmpty)
            {
                file.Add("<path fill-rule=\"evenodd\" fill=\""u8).Add(layer.Fill).Add("\" d=\""u8);
                SvgPath.Add(file, layer.Region, heightMm);
                file.Add("\"/>\n"u8);
            }

            if (layer.Stencil is { } stencil)
            {
                AddStencil(file, stencil.Dots, stencil.Placement, layer.Fill, heightMm);
            }

            file.Add("</g>\n"u8);
        }

        return file.Add("</svg>\n"u8).ToImmutable();
    }

    /// <summary>The start of a drawing, up to its title.</summary>
    internal static ByteText Head(double widthMm, double heightMm, string title, int expectedBytes = 0)
    {
        var file = new ByteText((1 << 16) + expectedBytes).Add("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\""u8);
        file.AddMm(widthMm).Add("mm\" height=\""u8).AddMm(heightMm).Add("mm\" viewBox=\"0 0 "u8).AddMm(widthMm).Add(" "u8).AddMm(heightMm).Add("\">\n<title>"u8);
        return file.Add(Escape(title)).Add("</title>\n"u8);
    }

    private static void Check<TSpace>(double widthMm, double heightMm, ImmutableArray<SvgLayer<TSpace>> layers)
        where TSpace : struct, ISpace
    {
        if (!(widthMm > 0 && heightMm > 0))
        {
            throw new ArgumentException("a drawing is larger than 0 mm each way", nameof(widthMm));
        }

        var ids = new HashSet<string>(StringComparer.Ordinal);
        foreach (var layer in layers)
        {
            if (PrintableText.Clean(layer.Id) is not { Length: > 0 } id || id.Any(char.IsWhiteSpace) || !ids.Add(id))
            {
                throw new ArgumentException($"a layer's id is not empty, has no white space and stands once, not '{layer.Id}'", nameof(layers));
            }

            if (layer.Fill is not ['#', .. { Length: 6 } digits] || !digits.All(char.IsAsciiHexDigit))
            {
                throw new ArgumentException($"a fill is #rrggbb, not '{layer.Fill}'", nameof(layers));
            }
        }
    }

    private static void AddImage<TSpace>(ByteText file, SvgLayer<TSpace> layer, double heightMm)
        where TSpace : struct, ISpace
    {
        var box = layer.Region.Bounds;
        file.Add("<image preserveAspectRatio=\"none\" x=\""u8).AddMm(box.LeftMm).Add("\" y=\""u8).AddMm(heightMm - box.TopMm);
        file.Add("\" width=\""u8).AddMm(box.WidthMm).Add("\" height=\""u8).AddMm(box.HeightMm);
        file.Add("\" href=\"data:image/png;base64,"u8).Add(Convert.ToBase64String(layer.Png.AsSpan())).Add("\"/>\n"u8);
    }

    /// <summary>An embedded picture that fills the square from 0 to 1, brought to its place; programs are asked not to smooth it (CSS Images 3 clause 5.3).</summary>
    private static void AddStencil<TSpace>(ByteText file, BitRaster dots, Affine<DotSpace, TSpace> map, string fill, double heightMm)
        where TSpace : struct, ISpace
    {
        var (width, height) = (dots.WidthDots, dots.HeightDots);
        file.Add("<image width=\"1\" height=\"1\" preserveAspectRatio=\"none\" style=\"image-rendering:pixelated\" transform=\"matrix("u8);
        file.AddMm(map.Xx * width).Add(" "u8).AddMm(-map.Yx * width).Add(" "u8).AddMm(map.Xy * height).Add(" "u8).AddMm(-map.Yy * height);
        file.Add(" "u8).AddMm(map.XMm).Add(" "u8).AddMm(heightMm - map.YMm).Add(")\" href=\"data:image/png;base64,"u8);
        file.Add(Convert.ToBase64String(StencilPng.Write(dots, fill))).Add("\"/>\n"u8);
    }

    private static string Escape(string text) => PrintableText.Clean(text)
        .Replace("&", "&amp;", StringComparison.Ordinal)
        .Replace("<", "&lt;", StringComparison.Ordinal)
        .Replace(">", "&gt;", StringComparison.Ordinal)
        .Replace("\"", "&quot;", StringComparison.Ordinal)
        .Replace("'", "&apos;", StringComparison.Ordinal);
}
