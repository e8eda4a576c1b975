using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Formats;

/// <summary>The drawing operators of one page (ISO 32000-1 clause 8.5).</summary>
internal static class PdfContent
{
    /// <summary>Fills the areas in order, each as a path or an image of its own, behind what is there already.</summary>
    /// <param name="content">What is there; the operators are added to it.</param>
    /// <param name="areas">The areas.</param>
    /// <param name="stamps">What is drawn once for several places; null for nothing.</param>
    /// <returns>The images and stamps that are drawn, and what they are called.</returns>
    public static ImmutableArray<(string Called, NamedPart Part)> Write(ByteText content, ImmutableArray<Painted<PageSpace>> areas, PdfStamps? stamps = null)
    {
        Ink? current = null;
        var named = new List<(string Called, NamedPart Part)>();
        for (var index = 0; index < areas.Length; index++)
        {
            var area = areas[index];
            if (area.Region.IsEmpty)
            {
                continue;
            }

            // A picture brings its own colours.
            if (area.Dots?.Content is not ColourDots && !area.Ink.Equals(current))
            {
                AddInk(content, area.Ink);
                current = area.Ink;
            }

            if (area.Dots is { } dots)
            {
                named.Add((dots.Content.Packed.Name, dots.Content.Packed));
                AddImage(content, dots);
                continue;
            }

            if (stamps is not null)
            {
                stamps.Add(content, index);
                continue;
            }

            AddPath(content, area.Region.Borders());

            // Outer borders run counter-clockwise and holes clockwise, so the nonzero rule leaves the holes open.
            content.Add("f\n"u8);
        }

        return [.. named, .. stamps?.Named() ?? []];
    }

    /// <summary>Sends the numbers in the ink's own space: a driver treats K alone, gray and RGB black in different ways (ISO 32000-1 clause 8.6.4).</summary>
    private static void AddInk(ByteText content, Ink ink)
    {
        foreach (var amount in ink.Amounts)
        {
            content.AddRounded(amount).Add(" "u8);
        }

        content.Add(ink.Space switch
        {
            InkSpace.Cmyk => "k\n"u8,
            InkSpace.Gray => "g\n"u8,
            InkSpace.Rgb => "rg\n"u8,
            _ => throw new ArgumentOutOfRangeException(nameof(ink), ink.Space, "an ink is CMYK, gray or RGB"),
        });
    }

    /// <summary>An image fills the square from 0 to 1, its first row along the upper edge (clause 8.9.5.1): that square is brought to the dots' place.</summary>
    private static void AddImage(ByteText content, PlacedDots<PageSpace> dots)
    {
        var (map, width, height) = (dots.Placement, dots.Content.WidthDots, dots.Content.HeightDots);
        var corner = map.Apply(new(0, height));
        content.Add("q"u8);
        foreach (var mm in (ReadOnlySpan<double>)[map.Xx * width, map.Yx * width, -map.Xy * height, -map.Yy * height, corner.XMm, corner.YMm])
        {
            content.Add(" "u8).AddExactPoints(mm);
        }

        content.Add(" cm /"u8).Add(dots.Content.Packed.Name).Add(" Do Q\n"u8);
    }

    private static void AddPath(ByteText content, ImmutableArray<Outline<PageSpace>> borders)
    {
        foreach (var border in borders)
        {
            var first = true;
            foreach (var point in border.Points)
            {
                content.AddPoints(point.XMm).Add(" "u8).AddPoints(point.YMm).Add(first ? " m\n"u8 : " l\n"u8);
                first = false;
            }

            content.Add("h\n"u8);
        }
    }
}
