using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Lampblack.Tests.Peers;

namespace Lampblack.Tests.Register;

/// <summary>
/// A sheet as an independent separating rasteriser (Ghostscript, device tiffsep) prints it. All planes are in front view, row 0 at the top;
/// a dot is set where any part of it is painted.
/// </summary>
public sealed class SheetPlates
{
    private const double SlackMm = 0.3;

    private readonly SeparatedDesk _desk;
    private readonly Sheet _sheet;

    public SheetPlates(SeparatedDesk desk, Sheet sheet)
    {
        _desk = desk;
        _sheet = sheet;
        Front = Render(SheetPdf.FrontPage(sheet, desk.Printer));
        Unlit = Dilated(Plane(MarksOf(LightRole.Unlit)), Width, 1);
        Hidden = Inside(Region<SheetSpace>.Union(MarksOf(LightRole.Hidden)).Grow(-0.001));
        HiddenCover = Plane(Visible(mark => mark.Style.Role == LightRole.Hidden && mark.Style.Ink is not null).Select(shape => shape.Grow(desk.SpreadMm)));
        NearHidden = [.. HiddenCover.Zip(Dilated(Plane(Visible(mark => mark.Style.Role == LightRole.Lit && mark.Style.Ink is not null).Select(shape => shape.Grow(2 * desk.SpreadMm))), Width, 2), (near, lit) => near && !lit)];
        Open = Plane(Shapes(panel => panel.Shapes.Lit.Grow(desk.SpreadMm + SlackMm)));
        Meant = Dilated(Plane(Wanted()), Width, 1);
        Backed = Dilated(Plane(Shapes(panel => Region<PanelSpace>.Union(panel.Shapes.Visible.Where(mark => mark.Style.Backed).Select(mark => mark.Shape.Grow(desk.SpreadMm))))), Width, 1);
        CutAway = Dilated(Plane(sheet.Panels.Select(panel => panel.Panel.Holes.Map(panel.Map))), Width, 1);
        Trim = Plane(sheet.Panels.Select(panel => Region<SheetSpace>.Rectangle(panel.Trim)));
    }

    public InkPlates Front { get; }

    public int Width => Front.WidthPx;

    /// <summary>Unlit marks, and a dot around them.</summary>
    public bool[] Unlit { get; }

    /// <summary>Dots that lie wholly inside hidden marks.</summary>
    public bool[] Hidden { get; }

    /// <summary>All that is to be seen, and a dot around it.</summary>
    public bool[] Meant { get; }

    /// <summary>Openings in which colour was asked for, and a dot around them.</summary>
    public bool[] Backed { get; }

    public bool[] CutAway { get; }

    /// <summary>The covers of hidden marks.</summary>
    public bool[] HiddenCover { get; }

    /// <summary>Where hidden openings can come to lie, away from what is always lit.</summary>
    public bool[] NearHidden { get; }

    /// <summary>Where the mask may be open: what shines, grown by the spread and as much as closes islands too small to print.</summary>
    public bool[] Open { get; }

    public bool[] Trim { get; }

    /// <summary>The mask as it lies after the sheet was printed with this error (in front view, page by page), seen from the front.</summary>
    public InkPlates MaskAfter(Affine<SheetSpace, SheetSpace> error, Func<PdfPage, PdfPage>? spoil = null)
    {
        var moved = _sheet with { Back = [.. _sheet.Back.Select(area => area.Map(error))] };
        var page = SheetPdf.MaskPage(moved, _desk.Printer);
        return Mirrored(Render(spoil?.Invoke(page) ?? page));
    }

    /// <summary>How many dots that are to shine the mask covers.</summary>
    public int Covered(InkPlates mask) => CoveredDots(mask).Count;

    /// <summary>Those dots, by their places in mm.</summary>
    public List<(double XMm, double YMm)> CoveredDots(InkPlates mask)
    {
        var dots = new List<(double, double)>();
        for (var dot = 0; dot < Front.Black.Length; dot++)
        {
            var shines = Front.Black[dot] < 255 && Trim[dot] && !CutAway[dot] && !Unlit[dot];
            if (shines && mask.Black[dot] == 255)
            {
                dots.Add((dot % Width * 25.4 / SeparatedDesk.Dpi, (Front.HeightPx - (dot / Width)) * 25.4 / SeparatedDesk.Dpi));
            }
        }

        return dots;
    }

    /// <summary>How many dots of hidden marks the mask covers; they get their outline from the mask, so this holds in register only.</summary>
    public int HiddenCovered(InkPlates mask) => Enumerable.Range(0, Front.Black.Length).Count(dot => Hidden[dot] && mask.Black[dot] == 255);

