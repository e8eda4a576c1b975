using System;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Sheets;

/// <summary>From the sheet in front view to the pages as the printer gets them.</summary>
public static class PageMapping
{
    /// <summary>The front page: what the printer does to side 1 is undone.</summary>
    public static Affine<SheetSpace, PageSpace> Front(PrinterProperties printer)
    {
        ArgumentNullException.ThrowIfNull(printer);
        return printer.SideOne.Inverse().Then(Affine<SheetSpace, PageSpace>.Identity);
    }

    /// <summary>
    /// The back page: the printer is undone in front view first, then THE mirror, then the half-turn for printers that take the other edge first.
    /// This is the only place where side 2 is mirrored.
    /// </summary>
    /// <remarks>
    /// A sheet turned about its long edge shows front-view x at w - x. A page turned about the short edge instead is the same after a half-turn,
    /// so one mirror and one optional half-turn serve every printer.
    /// </remarks>
    public static Affine<SheetSpace, PageSpace> Back(PrinterProperties printer, PaperSize paper)
    {
        ArgumentNullException.ThrowIfNull(printer);
        ArgumentNullException.ThrowIfNull(paper);
        var undone = printer.SideOne.Inverse().Then(printer.SideTwo.Inverse());
        var mirror = new Affine<SheetSpace, PageSpace>(-1, 0, paper.WidthMm, 0, 1, 0);
        var page = undone.Then(mirror);
        return printer.HalfTurnOfBack
            ? page.Then(new Affine<PageSpace, PageSpace>(-1, 0, paper.WidthMm, 0, -1, paper.HeightMm))
            : page;
    }
}
