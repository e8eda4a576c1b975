using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Books;

/// <summary>The piece of a glued print that is exchanged for one legend, and what it touches.</summary>
/// <param name="Panel">The panel.</param>
/// <param name="Item">Panel and item.</param>
/// <param name="Words">What it says now.</param>
/// <param name="Box">The piece, in panel mm.</param>
/// <param name="Crossed">Other words that the piece would cut.</param>
/// <param name="Loosened">Parts whose nut or bezel lies on the piece: they come off, and are called again.</param>
public sealed record LegendPatch(LaidPanel Panel, string Item, string Words, Box<PanelSpace> Box, ImmutableArray<string> Crossed, ImmutableArray<PlacedPart> Loosened)
{
    // Room for a cut in the black between the words, and for an old word that was a little longer. Ours.
    private const double MarginMm = 4;

    /// <summary>The patch of an item; null where no such item has words, a dial or a leader.</summary>
    /// <param name="laid">The desk.</param>
    /// <param name="item">Panel id, '/', item id.</param>
    public static LegendPatch? Of(LaidDesk laid, string item)
    {
        ArgumentNullException.ThrowIfNull(laid);
        foreach (var panel in laid.Panels)
        {
            ImmutableArray<PlacedText> texts = [.. panel.Texts.Where(text => text.Origin.Item == item)];
            ImmutableArray<Box<PanelSpace>> boxes =
            [
                .. texts.Select(text => text.Box),
                .. panel.Dials.Where(dial => dial.Origin.Item == item).Select(Around),
                .. panel.Leaders.Where(leader => leader.Origin.Item == item).Select(leader => Box<PanelSpace>.Between(leader.Start, leader.End)),
            ];
            if (!boxes.IsEmpty)
            {
                return Of(panel, item, string.Join(", ", texts.OrderByDescending(text => text.Letters?.CapitalsMm ?? 0).Select(text => text.Words).Distinct()), boxes);
            }
        }

        return null;
    }

    private static LegendPatch Of(LaidPanel panel, string item, string words, ImmutableArray<Box<PanelSpace>> boxes)
    {
        var box = Box<PanelSpace>.Between(
            new(Math.Max(0, boxes.Min(one => one.LeftMm) - MarginMm), Math.Max(0, boxes.Min(one => one.BottomMm) - MarginMm)),
            new(Math.Min(panel.Panel.WidthMm, boxes.Max(one => one.RightMm) + MarginMm), Math.Min(panel.Panel.HeightMm, boxes.Max(one => one.TopMm) + MarginMm)));
        var shape = Region<PanelSpace>.Rectangle(box);
        return new(
            panel,
            item,
            words,
            box,
            [.. panel.Texts.Where(text => text.Origin.Item != item && text.Box.Overlaps(box)).Select(text => text.Words).Distinct()],
            panel.Order == WorkOrder.PrintBehind ? panel.Parts : [.. panel.Parts.Where(part => part.Holes.Append(part.Covered).Any(region => !region.IsEmpty && region.Bounds.Overlaps(box) && !region.Intersect(shape).IsEmpty))]);
    }

    private static Box<PanelSpace> Around(PlacedDial dial)
    {
        var radiusMm = dial.Marks.Select(mark => mark.OuterRadiusMm).Concat(dial.Ranges.Select(range => range.OuterRadiusMm)).DefaultIfEmpty(0).Max();
        return new Box<PanelSpace>(dial.Centre.XMm, dial.Centre.YMm, 0, 0).Grow(radiusMm);
    }
}
