using System;
using System.Collections.Generic;
using Lampblack.Geometry;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>What the calibration sheet tells its maker to do.</summary>
internal static class CalibrationWords
{
    /// <summary>Letters are never smaller than this.</summary>
    private const double SmallestMm = 2.2;

    private const double LargestMm = 2.8;
    private const double LineShare = 1.68;
    private const double TitleMm = 3.2;

    /// <summary>A longer name or path is not told: whoever typed it knows it.</summary>
    private const int LongestTyped = 20;

    /// <summary>The title with an arrow up, and the steps.</summary>
    public static Region<SheetSpace> Steps(Box<SheetSpace> box, string paper, int copy)
    {
        var title = FormattableString.Invariant($"CALIBRATION SHEET  ·  {paper}  ·  copy {copy}");
        var top = box.RightMm - 11.5;
        return Region<SheetSpace>.Union(
        [
            SheetText.Starting(title, TitleMm, new(box.LeftMm, box.TopMm - TitleMm - 0.5, 1, TitleMm), Side.Front),
            WhichWaySheet.Arrow(new(top + 1.5, box.TopMm - 0.3), 4.1, 0.3),
            SheetText.Starting("TOP", TitleMm, new(top + 3.8, box.TopMm - TitleMm - 0.5, 1, TitleMm), Side.Front),
            Filling(box with { HeightMm = box.HeightMm - TitleMm - 2.2 },
            [
                "1  Print front.pdf at actual size (100 %), on the panels' paper, heavy setting.",
                "2  Turn it as the which-way sheet told; print back.pdf. Is its copy the same?",
                "3  Against a lamp, front to you, TOP up: a dot in each of the 24 windows?",
                "4  Photograph it on a light box or window: whole, flat, sharp, no flash.",
            ]),
        ]);
    }

    /// <summary>A line about the fuser.</summary>
    public static Region<SheetSpace> Caution(Box<SheetSpace> box, bool isBlackOnly) => SheetText.Centred(
        "Only paper that the printer's maker allows. The fuser is hot." + (isBlackOnly ? string.Empty : " Over C260 may flake."), SmallestMm, box.Centre, Side.Front);

    /// <summary>How to read a vernier, and what to type.</summary>
    public static Region<SheetSpace> Reading(Box<SheetSpace> box, string typed) => Region<SheetSpace>.Union(
    [
        SheetText.Starting("NO CAMERA? READ THE VERNIERS, a lamp behind", 2.4, new(box.LeftMm, box.TopMm - 2.8, 1, 2.4), Side.Front),
        Filling(box with { HeightMm = box.HeightMm - 4.6 },
        [
            "Whole: the front's number at the back's line 0, or just left of it (y: just below). Tenths: which of the back's lines, 0 to 10, runs straight on in one of the front's? In register: 5.0.",
            $"lampblack printer learn {(typed.Length > LongestTyped ? "NAME" : typed)} --vernier 1x=5.3,1y=4.8,2x=",
        ]),
    ]);

    /// <summary>What the back says of itself, to be read on the back.</summary>
    public static Region<SheetSpace> Back(Box<SheetSpace> box, string paper, int copy) => Region<SheetSpace>.Union(
    [
        SheetText.Centred("BACK", 3.6, new(box.Centre.XMm, box.TopMm - 4), Side.Back),
        SheetText.Centred(FormattableString.Invariant($"{paper}  ·  copy {copy}"), 3, new(box.Centre.XMm, box.TopMm - 9.4), Side.Back),
        SheetText.Centred("of the calibration sheet", SmallestMm, new(box.Centre.XMm, box.TopMm - 13.6), Side.Back),
    ]);

    /// <summary>Paragraphs in the largest letters, up to a limit, in which they fit.</summary>
    private static Region<SheetSpace> Filling(Box<SheetSpace> box, string[] paragraphs)
    {
        for (var height = LargestMm; ; height -= 0.1)
        {
            var shapes = new List<Region<SheetSpace>>();
            var top = box.TopMm;
            foreach (var paragraph in paragraphs)
            {
                foreach (var line in TrialDrawing.Wrapped(paragraph, height, box.WidthMm))
                {
                    shapes.Add(SheetText.Starting(line, height, new(box.LeftMm, top - height, 1, height), Side.Front));
                    top -= height * LineShare;
                }
            }

            // Below the last line there is room for its tails.
            if (height - 0.1 < SmallestMm || top + (height * (LineShare - 1.25)) >= box.BottomMm)
            {
                return Region<SheetSpace>.Union(shapes);
            }
        }
    }
}
