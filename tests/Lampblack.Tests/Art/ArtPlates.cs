using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Quantities;
using Lampblack.Sheets;
using Lampblack.Tests.Peers;
using Lampblack.Tests.Register;

namespace Lampblack.Tests.Art;

/// <summary>
/// A sheet with artwork as an independent separating rasteriser prints it, in front view. Nothing but the plates is looked at: what the front shows is what must shine.
/// </summary>
internal sealed class ArtPlates
{
    public const double MmPerDot = 25.4 / SeparatedDesk.Dpi;

    private readonly SeparatedDesk _desk;
    private readonly Sheet _sheet;
    private readonly bool[] _looked;
    private readonly bool[] _marked;

    public ArtPlates(SeparatedDesk desk)
    {
        (_desk, _sheet) = (desk, desk.Sheets[0]);
        Front = SheetPlates.Render(SheetPdf.FrontPage(_sheet, desk.Printer));
        var trim = Plane(_sheet.Panels.Select(panel => Region<SheetSpace>.Rectangle(panel.Trim)));
        var cut = Plane(_sheet.Panels.Select(panel => panel.Panel.Holes.Map(panel.Map)));
        var nearCut = Distances.Squared(cut, Width);
        _marked = Plane(_sheet.Panels.SelectMany(panel => desk.Panels[0].Shapes.Visible.Where(mark => mark.Style.Ink is not null).Select(mark => mark.Shape.Map(panel.Map))));
        _looked = [.. trim.Select((inside, dot) => inside && nearCut[dot] > 2)];
    }

    public InkPlates Front { get; }

    public int Width => Front.WidthPx;

    /// <summary>The mask as it lies after the sheet was printed with this error.</summary>
    public InkPlates MaskAfter(double xMm, double yMm)
    {
        var moved = _sheet with { Back = [.. _sheet.Back.Select(area => area.Map(Affine<SheetSpace, SheetSpace>.Shift(xMm, yMm)))] };
        return SheetPlates.Mirrored(SheetPlates.Render(SheetPdf.MaskPage(moved, _desk.Printer)));
    }

    /// <summary>The inks at a place of the panel, in mm from its lower left corner.</summary>
    public (byte Cyan, byte Magenta, byte Yellow, byte Black) At(InkPlates plates, double xMm, double yMm)
    {
        var place = _sheet.Panels[0].Map.Apply(new(xMm, yMm));
        return plates.AtMm(place.XMm, place.YMm, SeparatedDesk.Dpi);
    }

    /// <summary>All dots of a plate whose middles lie in a disc of the panel.</summary>
    public IEnumerable<(byte Cyan, byte Magenta, byte Yellow, byte Black)> In(InkPlates plates, double xMm, double yMm, double radiusMm)
    {
        var place = _sheet.Panels[0].Map.Apply(new(xMm, yMm));
        var (column, row, reach) = ((int)(place.XMm / MmPerDot), plates.HeightPx - 1 - (int)(place.YMm / MmPerDot), (int)(radiusMm / MmPerDot));
        return Enumerable.Range(0, ((2 * reach) + 1) * ((2 * reach) + 1))
            .Select(index => (X: (index % ((2 * reach) + 1)) - reach, Y: (index / ((2 * reach) + 1)) - reach))
            .Where(dot => (dot.X * dot.X) + (dot.Y * dot.Y) <= reach * reach)
            .Select(dot => plates.At(column + dot.X, row + dot.Y));
    }

    /// <summary>A second pass as it lies on the first, in front view.</summary>
    public InkPlates Again(IEnumerable<Painted<PanelSpace>> areas) =>
        SheetPlates.Render(SheetPdf.FrontPage(_sheet with { Front = [.. areas.Select(area => area.Map(_sheet.Panels[0].Map))] }, _desk.Printer));

    /// <summary>Dots that the front shows and the mask covers.</summary>
    public List<string> Covered(InkPlates mask) => Places(dot => Front.Black[dot] < 255 && mask.Black[dot] == 255);

    /// <summary>Open dots of the mask that lie farther than a distance from everything that the front shows.</summary>
    public List<string> Bare(InkPlates mask, double beyondMm)
    {
        var near = Distances.Squared([.. Front.Black.Select(black => black < 255)], Width);
        var limit = Math.Pow(beyondMm / MmPerDot, 2);
        return Places(dot => mask.Black[dot] < 255 && near[dot] > limit);
    }

    /// <summary>Dots of the field, away from every edge of K's plate by more than a distance, that have not every ink in full; and how many have.</summary>
    public (List<string> Wrong, int Right) Field(InkPlates plates, double beyondMm)
    {
        // A notch thinner than a dot leaves no edge on K's plate but is one all the same: the marks' own plane tells it.
        var edge = Distances.Squared([.. plates.Black.Select((black, dot) => black < 255 || (_marked[dot] && plates == Front))], Width);

        // A dot and a half for the two edges' own dots.
        var limit = Math.Pow((beyondMm / MmPerDot) + 1.5, 2);
        var right = 0;
        var wrong = Places(dot =>
        {
            if (edge[dot] <= limit)
            {
                return false;
            }

            var isFull = plates.Cyan[dot] == 255 && plates.Magenta[dot] == 255 && plates.Yellow[dot] == 255;
            right += isFull ? 1 : 0;
            return !isFull;
        });
        return (wrong, right);
    }

    /// <summary>Open dots with an ink in them.</summary>
    public List<string> Coloured(InkPlates mask) => Places(dot => mask.Black[dot] < 255 && (mask.Black[dot] | mask.Cyan[dot] | mask.Magenta[dot] | mask.Yellow[dot]) != 0);

    /// <summary>Where a dot lies on the panel, for messages.</summary>
    public string Place(int dot)
    {
        var place = _sheet.Panels[0].Map.Inverse().Apply(new(dot % Width * MmPerDot, (Front.HeightPx - (dot / Width)) * MmPerDot));
        return FormattableString.Invariant($"{place.XMm:0.00},{place.YMm:0.00}");
    }

    private List<string> Places(Func<int, bool> which) => [.. Enumerable.Range(0, _looked.Length).Where(dot => _looked[dot] && which(dot)).Select(Place)];

    private bool[] Plane(IEnumerable<Region<SheetSpace>> regions)
    {
        var page = SheetPdf.FrontPage(_sheet with { Front = [.. regions.Where(region => !region.IsEmpty).Select(region => new Painted<SheetSpace>(region, Ink.FullK))] }, _desk.Printer);
        return [.. SheetPlates.Render(page).Black.Select(value => value > 0)];
    }
}
