using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>What stands in the strips at the ends of every sheet: what it is, which way it was turned, and whether it was printed at its true size.</summary>
internal static class EndStrips
{
    private const double CornerMm = 27;
    private const int MostTitleRunes = 150;
    private const double TextMm = 2;
    private const double SmallTextMm = 1.5;

    /// <summary>The strips of one side, without the pair code, as far as no panel reaches into them: a turn box or a scale must never cover artwork.</summary>
    public static Region<SheetSpace> Draw(SheetRoom room, Side side, IReadOnlyList<Box<SheetSpace>> taken)
    {
        var regions = new List<Region<SheetSpace>> { TrialDrawing.Bar(room.Paper.WidthMm / 2, room.MarginMm + 1, side) };
        var boxA = TurnMarks.Box("A", room.TurnBoxA, room);
        if (!IsFree(boxA, taken))
        {
            // Without the box that must show the tick, the others and what is said of them mean nothing.
        }
        else if (side == Side.Front)
        {
            regions.Add(boxA);
            regions.Add(TurnMarks.Box("B", room.TurnBoxB, room));
            regions.AddRange(room.TurnBoxesFront.Select(box => TurnMarks.Box("F", box, room)));
            regions.Add(Caption("Held to a lamp, the tick must show in A. In B: other edge first. A tick printed here in F: wrong face.", room, 1.7));
        }
        else
        {
            regions.Add(TurnMarks.Tick(room.TurnBoxA));
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
        SheetRoom room, Side side, string title, string sheetId, string code, int revision, IReadOnlyList<Box<SheetSpace>> taken) =>
        Title(room, side, title, sheetId, side == Side.Front ? "FRONT" : "MASK, back of the same sheet", code, revision, taken);

    /// <summary>The same for a mask on film. It reads right on the film's printed side, as the page is not mirrored.</summary>
    public static Region<SheetSpace> FilmTitle(SheetRoom room, string title, string sheetId, string code, IReadOnlyList<Box<SheetSpace>> taken) =>
        Title(room, Side.Front, title, sheetId, "MASK ON FILM, this side against the front's back", code, 0, taken);

    private static Region<SheetSpace> Title(
        SheetRoom room, Side side, string title, string sheetId, string what, string code, int revision, IReadOnlyList<Box<SheetSpace>> taken)
    {
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
}
