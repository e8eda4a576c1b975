using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;

namespace Lampblack.Sheets;

/// <summary>A sheet as pages for the printer.</summary>
public static class SheetPdf
{
    /// <summary>The front page: the printer undone, not mirrored.</summary>
    public static PdfPage FrontPage(Sheet sheet, PrinterProperties printer)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return Page(sheet, sheet.Front, PageMapping.Front(printer));
    }

    /// <summary>The mask page: the printer undone, then mirrored.</summary>
    public static PdfPage MaskPage(Sheet sheet, PrinterProperties printer)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return Page(sheet, sheet.Back, PageMapping.Back(printer, sheet.Paper));
    }

    /// <summary>
    /// The mask for a clear film that lies behind the front, its toner against the paper: one looks at the toner itself, so the page is not mirrored. The film is
    /// the first side of a sheet of its own, so what the printer does to side 1 is undone and what it does to side 2 is not.
    /// </summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="printer">What is known of the printer.</param>
    /// <param name="title">The desk's title.</param>
    public static PdfPage FilmPage(Sheet sheet, PrinterProperties printer, string title)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var line = EndStrips.FilmTitle(SheetRoom.Of(sheet.Paper, printer), title, sheet.Id, sheet.PairCode, SheetComposer.Printed(sheet.Panels));
        return Page(sheet, [.. sheet.Back.Select(area => ReferenceEquals(area.Region, sheet.BackTitle) ? area with { Region = line } : area)], PageMapping.Front(printer));
    }

    /// <summary>The front once more, fed other edge first; null where nothing of it is printed twice.</summary>
    public static PdfPage? FrontAgainPage(Sheet sheet, PrinterProperties printer)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return Again(sheet, panel => panel.FrontAgain, Side.Front, printer, PageMapping.FrontAgain(printer, sheet.Paper));
    }

    /// <summary>The mask once more, fed other edge first; null where nothing of it is printed twice.</summary>
    public static PdfPage? MaskAgainPage(Sheet sheet, PrinterProperties printer)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return Again(sheet, panel => panel.MaskAgain, Side.Back, printer, PageMapping.BackAgain(printer, sheet.Paper));
    }

    private static PdfPage? Again(
        Sheet sheet, Func<Printable, ImmutableArray<Painted<PanelSpace>>> areas, Side side, PrinterProperties printer, Affine<SheetSpace, PageSpace> map)
    {
        var black = sheet.Panels.SelectMany(panel => areas(panel.Panel).Select(area => area.Map(panel.Map))).ToImmutableArray();
        if (black.IsEmpty)
        {
            return null;
        }

        // It reads right on the page as it comes out: upside down on a sheet whose other edge leads now.
        var upsideDown = side == Side.Front || !printer.HalfTurnOfBack;
        var name = side == Side.Front ? "FRONT" : "MASK";
        var lines = new WasteLines(sheet, printer);
        var note = new[]
        {
            $"SECOND PASS OF THE {name}, pair {sheet.PairCode}: lay the printed sheet in once more, other edge first, this side to be printed",
            $"SECOND PASS OF THE {name}, pair {sheet.PairCode}: printed last, other edge first",
        }.SelectMany(words => new[] { 3.0, 2.4, 2 }.Select(heightMm => (words, heightMm)))
            .Append(($"second pass of the {name}, pair {sheet.PairCode}, other edge first", 0.0))
            .Select(line => lines.Place(line.Item1, side, line.Item2, upsideDown)).FirstOrDefault(region => region is not null) ?? Region<SheetSpace>.Empty;
        return Page(sheet, black.Add(new(note, black[0].Ink)), map);
    }

    internal static PdfPage Page(Sheet sheet, ImmutableArray<Painted<SheetSpace>> areas, Affine<SheetSpace, PageSpace> map)
    {
        var trim = Around(sheet.Panels.Select(panel => panel.Trim), map);
        var bleed = Around(sheet.Panels.Select(panel => panel.Trim.Grow(panel.Panel.BleedMm)), map);
        return new(
            sheet.Paper.WidthMm,
            sheet.Paper.HeightMm,
            trim,
            bleed,
            [.. areas.Select(area => area.Map(map))]);
    }

    /// <summary>The box on a page around boxes of the sheet.</summary>
    private static Box<PageSpace> Around(IEnumerable<Box<SheetSpace>> boxes, Affine<SheetSpace, PageSpace> map)
    {
        var corners = boxes.SelectMany(box => new[]
        {
            map.Apply(new(box.LeftMm, box.BottomMm)), map.Apply(new(box.RightMm, box.BottomMm)),
            map.Apply(new(box.LeftMm, box.TopMm)), map.Apply(new(box.RightMm, box.TopMm)),
        }).ToList();
        return Box<PageSpace>.Between(
            new(corners.Min(corner => corner.XMm), corners.Min(corner => corner.YMm)),
            new(corners.Max(corner => corner.XMm), corners.Max(corner => corner.YMm)));
    }
}
