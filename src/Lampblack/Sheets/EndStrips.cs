using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>What stands in the strips at the ends of every sheet: what it is, which way it was turned, and whether it was printed at its true size.</summary>
internal static class EndStrips
{
    private const double BoxMm = 5;
    private const double CornerMm = 27;
    private const int MostTitleRunes = 150;
    private const double FrameMm = 0.25;
    private const double TextMm = 2;
    private const double SmallTextMm = 1.5;

    /// <summary>The strips of one side, without the pair code, as far as no panel reaches into them: a turn box or a scale must never cover artwork.</summary>
    public static Region<SheetSpace> Draw(SheetRoom room, Side side, IReadOnlyList<Box<SheetSpace>> taken)
    {
        var regions = new List<Region<SheetSpace>> { Bar(room, side) };
        var frameA = Frame(room.TurnBoxA);
        if (!IsFree(frameA, taken))
        {
            // Without the box that must show the tick, the others and what is said of them mean nothing.
        }
        else if (side == Side.Front)
        {
            regions.Add(frameA.Union(Letter("A", room.TurnBoxA, 1)));
            regions.Add(Frame(room.TurnBoxB).Union(Letter("B", room.TurnBoxB, -1)));
            regions.AddRange(room.TurnBoxesFront.Select(box => Frame(box).Union(Letter("F", box, box.XMm < room.Paper.WidthMm / 2 ? 1 : -1))));
            regions.Add(Caption("Held to a lamp, the tick must show in A. In B: other edge first. A tick printed here in F: wrong face.", room, 1.7));
        }
        else
        {
            regions.Add(Tick(room.TurnBoxA));
        }

        regions.AddRange(room.ReadingScales.Select(scale => side == Side.Front ? ReadingScale.Front(scale.Name, scale.Middle) : ReadingScale.Back(scale.Middle)));
        if (side == Side.Front)
        {
            regions.Add(Caption(
                "Bar: 99.4 to 100.6 mm, or print at actual size.  Rows N E S W: count the dots that shine, 0.1 mm each.  Scales NE NW SE SW: where the back's line stands, a mark each 0.5 mm.",
                room,
                5.4));
        }

        return Region<SheetSpace>.Union(regions.Where(region => IsFree(region, taken)));
    }

    /// <summary>The line that names the sheet, its side and its pair code.</summary>
    public static Region<SheetSpace> Title(
        SheetRoom room, Side side, string title, string sheetId, string code, int revision, IReadOnlyList<Box<SheetSpace>> taken)
    {
        var what = side == Side.Front ? "FRONT" : "MASK, back of the same sheet";
        var register = revision == 0 ? string.Empty : string.Create(CultureInfo.InvariantCulture, $"  ·  register {revision}");
        var rest = $"{sheetId}  ·  {what}  ·  pair {code}{register}";
        var text = $"{Shortened(title, room.Paper.WidthMm - (2 * (room.MarginMm + CornerMm)) - SheetText.WidthMm(rest, TextMm))}  ·  {rest}";
        var line = SheetText.Centred(text, TextMm, new(room.Paper.WidthMm / 2, room.TurnBoxA.YMm + 1.2), side);
        return IsFree(line, taken) ? line : Region<SheetSpace>.Empty;
    }

    /// <summary>A title cut to a width, so that it stays between the turn boxes.</summary>
    private static string Shortened(string title, double widthMm)
    {
        var runes = title.EnumerateRunes().Take(MostTitleRunes + 1).ToList();
        var whole = runes.Count <= MostTitleRunes;
        for (var count = Math.Min(runes.Count, MostTitleRunes); count > 0; count--)
        {
            var text = string.Concat(runes.Take(count)) + (whole && count == runes.Count ? string.Empty : "…");
            if (SheetText.WidthMm(text + "  ·  ", TextMm) <= widthMm)
            {
                return text;
            }
        }

        return string.Empty;
    }

    private static bool IsFree(Region<SheetSpace> region, IReadOnlyList<Box<SheetSpace>> taken) =>
        !taken.Any(box => box.Overlaps(region.Bounds));

    private static Region<SheetSpace> Caption(string text, SheetRoom room, double upMm) =>
        upMm > 5
            ? SheetText.Centred(text, SmallTextMm, new(room.Paper.WidthMm / 2, room.MarginMm + upMm), Side.Front)
            : SheetText.Centred(text, SmallTextMm, new(room.Paper.WidthMm / 2, room.TurnBoxA.YMm - upMm), Side.Front);

    private static Region<SheetSpace> Frame(Point<SheetSpace> middle)
    {
        var box = new Box<SheetSpace>(middle.XMm - (BoxMm / 2), middle.YMm - (BoxMm / 2), BoxMm, BoxMm);
        return Region<SheetSpace>.Rectangle(box).Except(Region<SheetSpace>.Rectangle(box.Grow(-FrameMm)));
    }

    private static Region<SheetSpace> Letter(string letter, Point<SheetSpace> middle, int towards) =>
        SheetText.Centred(letter, 2.6, new(middle.XMm + (towards * (BoxMm / 2 + 1.8)), middle.YMm), Side.Front);

    /// <summary>A tick, heavy enough to be seen through the paper. Its long arm points up and to the right in front view.</summary>
    private static Region<SheetSpace> Tick(Point<SheetSpace> middle) => Region<SheetSpace>.Stroke(
        new([new(middle.XMm - 1.5, middle.YMm), new(middle.XMm - 0.4, middle.YMm - 1.3), new(middle.XMm + 1.6, middle.YMm + 1.5)], Closed: false),
        0.8,
        LineEnd.Round);

    /// <summary>A line of exactly 100 mm with a mark every 10, to be measured with a ruler.</summary>
    private static Region<SheetSpace> Bar(SheetRoom room, Side side)
    {
        var left = (room.Paper.WidthMm / 2) - 50;
        var y = room.MarginMm + 1;
        var marks = Enumerable.Range(0, 11).Select(step =>
        {
            var height = step % 5 == 0 ? 2.4 : 1.4;
            var x = left + (10 * step);

            // The outer edges of the end marks are 100 mm apart.
            var from = step == 0 ? x : step == 10 ? x - 0.2 : x - 0.1;
            return Region<SheetSpace>.Rectangle(new(from, y, 0.2, height));
        });
        var line = Region<SheetSpace>.Rectangle(new(left, y, 100, 0.2));
        var textAt = new Point<SheetSpace>(side == Side.Front ? left + 107 : left - 7, y + 1);
        return Region<SheetSpace>.Union([line, .. marks, SheetText.Centred("100 mm", TextMm, textAt, side)]);
    }
}
