using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Bitmaps;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>Draws the black wedge: its patches, and what stands beside them.</summary>
internal static class CalibrationWedge
{
    private const double TitleMm = 2.4;
    private const double NameMm = 2.2;

    /// <summary>A patch in an ink, as an area or as dots. Gray and RGB go as pictures in their own space, four inks as dots of one ink: as panels are printed.</summary>
    public static Painted<SheetSpace> Patch(Box<SheetSpace> box, Ink ink, bool isImage)
    {
        if (!isImage)
        {
            return new(Region<SheetSpace>.Rectangle(box), ink);
        }

        // 600 dots per inch, or just about.
        var dots = (int)Math.Round(box.WidthMm / 25.4 * 600, MidpointRounding.AwayFromZero);
        if (ink.Space == InkSpace.Cmyk)
        {
            var builder = new BitRasterBuilder(dots, dots);
            for (var row = 0; row < dots; row++)
            {
                builder.SetRun(row, 0, dots);
            }

            var raster = builder.ToRaster();
            return Painted<SheetSpace>.Stencil(raster, new Stencil(raster).Filling(box), ink);
        }

        var codes = ink.Amounts.Select(amount => (byte)Math.Round(amount * 255, MidpointRounding.AwayFromZero)).ToArray();
        var picture = new ColourDots(ink.Space, dots, dots, [.. Enumerable.Range(0, dots * dots).SelectMany(_ => codes)], null);
        return Painted<SheetSpace>.Picture(picture, picture.Filling(box));
    }

    /// <summary>The words of all groups.</summary>
    public static Region<SheetSpace> Words(CalibrationLayout layout, bool isBlackOnly)
    {
        var words = new List<Region<SheetSpace>>();
        var blacks = CalibrationPatches.Blacks(isBlackOnly).Select(black => black.Name).Append("paper").ToList();
        Table(words, layout.WedgeFront, "BLACK ON THE FRONT", blacks, ["vector", "image"]);
        Table(words, layout.WedgeBack, "BLACK ON THE BACK", blacks, ["vector", "image"]);
        Table(words, layout.WedgeBoth, "BLACK ON BOTH SIDES", blacks, ["vector", "image"]);
        Under(words, layout.Opaque, "DARKEST");
        if (!isBlackOnly)
        {
            Table(
                words,
                layout.WedgeSteps,
                "TONER IN PERCENT",
                [.. CalibrationPatches.Coverages.Select(coverage => FormattableString.Invariant($"C{coverage * 100:0}")), "paper"],
                ["front", "both"],
                "Rub, fold, pull tape off: which flake, which hold?");
            Under(words, layout.Beside, "K | FIELD");
        }

        return Region<SheetSpace>.Union(words);
    }

    private static void Table(List<Region<SheetSpace>> words, Box<SheetSpace> group, string title, List<string> columns, string[] rows, string? below = null)
    {
        words.Add(Starting(title, TitleMm, group.LeftMm + 0.3, group.TopMm - TitleMm - 0.3));
        foreach (var (column, name) in columns.Index())
        {
            var cell = CalibrationPatches.Cell(group, column, 0);
            words.Add(SheetText.Centred(name, NameMm, new(cell.Centre.XMm, cell.TopMm + 0.9 + (NameMm / 2)), Side.Front));
        }

        foreach (var (row, name) in rows.Index())
        {
            words.Add(Starting(name, NameMm, group.LeftMm + 0.3, CalibrationPatches.Cell(group, 0, row).Centre.YMm - (NameMm / 2)));
        }

        if (below is not null)
        {
            words.Add(Starting(below, NameMm, group.LeftMm + 0.3, CalibrationPatches.Cell(group, 0, 1).BottomMm - 1.4 - NameMm));
        }
    }

    private static void Under(List<Region<SheetSpace>> words, Box<SheetSpace> box, string text) =>
        words.Add(SheetText.Centred(text, NameMm, new(box.Centre.XMm, box.BottomMm + 0.5 + (NameMm / 2)), Side.Front));

    private static Region<SheetSpace> Starting(string text, double heightMm, double leftMm, double bottomMm) =>
        SheetText.Starting(text, heightMm, new(leftMm, bottomMm, 1, heightMm), Side.Front);
}
