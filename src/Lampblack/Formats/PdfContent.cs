using System;
using System.Collections.Immutable;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Formats;

/// <summary>The drawing operators of one page (ISO 32000-1 clause 8.5).</summary>
internal static class PdfContent
{
    /// <summary>Fills the areas in order, each as a path of its own.</summary>
    public static ByteText Write(ImmutableArray<Painted<PageSpace>> areas)
    {
        var content = new ByteText(1 << 16);
        Ink? current = null;
        foreach (var area in areas)
        {
            if (area.Region.IsEmpty)
            {
                continue;
            }

            if (!area.Ink.Equals(current))
            {
                AddInk(content, area.Ink);
                current = area.Ink;
            }

            AddPath(content, area.Region.Borders());

            // Outer borders run counter-clockwise and holes clockwise, so the nonzero rule leaves the holes open.
            content.Add("f\n"u8);
        }

        return content;
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
