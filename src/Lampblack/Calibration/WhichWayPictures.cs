using System.Collections.Generic;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>The four pictures on the which-way sheet: where the tick can be, what it means, what to type.</summary>
internal static class WhichWayPictures
{
    private const double FrameMm = 0.2;

    /// <summary>What shines through the paper is gray, what lies on this side black.</summary>
    private const double ThroughShare = 0.45;

    private static readonly Picture[] All =
    [
        new(
            "A: right", "In box A, seen through the paper. Nothing needs to be turned.", "A", IsThrough: true),
        new(
            "B: turned about", "In box B, seen through the paper. Keep feeding it just so; every mask will be turned for you.", "B", IsThrough: true),
        new(
            "F: wrong face", "In an F, printed on this side. Print back.pdf on the other face; look again.", "front", IsThrough: false),
        new(
            "None: scaled", "In no box, or half beside one. The page was fitted: print both again at actual size.", "none", IsThrough: true),
    ];

    /// <summary>Draws them in a row that hangs from a height.</summary>
    public static IEnumerable<Painted<SheetSpace>> Draw(SheetRoom room, double topMm, double scale, Ink ink, string name)
    {
        var (gap, left) = (7 * scale, 20 * scale);
        var pitch = (room.Paper.WidthMm - (2 * left) + gap) / All.Length;
        var thumbMm = 36 * scale;
        var black = new List<Region<SheetSpace>>();
        var gray = new List<Region<SheetSpace>>();
        for (var index = 0; index < All.Length; index++)
        {
            var (picture, x) = (All[index], left + (index * pitch));
            black.Add(SheetText.Starting(picture.Title, 3 * scale, new(x, topMm - (3 * scale), pitch, 3 * scale), Side.Front));
            var share = thumbMm / room.Paper.WidthMm;
            var sheet = new Box<SheetSpace>(x, topMm - (6 * scale) - (room.Paper.HeightMm * share), thumbMm, room.Paper.HeightMm * share);
            black.Add(Thumb(sheet, scale));
            (picture.IsThrough ? gray : black).Add(TickOf(picture, sheet, scale));
            var (text, below) = TrialDrawing.Paragraph(picture.Meaning, 2.3 * scale, x, sheet.BottomMm - (2.5 * scale), pitch - gap);
            black.Add(text);
            black.Add(TrialDrawing.Paragraph($"lampblack printer learn {name} --tick {picture.Answer}", 2.3 * scale, x, below - (1.5 * scale), pitch - gap).Shape);
        }

        var through = ink.Space == InkSpace.Gray ? Ink.Gray(1 - ThroughShare) : Ink.Cmyk(0, 0, 0, ThroughShare);
        return [new(Region<SheetSpace>.Union(black), ink), new(Region<SheetSpace>.Union(gray), through)];
    }

    /// <summary>A small sheet with its arrow and its boxes, which are drawn larger than they are.</summary>
    private static Region<SheetSpace> Thumb(Box<SheetSpace> sheet, double scale)
    {
        var boxMm = 5 * scale;
        var shapes = new List<Region<SheetSpace>>
        {
            TrialDrawing.Lines(Region<SheetSpace>.Rectangle(sheet)),
            WhichWaySheet.Arrow(new(sheet.Centre.XMm, sheet.TopMm - (8 * scale)), 9 * scale, FrameMm),
            SheetText.Centred("TOP", 3 * scale, new(sheet.Centre.XMm, sheet.TopMm - (21 * scale)), Side.Front),
        };
        foreach (var (letter, isLeft, isTop) in new[] { ("A", true, true), ("F", false, true), ("F", true, false), ("B", false, false) })
        {
            var middle = Corner(sheet, isLeft, isTop, scale);
            shapes.Add(TurnMarks.Frame(middle, boxMm, FrameMm));
            shapes.Add(SheetText.Centred(letter, 2 * scale, new(middle.XMm + ((isLeft ? 1 : -1) * 4.2 * scale), middle.YMm), Side.Front));
        }

        return Region<SheetSpace>.Union(shapes);
    }

    private static Point<SheetSpace> Corner(Box<SheetSpace> sheet, bool isLeft, bool isTop, double scale) => new(
        isLeft ? sheet.LeftMm + (3.5 * scale) : sheet.RightMm - (3.5 * scale),
        isTop ? sheet.TopMm - (3.5 * scale) : sheet.BottomMm + (3.5 * scale));

    private static Region<SheetSpace> TickOf(Picture picture, Box<SheetSpace> sheet, double scale)
    {
        var a = Corner(sheet, isLeft: true, isTop: true, scale);
        return picture.Answer switch
        {
            "A" => TurnMarks.Tick(a, scale),
            "B" => HalfTurned(TurnMarks.Tick(default, scale), Corner(sheet, isLeft: false, isTop: false, scale)),
            "front" => TurnMarks.Tick(Corner(sheet, isLeft: false, isTop: true, scale), scale, mirrored: true),
            _ => TurnMarks.Tick(new(a.XMm + (3.4 * scale), a.YMm - (5 * scale)), 0.94 * scale),
        };
    }

    private static Region<SheetSpace> HalfTurned(Region<SheetSpace> atOrigin, Point<SheetSpace> middle) =>
        atOrigin.Map(Affine<SheetSpace, SheetSpace>.Turn(180).Then(Affine<SheetSpace, SheetSpace>.Shift(middle.XMm, middle.YMm)));

    /// <summary>One of the pictures.</summary>
    /// <param name="Title">What it is called.</param>
    /// <param name="Meaning">What it means and what to do.</param>
    /// <param name="Answer">What is typed behind <c>--tick</c>.</param>
    /// <param name="IsThrough">Whether the tick is seen through the paper.</param>
    private sealed record Picture(string Title, string Meaning, string Answer, bool IsThrough);
}
