using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Geometry;

namespace Lampblack.Formats;

/// <summary>A drawing in layers: as a file in true size, or as a small sketch within a page.</summary>
/// <param name="WidthMm">Its width.</param>
/// <param name="HeightMm">Its height.</param>
/// <param name="Title">What it shows.</param>
/// <param name="Layers">Its layers, the lowest first; y points up.</param>
/// <typeparam name="TSpace">The space it is in.</typeparam>
public sealed record SvgDrawing<TSpace>(double WidthMm, double HeightMm, string Title, ImmutableArray<SvgLayer<TSpace>> Layers)
    where TSpace : struct, ISpace
{
    // At the size at which it is shown nobody sees less: half the width of a hair line.
    private const double ShownFinestMm = 0.05;

    // A large curve is seen to be one of corners sooner than a small one.
    private const double LargeMm = 20;
    private const double LargeShare = 0.15;
    private const int CornersOfCurve = 24;
    private const double HeadMm = 3;

    /// <summary>The file in true size.</summary>
    public ImmutableArray<byte> File() => SvgFile.Write(WidthMm, HeightMm, Title, Layers);

    /// <summary>
    /// The drawing as an element of a page, about a tenth as long as the file: corners that nobody sees are left out, places are whole numbers of half that
    /// fineness, each told from the one before. Layers that are pictures are left out.
    /// </summary>
    /// <param name="shownWidthMm">How wide it is shown.</param>
    /// <param name="title">What it shows, for those who don't see it.</param>
    /// <param name="head">What stands above it, in the page's own letters; empty for nothing.</param>
    public string Sketch(double shownWidthMm, string title, string head = "")
    {
        var finestMm = ShownFinestMm * Math.Max(1, WidthMm / shownWidthMm);
        var unitMm = finestMm / 2;
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" viewBox=\"0 0 {WidthMm / unitMm:0} {HeightMm / unitMm:0}\"><title>{HtmlMarkup.Text(title)}</title>");
        foreach (var layer in Layers.Where(layer => !layer.Region.IsEmpty))
        {
            text.Append(CultureInfo.InvariantCulture, $"<path fill=\"{layer.Fill}\" fill-rule=\"evenodd\" d=\"");
            foreach (var border in layer.Region.Borders())
            {
                var longestMm = LongestMm(border.Points.AsSpan());
                if (longestMm > finestMm)
                {
                    Add(text, Kept(border.Points.AsSpan(), longestMm > LargeMm && border.Points.Length > CornersOfCurve ? finestMm * LargeShare : finestMm), unitMm);
                }
            }

            text.Append("\"/>");
        }

        if (head.Length > 0)
        {
            var letterMm = HeadMm * Math.Max(1, WidthMm / shownWidthMm);
            text.Append(CultureInfo.InvariantCulture, $"<text x=\"{letterMm / unitMm:0}\" y=\"{1.7 * letterMm / unitMm:0}\" font-family=\"sans-serif\" font-weight=\"bold\" font-size=\"{letterMm / unitMm:0}\" fill=\"#111\">{HtmlMarkup.Text(head)}</text>");
        }

        return text.Append("</svg>").ToString();
    }

    private void Add(StringBuilder text, List<Point<TSpace>> points, double unitMm)
    {
        var (x, y, command) = (0L, 0L, 'M');
        foreach (var point in points)
        {
            var (nextX, nextY) = ((long)Math.Round(point.XMm / unitMm, MidpointRounding.AwayFromZero), (long)Math.Round((HeightMm - point.YMm) / unitMm, MidpointRounding.AwayFromZero));
            if (command == 'M')
            {
                text.Append(CultureInfo.InvariantCulture, $"M{nextX} {nextY}l");
            }
            else if (nextX != x || nextY != y)
            {
                text.Append(CultureInfo.InvariantCulture, $"{(command == 'l' ? string.Empty : " ")}{nextX - x}{(nextY < y ? string.Empty : " ")}{nextY - y}");
                command = ' ';
            }

            (x, y, command) = (nextX, nextY, command == 'M' ? 'l' : command);
        }

        text.Append('z');
    }

    /// <summary>The longer side of a border; nothing where it goes round nothing.</summary>
    private static double LongestMm(ReadOnlySpan<Point<TSpace>> points)
    {
        if (points.Length < 3)
        {
            return 0;
        }

        var (left, right, bottom, top) = (points[0].XMm, points[0].XMm, points[0].YMm, points[0].YMm);
        foreach (var point in points)
        {
            (left, right) = (Math.Min(left, point.XMm), Math.Max(right, point.XMm));
            (bottom, top) = (Math.Min(bottom, point.YMm), Math.Max(top, point.YMm));
        }

        return Math.Max(right - left, top - bottom);
    }

    /// <summary>The corners that are seen: all others lie nearer than the fineness to the line between their neighbours (Douglas and Peucker 1973).</summary>
    private static List<Point<TSpace>> Kept(ReadOnlySpan<Point<TSpace>> points, double finestMm)
    {
        if (points.Length < 4)
        {
            return [.. points];
        }

        var keep = new bool[points.Length];
        var far = 0;
        for (var index = 1; index < points.Length; index++)
        {
            far = points[index].DistanceMm(points[0]) > points[far].DistanceMm(points[0]) ? index : far;
        }

        keep[0] = keep[far] = true;
        var open = new Stack<(int From, int To)>([(0, far), (far, points.Length)]);
        while (open.TryPop(out var span))
        {
            var (farthest, farthestMm2) = (-1, finestMm * finestMm);
            for (var index = span.From + 1; index < span.To; index++)
            {
                var mm2 = OffLineMm2(points[index], points[span.From], points[span.To % points.Length]);
                if (mm2 > farthestMm2)
                {
                    (farthest, farthestMm2) = (index, mm2);
                }
            }

            if (farthest >= 0)
            {
                keep[farthest] = true;
                open.Push((span.From, farthest));
                open.Push((farthest, span.To));
            }
        }

        var kept = new List<Point<TSpace>>(points.Length);
        for (var index = 0; index < points.Length; index++)
        {
            if (keep[index])
            {
                kept.Add(points[index]);
            }
        }

        return kept;
    }

    /// <summary>The square of a point's distance from a stretch of a line.</summary>
    private static double OffLineMm2(Point<TSpace> point, Point<TSpace> from, Point<TSpace> to)
    {
        var (dx, dy) = (to.XMm - from.XMm, to.YMm - from.YMm);
        var squared = (dx * dx) + (dy * dy);
        var along = squared > 0 ? Math.Clamp((((point.XMm - from.XMm) * dx) + ((point.YMm - from.YMm) * dy)) / squared, 0, 1) : 0;
        var (offX, offY) = (point.XMm - from.XMm - (along * dx), point.YMm - from.YMm - (along * dy));
        return (offX * offX) + (offY * offY);
    }
}
