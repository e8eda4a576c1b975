using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>What stands in the strips at the ends of every sheet: what it is, which way it was turned, and whether it was printed at its true size.</summary>
internal static class EndStrips
{
    private const double BoxMm = 5;
    private const double FrameMm = 0.25;
    private const double TextMm = 2;
    private const double SmallTextMm = 1.6;

    /// <summary>The strips of one side, without the pair code.</summary>
    public static Region<SheetSpace> Draw(SheetRoom room, Side side)
    {
        var regions = new List<Region<SheetSpace>> { Bar(room, side) };
        if (side == Side.Front)
        {
            regions.AddRange([Frame(room.TurnBoxA), Frame(room.TurnBoxB), Frame(room.TurnBoxFront)]);
            regions.Add(Letter("A", room.TurnBoxA, 1));
            regions.Add(Letter("B", room.TurnBoxB, -1));
            regions.Add(Letter("F", room.TurnBoxFront, -1));
            regions.Add(Caption("Held to a lamp, the tick must show in A. In B: other edge first. On this side: wrong face.", room, 1.7));
            regions.Add(Caption("Rows N E S W: count the dots that shine, each is 0.1 mm. None is best.", room, 5.2));
        }
        else
        {
            regions.Add(Tick(room.TurnBoxA));
        }

        return Region<SheetSpace>.Union(regions);
    }

    /// <summary>The line that names the sheet, its side and its pair code.</summary>
    public static Region<SheetSpace> Title(SheetRoom room, Side side, string title, string sheetId, string code)
    {
        var what = side == Side.Front ? "FRONT" : "MASK, back of the same sheet";
        var rest = $"  ·  {sheetId}  ·  {what}  ·  pair {code}";
        return SheetText.Centred(
            Shortened(title, TitleRoomMm(room) - SheetText.WidthMm(rest, TextMm)) + rest, TextMm, new(room.Paper.WidthMm / 2, room.TurnBoxA.YMm + 1.2), side);
    }

    /// <summary>What is free between the turn boxes with their letters.</summary>
    private static double TitleRoomMm(SheetRoom room) => room.TurnBoxFront.XMm - room.TurnBoxA.XMm - (2 * (BoxMm + 2));

    /// <summary>As much of the maker's own title as there is room for: the pair code behind it must not leave the paper.</summary>
    private static string Shortened(string title, double roomMm)
    {
        if (SheetText.WidthMm(title, TextMm) <= roomMm)
        {
            return title;
        }

        // Whole characters with their marks; half as many each time, then one more at a time.
        var starts = StringInfo.ParseCombiningCharacters(title);
        var fits = 0;
        for (var step = starts.Length / 2; step > 0; step /= 2)
        {
            while (fits + step < starts.Length && SheetText.WidthMm(title[..starts[fits + step]] + "…", TextMm) <= roomMm)
            {
                fits += step;
            }
        }

        return title[..starts[fits]].TrimEnd() + "…";
    }

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