    /// <summary>How many dots of hidden openings, wherever the mask lies, shine through more than their cover: through the field's other inks or bare paper.</summary>
    public int Uncovered(InkPlates mask) => Enumerable.Range(0, Front.Black.Length).Count(dot =>
        NearHidden[dot] && mask.Black[dot] < 255 && (Front.Cyan[dot] > 0 || Front.Black[dot] == 0));

    /// <summary>How many dots are black on neither side although nothing is to be seen there.</summary>
    public int Leaking(InkPlates mask) => Enumerable.Range(0, Front.Black.Length).Count(dot =>
        Front.Black[dot] == 0 && mask.Black[dot] == 0 && Trim[dot] && !Meant[dot] && !CutAway[dot]);

    /// <summary>How many dots of the panels the mask leaves bare although nothing shines there.</summary>
    public int Bare(InkPlates mask) => Enumerable.Range(0, Front.Black.Length).Count(dot =>
        mask.Black[dot] == 0 && Trim[dot] && !Open[dot] && !CutAway[dot]);

    public static bool[] Dilated(bool[] plane, int width, int dots) => Spread(plane, width, dots, grow: true);

    public static bool[] Eroded(bool[] plane, int width, int dots) => Spread(plane, width, dots, grow: false);

    /// <summary>A page's plates at the resolution of the checks.</summary>
    public static InkPlates Render(PdfPage page) =>
        GhostscriptPlates.Render(PdfFile.Write([page], new("plates", PdfSides.OneSided)).AsSpan(), SeparatedDesk.Dpi)[0];

    /// <summary>Plates as they are seen from the other side.</summary>
    public static InkPlates Mirrored(InkPlates plates) => plates with
    {
        Cyan = Mirrored(plates.Cyan, plates.WidthPx),
        Magenta = Mirrored(plates.Magenta, plates.WidthPx),
        Yellow = Mirrored(plates.Yellow, plates.WidthPx),
        Black = Mirrored(plates.Black, plates.WidthPx),
    };

    private static byte[] Mirrored(byte[] plane, int width)
    {
        var mirrored = (byte[])plane.Clone();
        for (var start = 0; start < mirrored.Length; start += width)
        {
            Array.Reverse(mirrored, start, width);
        }

        return mirrored;
    }

    private static bool[] Spread(bool[] plane, int width, int dots, bool grow)
    {
        var height = plane.Length / width;
        var result = plane;
        for (var round = 0; round < dots; round++)
        {
            var last = result;
            result = (bool[])last.Clone();
            for (var y = 1; y < height - 1; y++)
            {
                for (var x = 1; x < width - 1; x++)
                {
                    var at = (y * width) + x;
                    if (last[at - 1] == grow || last[at + 1] == grow || last[at - width] == grow || last[at + width] == grow
                        || last[at - width - 1] == grow || last[at - width + 1] == grow || last[at + width - 1] == grow || last[at + width + 1] == grow)
                    {
                        result[at] = grow;
                    }
                }
            }
        }

        return result;
    }

    private bool[] Plane(IEnumerable<Region<SheetSpace>> regions)
    {
        var page = SheetPdf.FrontPage(
            _sheet with { Front = [.. regions.Where(region => !region.IsEmpty).Select(region => new Painted<SheetSpace>(region, Ink.FullK))] }, _desk.Printer);
        return [.. Render(page).Black.Select(value => value > 0)];
    }

    /// <summary>Dots wholly inside a region: those that nothing around it touches. (A notch thinner than a dot counts as around; a micrometre is left for rounding to the grid.)</summary>
    private bool[] Inside(Region<SheetSpace> region)
    {
        if (region.IsEmpty)
        {
            return new bool[Front.Black.Length];
        }

        var box = region.Bounds.Grow(1);
        return [.. Plane([Region<SheetSpace>.Rectangle(box)]).Zip(Plane([Region<SheetSpace>.Rectangle(box.Grow(1)).Except(region)]), (near, outside) => near && !outside)];
    }

    private IEnumerable<Region<SheetSpace>> Shapes(Func<Lampblack.Separations.PanelSeparation, Region<PanelSpace>> shape) => _sheet.Panels.Select(placed =>
        shape(_desk.Panels.Single(panel => panel.Artwork.Laid.Panel.Id == placed.Panel.Id)).Map(placed.Map));

    private IEnumerable<Region<SheetSpace>> MarksOf(LightRole role) => Visible(mark => mark.Style.Role == role && mark.Style.Ink is not null);

    private IEnumerable<Region<SheetSpace>> Wanted() => Visible(mark => mark.Style.Ink is not null);

    private IEnumerable<Region<SheetSpace>> Visible(Func<Artwork.Mark, bool> which) => _sheet.Panels.SelectMany(placed =>
        _desk.Panels.Single(panel => panel.Artwork.Laid.Panel.Id == placed.Panel.Id).Shapes.Visible.Where(which).Select(mark => mark.Shape.Map(placed.Map)));
}
