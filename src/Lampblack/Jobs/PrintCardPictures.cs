using System;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Quantities;
using Lampblack.Sheets;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Jobs;

/// <summary>The small pictures of the print card, made from the shapes that are printed.</summary>
internal static class PrintCardPictures
{
    private const string Lamp = "#f6dd9a";
    private const string Paper = "#ffffff";
    private const string Black = "#111111";
    private const string Gray = "#8a8a8a";
    private const double ThumbFinestMm = 0.5;
    private const double FineMm = 0.03;
    private const double MostThumbDots = 800;

    // Of the fineness of other drawings: as shown, a step of it is that of a printer with 600 dots to the inch.
    private const double SmallShare = 0.6;
    private static readonly Box<SheetSpace> TurnSheet = new(0, 0, 40, 56);

    /// <summary>A page as it comes out of the printer.</summary>
    public static string Page(PdfPage page, double shownWidthMm, string title)
    {
        var box = new Box<PageSpace>(0, 0, page.WidthMm, page.HeightMm);
        return Drawing(box, shownWidthMm, title, page.Areas.Select(area => area.Dots is null
            ? Shape(area.Region, box, PictureFiles.Fill(area.Ink), ThumbFinestMm)
            : Dots(area, box))
            .Prepend(Shape(Region<PageSpace>.Rectangle(box), box, Paper, 0)));
    }

    /// <summary>The same for a page that shows it once and has many others: much shorter, unless it holds pictures in dots.</summary>
    public static string SmallPage(PdfPage page, double shownWidthMm, string title) => page.Areas.Any(area => area.Dots is not null)
        ? Page(page, shownWidthMm, title)
        : new SvgDrawing<PageSpace>(page.WidthMm, page.HeightMm, title, [new("paper", "paper", Region<PageSpace>.Rectangle(new(0, 0, page.WidthMm, page.HeightMm)), Paper), .. page.Areas.Select(area => new SvgLayer<PageSpace>("area", "area", area.Region, PictureFiles.Fill(area.Ink)))])
            .Sketch(shownWidthMm * SmallShare, title);

    /// <summary>Dots as a small embedded picture.</summary>
    private static string Dots(Painted<PageSpace> area, Box<PageSpace> page)
    {
        var box = area.Region.Bounds;
        using var picture = DotPicture.Of(area.Dots!, box, Math.Max(ThumbFinestMm, Math.Max(box.WidthMm, box.HeightMm) / MostThumbDots), PictureFiles.Colour(area.Ink));
        return Image(PngFile.Write(picture, withAlpha: true), box, page);
    }

    /// <summary>A sheet held to a lamp, with the tick in one of its boxes: 'A', 'B', or 'F' for the side that one looks at.</summary>
    public static string Turn(char tickIn, double shownWidthMm, string title)
    {
        var (a, b, f) = (new Point<SheetSpace>(6, 50), new Point<SheetSpace>(34, 6), new Point<SheetSpace>(34, 50));
        var frames = Region<SheetSpace>.Union(
        [
            TrialDrawing.Lines(Region<SheetSpace>.Rectangle(TurnSheet.Grow(-0.2)), 0.4),
            .. new[] { (a, "A", 6), (b, "B", -6), (f, "F", -6), (new Point<SheetSpace>(6, 6), "F", 6) }.Select(corner => TurnMarks.Frame(corner.Item1, 8, 0.3)
                .Union(SheetText.Centred(corner.Item2, 3.4, new(corner.Item1.XMm + corner.Item3, corner.Item1.YMm), Side.Front))),
            WhichWaySheet.Arrow(new(20, 40), 14, 0.4),
        ]);
        var tick = tickIn switch
        {
            'A' => TurnMarks.Tick(a, 1.5),
            'B' => TurnMarks.Tick(default, 1.5).Map(Affine<SheetSpace, SheetSpace>.Turn(180).Then(Affine<SheetSpace, SheetSpace>.Shift(b.XMm, b.YMm))),
            _ => TurnMarks.Tick(f, 1.5, mirrored: true),
        };
        return Drawing(
            TurnSheet,
            shownWidthMm,
            title,
            [
                Shape(Region<SheetSpace>.Rectangle(TurnSheet), TurnSheet, tickIn == 'F' ? Paper : Lamp, 0),
                Shape(frames, TurnSheet, Black, FineMm),
                Shape(tick, TurnSheet, tickIn == 'F' ? Black : Gray, FineMm),
            ]);
    }

    /// <summary>The dot row N against a lamp, with the back so far up.</summary>
    public static string Dots(double upMm, double shownWidthMm, string title)
    {
        var row = DotRow.All[0];
        var (width, height) = row.Sizes[0];
        var box = new Box<SheetSpace>(0, 0, width, height);
        var drawing = row.Draw(box, new(Ink.FullK, Ink.FullK));
        var front = Region<SheetSpace>.Union(drawing.Front.Select(area => area.Region));
        var back = Region<SheetSpace>.Union(drawing.Back.Select(area => area.Region)).Map(Affine<SheetSpace, SheetSpace>.Shift(0, upMm));
        return Drawing(
            box,
            shownWidthMm,
            title,
            [
                Shape(Region<SheetSpace>.Rectangle(box), box, Lamp, 0),
                Shape(back.Intersect(Region<SheetSpace>.Rectangle(box)), box, Black, FineMm),
                Shape(front, box, Black, FineMm),
            ]);
    }
}
