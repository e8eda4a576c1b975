using System;
using System.Text;
using Lampblack.Geometry;

namespace Lampblack.Formats;

/// <summary>Regions as SVG path data (SVG 1.1, clause 8.3), in mm, y pointing down from the upper edge of what they are drawn on.</summary>
public static class SvgPath
{
    /// <summary>The region's borders; both fill rules give the same area. Empty for an empty region.</summary>
    /// <param name="region">The area.</param>
    /// <param name="heightMm">Height of what it is drawn on.</param>
    /// <typeparam name="TSpace">The space it is in.</typeparam>
    public static string Of<TSpace>(Region<TSpace> region, double heightMm)
        where TSpace : struct, ISpace
    {
        ArgumentNullException.ThrowIfNull(region);
        var text = new ByteText(region.CornerCount * 16);
        Add(text, region, heightMm);
        return Encoding.ASCII.GetString(text.Written);
    }

    /// <summary>Adds the borders with y pointing down, as SVG has it; a place where the numbers turn, not a transform that a program may drop.</summary>
    internal static void Add<TSpace>(ByteText file, Region<TSpace> region, double heightMm)
        where TSpace : struct, ISpace
    {
        foreach (var border in region.Borders())
        {
            // After the first point of a sub-path more pairs are lines (SVG 1.1 clause 8.3.2).
            var before = "M"u8;
            foreach (var point in border.Points)
            {
                file.Add(before).AddMm(point.XMm).Add(" "u8).AddMm(heightMm - point.YMm);
                before = " "u8;
            }

            file.Add("Z"u8);
        }
    }
}
