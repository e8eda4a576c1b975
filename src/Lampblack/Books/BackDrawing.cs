using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Fabrication;
using Lampblack.Geometry;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>A panel as a bench needs it, in letters that can be read in print: its back with the bodies, its front with the holes.</summary>
internal static class BackDrawing
{
    private const double LetterMm = WireChains.LetterMm;
    private const double SideMm = 2;
    private const double HeadMm = 6;
    private const double MostHighMm = 104;
    private const double CornerMm = 5;

    /// <summary>The back: every body with the number of its hole and its name.</summary>
    public static BookPicture Back(HoleChart chart)
    {
        var (panel, scale) = (chart.Laid.Panel, Scale(chart));
        var pen = Begun(chart, scale, $"BACK of {panel.Title}, up is up");
        var names = new List<Box<BackSpace>>();
        foreach (var part in chart.Laid.Parts.OrderBy(part => part.Origin.Item, StringComparer.Ordinal))
        {
            var label = chart.Holes.FirstOrDefault(hole => hole.Origin.Item == part.Origin.Item)?.Label ?? string.Empty;

            // The one mirror of this drawing: what is at the right from the front is at the left from behind.
            var (x, y) = (SideMm + ((panel.WidthMm - part.Centre.XMm) * scale), HeadMm + ((panel.HeightMm - part.Centre.YMm) * scale));
            if (part.Part.Body is not { } body)
            {
                pen.Circle(x, y, 1.7 * scale, ActPen.Paper, 0.25).Words(x, y + (1.7 * scale) + 3, label, anchor: "middle", sizeMm: LetterMm);
                continue;
            }

            var box = part.Body().Bounds;
            var (left, top, wide, high) = (SideMm + ((panel.WidthMm - box.RightMm) * scale), HeadMm + ((panel.HeightMm - box.TopMm) * scale), box.WidthMm * scale, box.HeightMm * scale);
            if (body.IsRound)
            {
                pen.Circle(left + (wide / 2), top + (high / 2), wide / 2, ActPen.Wood, 0.3);
            }
            else
            {
                pen.Box(left, top, wide, high, ActPen.Wood, 0.3);
            }

            pen.Words(left + (wide / 2), top + (high / 2) + 1, label, isBold: true, anchor: "middle", sizeMm: 3);
            Name(pen, names, part.Origin.Name, left + (wide / 2), top + high + 3, top - 1);
        }

        return pen.Picture(
            $"{panel.Title} seen from behind: bodies of the parts with the numbers of their holes",
            $"{Text(panel.Title)} SEEN FROM BEHIND: the bodies of the parts, with the numbers of their holes and their names.");
    }

    /// <summary>The front: every hole with its number.</summary>
    public static BookPicture Front(HoleChart chart)
    {
        var (panel, scale) = (chart.Laid.Panel, Scale(chart));
        var pen = Begun(chart, scale, $"FRONT of {panel.Title}").Trace($"M{SideMm:0.##} {HeadMm + (panel.HeightMm * scale):0.##}v{-CornerMm}l{CornerMm} {CornerMm}z", ActPen.Ink);
        foreach (var hole in chart.Holes)
        {
            var box = hole.Shape.Bounds;
            var (x, y) = (SideMm + (hole.Centre.XMm * scale), HeadMm + ((panel.HeightMm - hole.Centre.YMm) * scale));
            if (hole.DiameterMm is { } across)
            {
                pen.Circle(x, y, across * scale / 2, ActPen.Paper, 0.3, isDashed: hole.IsDrilled);
            }
            else
            {
                pen.Box(SideMm + (box.LeftMm * scale), HeadMm + ((panel.HeightMm - box.TopMm) * scale), box.WidthMm * scale, box.HeightMm * scale, ActPen.Paper, 0.3, isDashed: hole.IsDrilled);
            }

            var (isWide, isLow) = (box.WidthMm * scale >= 7, box.HeightMm * scale >= 4);
            pen.Cross(x, y, 0.8).Words(isWide && isLow ? x : x + (box.WidthMm * scale / 2) + 0.8, isWide && isLow ? y + 4 : y - 0.8, hole.Label, isBold: true, anchor: isWide && isLow ? "middle" : "start", sizeMm: LetterMm);
        }

        return pen.Picture(
            $"{panel.Title}: holes with their numbers, seen from the front",
            $"{Text(panel.Title)}: the holes with their numbers, seen from the front. The black corner is the lower left one.");
    }

    private static double Scale(HoleChart chart) => Math.Min(1.2, Math.Min((WireChains.WidthMm - (2 * SideMm)) / chart.Laid.Panel.WidthMm, (MostHighMm - HeadMm) / chart.Laid.Panel.HeightMm));

    private static ActPen Begun(HoleChart chart, double scale, string head)
    {
        var panel = chart.Laid.Panel;
        return new ActPen(Math.Max(60, (panel.WidthMm * scale) + (2 * SideMm)), HeadMm + (panel.HeightMm * scale)).Words(SideMm, 4, ActPen.Fitting(head, WireChains.WidthMm - 4, 3), isBold: true, sizeMm: 3)
            .Box(SideMm, HeadMm, panel.WidthMm * scale, panel.HeightMm * scale, "#f4f1e8", 0.5, panel.CornerMm * scale);
    }

    /// <summary>Below its body, else above, where no other name stands; else not at all: the number is enough.</summary>
    private static void Name(ActPen pen, List<Box<BackSpace>> names, string name, double xMm, double belowMm, double aboveMm)
    {
        var wide = name.Length * LetterMm * 0.56;
        foreach (var y in new[] { belowMm, aboveMm, belowMm + 3, aboveMm - 3 })
        {
            var place = new Box<BackSpace>(xMm - (wide / 2), y - LetterMm, wide, LetterMm + 0.6);
            if (xMm - (wide / 2) > 0.5 && xMm + (wide / 2) < WireChains.WidthMm - 0.5 && !names.Exists(other => other.Overlaps(place)))
            {
                names.Add(place);
                pen.Words(xMm, y, name, anchor: "middle", sizeMm: LetterMm);
                return;
            }
        }
    }
}
