using System;
using System.Collections.Immutable;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Sheets;

/// <summary>The parts of a portrait sheet: a strip at either end for what tells the sides apart, and the room between them for panels.</summary>
/// <param name="Paper">The paper.</param>
/// <param name="MarginMm">The unprintable border.</param>
/// <param name="EndStripMm">Height of the strips at the top and bottom, the border included.</param>
public sealed record SheetRoom(PaperSize Paper, double MarginMm, double EndStripMm)
{
    // A turn box of 5 mm and a millimetre of air on either side.
    private const double EndStripInsideMm = 7;

    // Past a turn box with its letter.
    private const double ScaleInsideMm = 19;

    /// <summary>The usual room: strips at both ends, as either end may lead into the printer on the second side.</summary>
    public Box<SheetSpace> Panels => new(
        MarginMm, EndStripMm, Paper.WidthMm - (2 * MarginMm), Paper.HeightMm - (2 * EndStripMm));

    /// <summary>All that can be printed on; used only where the usual room is too small.</summary>
    public Box<SheetSpace> Printable => new(
        MarginMm, MarginMm, Paper.WidthMm - (2 * MarginMm), Paper.HeightMm - (2 * MarginMm));

    /// <summary>The middle of the turn box in which the back's tick must be seen.</summary>
    public Point<SheetSpace> TurnBoxA => new(MarginMm + 4, Paper.HeightMm - MarginMm - 3.5);

    /// <summary>Where the tick is seen if the sheet went in by the other edge: half a turn about the sheet's middle.</summary>
    public Point<SheetSpace> TurnBoxB => new(Paper.WidthMm - TurnBoxA.XMm, Paper.HeightMm - TurnBoxA.YMm);

    /// <summary>
    /// Where the tick lies on this very side if the wrong face was printed: the mirror image, or that after a half-turn for printers whose
    /// back page gets one. Both boxes are drawn.
    /// </summary>
    public ImmutableArray<Point<SheetSpace>> TurnBoxesFront =>
        [new(Paper.WidthMm - TurnBoxA.XMm, TurnBoxA.YMm), new(TurnBoxA.XMm, Paper.HeightMm - TurnBoxA.YMm)];

    /// <summary>The middles of the four reading scales, by name: NE, NW, SE and SW, each beside a turn box, as far apart as the sheet allows.</summary>
    public ImmutableArray<(string Name, Point<SheetSpace> Middle)> ReadingScales =>
    [
        ("NE", new(Paper.WidthMm - MarginMm - ScaleInsideMm, Paper.HeightMm - MarginMm - 3.5)),
        ("NW", new(MarginMm + ScaleInsideMm, Paper.HeightMm - MarginMm - 3.5)),
        ("SE", new(Paper.WidthMm - MarginMm - ScaleInsideMm, MarginMm + 3.5)),
        ("SW", new(MarginMm + ScaleInsideMm, MarginMm + 3.5)),
    ];

    /// <summary>The room of a paper in a printer.</summary>
    public static SheetRoom Of(PaperSize paper, PrinterProperties printer)
    {
        ArgumentNullException.ThrowIfNull(paper);
        ArgumentNullException.ThrowIfNull(printer);
        return new(paper, printer.MarginMm, Math.Max(printer.LeadingEdgeMm, printer.MarginMm + EndStripInsideMm));
    }
}
