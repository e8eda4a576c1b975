using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Geometry;

namespace Lampblack.Formats;

/// <summary>Markup of pages for people: words made safe, and shapes as paths. It is well-formed XML and HTML at once.</summary>
internal static class HtmlMarkup
{
    /// <summary>Any text as contents or as an attribute's value.</summary>
    public static string Text(string text) => PrintableText.Clean(text)
        .Replace("&", "&amp;", StringComparison.Ordinal)
        .Replace("<", "&lt;", StringComparison.Ordinal)
        .Replace(">", "&gt;", StringComparison.Ordinal)
        .Replace("\"", "&quot;", StringComparison.Ordinal);

    /// <summary>A name of a file or of something to type.</summary>
    public static string Code(string text) => $"<code>{Text(text)}</code>";

    /// <summary>A drawing of a box, shown so wide.</summary>
    public static string Drawing<TSpace>(Box<TSpace> box, double shownWidthMm, string title, IEnumerable<string> paths)
        where TSpace : struct, ISpace => string.Create(
        CultureInfo.InvariantCulture,
        $"<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"{shownWidthMm:0.##}mm\" height=\"{shownWidthMm * box.HeightMm / box.WidthMm:0.##}mm\" viewBox=\"0 0 {box.WidthMm:0.##} {box.HeightMm:0.##}\"><title>{Text(title)}</title>{string.Concat(paths)}</svg>");

    /// <summary>A shape inside the drawing of a box. Corners nearer to the last than <paramref name="finestMm"/> are left out: a thumbnail needs few.</summary>
    public static string Shape<TSpace>(Region<TSpace> region, Box<TSpace> box, string fill, double finestMm)
        where TSpace : struct, ISpace
    {
        var path = new StringBuilder();
        foreach (var border in region.Borders())
        {
            var points = Coarse(border, finestMm);
            if (points.Count < 3)
            {
                continue;
            }

            var before = 'M';
            foreach (var point in points)
            {
                path.Append(CultureInfo.InvariantCulture, $"{before}{point.XMm - box.LeftMm:0.##} {box.TopMm - point.YMm:0.##}");
                before = ' ';
            }

            path.Append('Z');
        }

        return path.Length == 0 ? string.Empty : $"<path fill=\"{fill}\" fill-rule=\"evenodd\" d=\"{path}\"/>";
    }

    /// <summary>A picture that fills a box inside the drawing of another.</summary>
    public static string Image<TSpace>(byte[] png, Box<TSpace> place, Box<TSpace> box)
        where TSpace : struct, ISpace => string.Create(
        CultureInfo.InvariantCulture,
        $"<image x=\"{place.LeftMm - box.LeftMm:0.##}\" y=\"{box.TopMm - place.TopMm:0.##}\" width=\"{place.WidthMm:0.##}\" height=\"{place.HeightMm:0.##}\" preserveAspectRatio=\"none\" href=\"data:image/png;base64,{Convert.ToBase64String(png)}\"/>");

    private static List<Point<TSpace>> Coarse<TSpace>(Outline<TSpace> border, double finestMm)
        where TSpace : struct, ISpace
    {
        var kept = new List<Point<TSpace>>();
        foreach (var point in border.Points.Where(point => kept.Count == 0 || kept[^1].DistanceMm(point) >= finestMm))
        {
            kept.Add(point);
        }

        return kept;
    }
}
