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
    private const double EdgeMm = 0.2;

    /// <summary>The back: every body with the number of its hole and its name.</summary>
    public static BookPicture Back(HoleChart chart)
    {
        var (panel, scale) = (chart.Laid.Panel, Scale(chart));
        var pen = Begun(chart, scale, $"BACK of {panel.Title}, up is up");
        var (room, said) = (Room(chart, scale), new List<Labelled>());
        foreach (var part in chart.Laid.Parts.OrderBy(part => part.Origin.Item, StringComparer.Ordinal))
        {
            var label = chart.Holes.FirstOrDefault(hole => hole.Origin.Item == part.Origin.Item)?.Label ?? string.Empty;

            // The one mirror of this drawing: what is at the right from the front is at the left from behind.
            var (x, y) = (SideMm + ((panel.WidthMm - part.Centre.XMm) * scale), HeadMm + ((panel.HeightMm - part.Centre.YMm) * scale));
            if (part.Part.Body is not { } body)
            {
                pen.Circle(x, y, 1.7 * scale, ActPen.Paper, 0.25);
                room.Take(x, y, 3.6 * scale, 3.6 * scale);
                said.Add(new(label, Box<PageSpace>.Around(new(x, y), 3.6 * scale, 3.6 * scale), true));
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
            room.Take(left + (wide / 2), top + (high / 2), wide, high);
            said.Add(new(part.Origin.Name, new(left, top, wide, high), false));
        }

        // The number is enough where no place is left for the name: a number that stands beside its hole is always drawn, and first.
        foreach (var named in said.GroupBy(one => one.IsNeeded).OrderByDescending(group => group.Key))
        {
            foreach (var (one, x, y) in new LabelSides(room, LetterMm).Of([.. named]))
            {
                pen.Words(x, y + 0.9, one.Words, anchor: "middle", sizeMm: LetterMm);
            }
        }

        return pen.Picture(
            $"{panel.Title} seen from behind: bodies of the parts with the numbers of their holes",
            $"{Text(panel.Title)} SEEN FROM BEHIND: the bodies of the parts, with the numbers of their holes, and their names where there is room.");
    }

    /// <summary>The front: every hole with its number.</summary>
    public static BookPicture Front(HoleChart chart)
    {
        var (panel, scale) = (chart.Laid.Panel, Scale(chart));
        var pen = Begun(chart, scale, $"FRONT of {panel.Title}").Trace($"M{SideMm:0.##} {HeadMm + (panel.HeightMm * scale):0.##}v{-CornerMm}l{CornerMm} {CornerMm}z", ActPen.Ink);
        var room = Room(chart, scale);
        room.Take(SideMm + (CornerMm / 2), HeadMm + (panel.HeightMm * scale) - (CornerMm / 2), CornerMm, CornerMm);
        (string Label, double X, double Y, double Wide, double High)[] holes =
        [
            .. chart.Holes.Select(hole => (hole.Label, SideMm + (hole.Centre.XMm * scale), HeadMm + ((panel.HeightMm - hole.Centre.YMm) * scale), (hole.DiameterMm ?? hole.Shape.Bounds.WidthMm) * scale, (hole.DiameterMm ?? hole.Shape.Bounds.HeightMm) * scale)),
        ];
        foreach (var (hole, (_, x, y, wide, high)) in chart.Holes.Zip(holes))
        {
            if (hole.DiameterMm is not null)
            {
                pen.Circle(x, y, wide / 2, ActPen.Paper, 0.3, isDashed: hole.IsDrilled);
            }
            else
            {
                pen.Box(x - (wide / 2), y - (high / 2), wide, high, ActPen.Paper, 0.3, isDashed: hole.IsDrilled);
            }

            pen.Cross(x, y, 0.8);
            room.Frame(x - (wide / 2), y - (high / 2), wide, high);
            room.Take(x, y, IsRoomy(wide, high) ? 1.8 : wide, IsRoomy(wide, high) ? 1.8 : high);
        }

        foreach (var (label, x, y, _, _) in holes.Where(hole => IsRoomy(hole.Wide, hole.High)))
        {
            room.Take(x, y + 2.7, WordRoom.WideMm(label, LetterMm), WordRoom.HighMm);
            pen.Words(x, y + 3.6, label, isBold: true, anchor: "middle", sizeMm: LetterMm);
        }

        foreach (var (one, x, y) in new LabelSides(room, LetterMm).Of([.. holes.Where(hole => !IsRoomy(hole.Wide, hole.High)).Select(hole => new Labelled(hole.Label, Box<PageSpace>.Around(new(hole.X, hole.Y), hole.Wide, hole.High), true))]))
        {
            pen.Words(x, y + 0.9, one.Words, isBold: true, anchor: "middle", sizeMm: LetterMm);
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

    /// <summary>Whether a number has room in a hole, below its cross.</summary>
    private static bool IsRoomy(double wideMm, double highMm) => wideMm >= 7 && highMm >= 9;

    private static WordRoom Room(HoleChart chart, double scale) =>
        new(SideMm + EdgeMm, HeadMm + EdgeMm, SideMm + (chart.Laid.Panel.WidthMm * scale) - EdgeMm, HeadMm + (chart.Laid.Panel.HeightMm * scale) - EdgeMm);
}
