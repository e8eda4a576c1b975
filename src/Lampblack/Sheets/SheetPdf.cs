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

    private static PdfPage Page(Sheet sheet, ImmutableArray<Painted<SheetSpace>> areas, Affine<SheetSpace, PageSpace> map)
    {
        var trim = Around(sheet.Panels.Select(panel => panel.Trim), map);
        var bleed = Around(sheet.Panels.Select(panel => panel.Trim.Grow(panel.Panel.BleedMm)), map);
        return new(
            sheet.Paper.WidthMm,
            sheet.Paper.HeightMm,
            trim,
            bleed,
            [.. areas.Select(area => new Painted<PageSpace>(area.Region.Map(map), area.Ink))]);
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
