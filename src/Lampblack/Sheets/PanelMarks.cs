using System.Collections.Generic;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>What stands around a panel in the waste: trim marks, its name with an arrow up, the strip for a tape hinge.</summary>
internal static class PanelMarks
{
    private const double MarkMm = 3;
    private const double MarkWidthMm = 0.15;
    private const double TextMm = 1.7;

    public static Region<SheetSpace> Draw(PlacedPanel placed, Side side)
    {
        var regions = new List<Region<SheetSpace>>();
        if (placed.Block.WidthMm > placed.Trim.WidthMm + (2 * placed.Panel.BleedMm) + 1)
        {
            AddTrimMarks(placed, regions);
            AddLabel(placed, side, regions);
        }

        if (placed.Hinge is { } hinge && side == Side.Front)
        {
            AddHinge(hinge, regions);
        }

        return Region<SheetSpace>.Union(regions);
    }

    private static void AddTrimMarks(PlacedPanel placed, List<Region<SheetSpace>> regions)
    {
        var trim = placed.Trim;
        var off = placed.Panel.BleedMm + 0.5;
        foreach (var x in new[] { trim.LeftMm, trim.RightMm })
        {
            regions.Add(Region<SheetSpace>.Rectangle(new(x - (MarkWidthMm / 2), trim.BottomMm - off - MarkMm, MarkWidthMm, MarkMm)));
            regions.Add(Region<SheetSpace>.Rectangle(new(x - (MarkWidthMm / 2), trim.TopMm + off, MarkWidthMm, MarkMm)));
        }

        foreach (var y in new[] { trim.BottomMm, trim.TopMm })
        {
            regions.Add(Region<SheetSpace>.Rectangle(new(trim.LeftMm - off - MarkMm, y - (MarkWidthMm / 2), MarkMm, MarkWidthMm)));
            regions.Add(Region<SheetSpace>.Rectangle(new(trim.RightMm + off, y - (MarkWidthMm / 2), MarkMm, MarkWidthMm)));
        }
    }

    private static void AddLabel(PlacedPanel placed, Side side, List<Region<SheetSpace>> regions)
    {
        var panel = placed.Panel;
        var text = $"UP   {panel.Title}   {(side == Side.Front ? "front" : "mask")}{(placed.Spare ? "   spare" : string.Empty)}";
        var middle = new Point<PanelSpace>(panel.WidthMm / 2, panel.HeightMm + panel.BleedMm + 0.5 + (TextMm * 0.65));
        var width = SheetText.WidthMm(text, TextMm);
        if (width + 4 > panel.WidthMm)
        {
            return;
        }

        regions.Add(SheetText.Centred(text, TextMm, placed.Map.Apply(middle), side, placed.QuarterTurns));
        var tip = new Point<PanelSpace>(middle.XMm + ((side == Side.Front ? -1 : 1) * ((width / 2) + 1.6)), middle.YMm + (TextMm / 2));
        regions.Add(Region<PanelSpace>.FromCorners(
            [tip, new(tip.XMm - 0.9, tip.YMm - TextMm), new(tip.XMm + 0.9, tip.YMm - TextMm)]).Map(placed.Map));
    }

    private static void AddHinge(Box<SheetSpace> hinge, List<Region<SheetSpace>> regions)
    {
        var wide = hinge.WidthMm > hinge.HeightMm;
        var lengthMm = wide ? hinge.WidthMm : hinge.HeightMm;
        for (double at = 0; at + 2 <= lengthMm; at += 4)
        {
            regions.Add(Region<SheetSpace>.Rectangle(wide
                ? new(hinge.LeftMm + at, hinge.TopMm - 0.15, 2, 0.15)
                : new(hinge.RightMm - 0.15, hinge.BottomMm + at, 0.15, 2)));
        }

        const string Text = PlacedPanel.HingeWord + ": leave this strip on until the print is glued";
        if (SheetText.WidthMm(Text, TextMm) < lengthMm - 8)
        {
            regions.Add(SheetText.Centred(Text, TextMm, hinge.Centre, Side.Front, wide ? 0 : 1));
        }
    }
}
