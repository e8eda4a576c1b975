using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>
/// The which-way sheet: a front with an arrow and boxes, a back with nothing but a tick. Held to a lamp, the place of the tick tells which edge went in first
/// and which face was printed. In K alone, on plain paper, and always without a half-turn, so that an answer stands for itself.
/// </summary>
public static class WhichWaySheet
{
    private static readonly string[] Steps =
    [
        "1   Before printing: lay one plain sheet in as you always do. Pencil a cross on the face that lies up, and mark the edge that goes into the printer first.",
        "2   Print front.pdf on it: one-sided, at actual size (100 %), never fitted to the page.",
        "3   Is the pencil cross on this side now, with the arrow? Then your printer prints the face that lies up: lay the sheet in again with the white side up. "
            + "Is it on the other side? Then white side down. Either way the marked edge goes in first again.",
        "4   Print back.pdf on the white side, one-sided, at actual size.",
        "5   Hold the sheet to a lamp or a window, this side towards you, TOP up. Where is the tick? Type what stands below its picture; NAME is what you call your printer. Add --cross front if your pencil cross is on this side, --cross back if it is on the other.",
        "A printer that turns the sheet itself: print duplex.pdf (two-sided, long edge) in place of 2 to 4.",
    ];

    /// <summary>The front page.</summary>
    /// <param name="paper">The paper.</param>
    /// <param name="printer">What is known of the printer; only its margins count.</param>
    public static PdfPage FrontPage(PaperSize paper, PrinterProperties printer)
    {
        var plain = Plain(paper, printer);
        return Page(paper, Front(SheetRoom.Of(paper, plain)), PageMapping.Front(plain));
    }

    /// <summary>The back page.</summary>
    /// <param name="paper">The paper.</param>
    /// <param name="printer">What is known of the printer; only its margins count.</param>
    public static PdfPage BackPage(PaperSize paper, PrinterProperties printer)
    {
        var plain = Plain(paper, printer);
        var room = SheetRoom.Of(paper, plain);
        var back = TurnMarks.Tick(room.TurnBoxA).Union(TrialDrawing.Bar(paper.WidthMm / 2, room.MarginMm + 1, Side.Back));
        return Page(paper, [new(back, Ink.FullK)], PageMapping.Back(plain, paper));
    }

    /// <summary>An arrow that points up, as an outline.</summary>
    internal static Region<SheetSpace> Arrow(Point<SheetSpace> tip, double heightMm, double lineMm)
    {
        var (half, shaft, neck) = (heightMm * 0.28, heightMm * 0.11, tip.YMm - (heightMm * 0.42));
        return TrialDrawing.Lines(
            Region<SheetSpace>.FromCorners(
            [
                tip, new(tip.XMm + half, neck), new(tip.XMm + shaft, neck), new(tip.XMm + shaft, tip.YMm - heightMm),
                new(tip.XMm - shaft, tip.YMm - heightMm), new(tip.XMm - shaft, neck), new(tip.XMm - half, neck),
            ]),
            lineMm);
    }

    private static PrinterProperties Plain(PaperSize paper, PrinterProperties printer)
    {
        ArgumentNullException.ThrowIfNull(paper);
        ArgumentNullException.ThrowIfNull(printer);
        return PrinterProperties.Unmeasured with { MarginMm = printer.MarginMm, LeadingEdgeMm = printer.LeadingEdgeMm };
    }

    private static List<Painted<SheetSpace>> Front(SheetRoom room)
    {
        var (width, height) = (room.Paper.WidthMm, room.Paper.HeightMm);

        // The layout is made for A4 and Letter; smaller papers get all of it smaller.
        var scale = Math.Min(1, Math.Min(width / 210, height / 279));
        var shapes = new List<Region<SheetSpace>>
        {
            TurnMarks.Box("A", room.TurnBoxA, room),
            TurnMarks.Box("B", room.TurnBoxB, room),
            SheetText.Centred("WHICH-WAY SHEET", 3.4 * scale, new(width / 2, room.TurnBoxA.YMm), Side.Front),
            Arrow(new((width / 2) - (21 * scale), height - (20 * scale)), 32 * scale, 0.5),
            SheetText.Centred("TOP", 13 * scale, new((width / 2) + (11 * scale), height - (36 * scale)), Side.Front),
            TrialDrawing.Bar(width / 2, room.MarginMm + 1, Side.Front),
            SheetText.Centred(
                "With a ruler this bar is 99.4 to 100.6 mm long. If not, the page was scaled: print again at actual size.",
                2.1 * scale,
                new(width / 2, room.MarginMm + 7.2),
                Side.Front),
        };
        shapes.AddRange(room.TurnBoxesFront.Select(box => TurnMarks.Box("F", box, room)));
        var (left, top) = (20 * scale, height - (62 * scale));
        foreach (var step in Steps)
        {
            var (shape, below) = TrialDrawing.Paragraph(step, 2.7 * scale, left, top, width - (2 * left));
            shapes.Add(shape);
            top = below - (1.6 * scale);
        }

        var pictures = WhichWayPictures.Draw(room, top - (7 * scale), scale);
        return [new(Region<SheetSpace>.Union(shapes), Ink.FullK), .. pictures];
    }

    private static PdfPage Page(PaperSize paper, IEnumerable<Painted<SheetSpace>> areas, Affine<SheetSpace, PageSpace> map)
    {
        var whole = new Box<PageSpace>(0, 0, paper.WidthMm, paper.HeightMm);
        return new(paper.WidthMm, paper.HeightMm, whole, whole, [.. areas.Select(area => area.Map(map))]);
    }
}
