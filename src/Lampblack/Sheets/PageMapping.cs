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
        return Back(printer.SideOne, printer.SideTwo, printer.HalfTurnOfBack, paper);
    }

    /// <summary>
    /// The front page for a second pass, fed other edge first: turned by half. Of what the printer does only turn and scales are undone. They are the same
    /// for either edge, but a shift is not: what was learned of it says how one side lies to the other, not how this edge lies to that one.
    /// </summary>
    public static Affine<SheetSpace, PageSpace> FrontAgain(PrinterProperties printer, PaperSize paper)
    {
        ArgumentNullException.ThrowIfNull(printer);
        ArgumentNullException.ThrowIfNull(paper);
        return AboutMiddle(printer.SideOne, paper).Inverse().Then(Affine<SheetSpace, PageSpace>.Identity).Then(HalfTurn(paper));
    }

    /// <summary>The back page for a second pass, fed other edge first: with half a turn where the first pass has none, and the other way round.</summary>
    public static Affine<SheetSpace, PageSpace> BackAgain(PrinterProperties printer, PaperSize paper)
    {
        ArgumentNullException.ThrowIfNull(printer);
        ArgumentNullException.ThrowIfNull(paper);
        return Back(AboutMiddle(printer.SideOne, paper), AboutMiddle(printer.SideTwo, paper), !printer.HalfTurnOfBack, paper);
    }

    private static Affine<SheetSpace, PageSpace> Back(
        Affine<SheetSpace, SheetSpace> sideOne, Affine<SheetSpace, SheetSpace> sideTwo, bool halfTurn, PaperSize paper)
    {
        var undone = sideOne.Inverse().Then(sideTwo.Inverse());
        var mirror = new Affine<SheetSpace, PageSpace>(-1, 0, paper.WidthMm, 0, 1, 0);
        var page = undone.Then(mirror);
        return halfTurn ? page.Then(HalfTurn(paper)) : page;
    }

    private static Affine<PageSpace, PageSpace> HalfTurn(PaperSize paper) => new(-1, 0, paper.WidthMm, 0, -1, paper.HeightMm);

    /// <summary>The map without its shift of the sheet's middle.</summary>
    private static Affine<SheetSpace, SheetSpace> AboutMiddle(Affine<SheetSpace, SheetSpace> map, PaperSize paper)
    {
        var middle = new Point<SheetSpace>(paper.WidthMm / 2, paper.HeightMm / 2);
        var shift = middle - map.Apply(middle);
        return map.Then(Affine<SheetSpace, SheetSpace>.Shift(shift.DxMm, shift.DyMm));
    }
}
