using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>The sizes of holes on a trial sheet: in the hole under its cross where there is room, else beside what covers it; nothing where all is taken.</summary>
internal static class TrialHoleSizes
{
    private const double TextMm = 1.5;
    private const double AirMm = 0.4;
    private const double UnderCrossMm = 3.2;

    /// <summary>The sizes.</summary>
    /// <param name="laid">The panel.</param>
    /// <param name="drawn">All else that is drawn.</param>
    public static IEnumerable<Region<PanelSpace>> Of(LaidPanel laid, IReadOnlyList<Region<PanelSpace>> drawn)
    {
        var index = new RegionIndex<PanelSpace>(drawn);
        var placed = new List<Box<PanelSpace>>();
        foreach (var part in laid.Parts)
        {
            var text = part.Part.DrillText;
            var (widthMm, heightMm) = (SheetText.WidthMm(text, TextMm), TextMm);
            foreach (var middle in Places(part, widthMm, heightMm))
            {
                var box = new Box<PanelSpace>(middle.XMm - (widthMm / 2), middle.YMm - (heightMm / 2), widthMm, heightMm).Grow(AirMm);
                var area = Region<PanelSpace>.Rectangle(box);
                if (laid.Outline.Contains(area) && !placed.Exists(other => other.Overlaps(box)) && !index.Near(box).Any(near => drawn[near].Touches(area)))
                {
                    placed.Add(box);
                    yield return SheetText.Centred(text, TextMm, new(0, 0), Side.Front).Map(Affine<SheetSpace, PanelSpace>.Shift(middle.XMm, middle.YMm));
                    break;
                }
            }
        }
    }

    private static IEnumerable<Point<PanelSpace>> Places(PlacedPart part, double widthMm, double heightMm)
    {
        yield return new(part.Centre.XMm, part.Centre.YMm - UnderCrossMm);
        var covered = part.Holes.Select(hole => hole.Bounds).Append(part.Covered.IsEmpty ? part.Holes[0].Bounds : part.Covered.Bounds).ToList();
        foreach (var place in Around(part, covered, widthMm, heightMm))
        {
            yield return place;
        }

        if (part.Part.KnobDiameter is { } knob)
        {
            foreach (var place in Around(part, [new Box<PanelSpace>(part.Centre.XMm, part.Centre.YMm, 0, 0).Grow(knob.Mm / 2)], widthMm, heightMm))
            {
                yield return place;
            }
        }
    }

    private static IEnumerable<Point<PanelSpace>> Around(PlacedPart part, List<Box<PanelSpace>> covered, double widthMm, double heightMm)
    {
        var (left, right) = (covered.Min(box => box.LeftMm), covered.Max(box => box.RightMm));
        var (bottom, top) = (covered.Min(box => box.BottomMm), covered.Max(box => box.TopMm));
        var (acrossMm, upMm) = ((widthMm / 2) + (2 * AirMm), (heightMm / 2) + (2 * AirMm));

        // A round nut leaves its corners free, so that these come first; beside and below follow.
        var (nearX, nearY) = ((right - left) * 0.12, (top - bottom) * 0.12);
        foreach (var (x, y) in new[] { (right - nearX, bottom + nearY), (right - nearX, top - nearY), (left + nearX, bottom + nearY), (left + nearX, top - nearY) })
        {
            yield return new(x < part.Centre.XMm ? x - acrossMm : x + acrossMm, y < part.Centre.YMm ? y - upMm : y + upMm);
        }

        yield return new(right + acrossMm, part.Centre.YMm);
        yield return new(left - acrossMm, part.Centre.YMm);
        yield return new(part.Centre.XMm, bottom - upMm);
        yield return new(part.Centre.XMm, top + upMm);
    }
}
