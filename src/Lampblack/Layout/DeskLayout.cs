using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Art;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.Layout;

/// <summary>Puts every item of a desk in its place.</summary>
public static class DeskLayout
{
    /// <summary>Lays out all panels.</summary>
    /// <param name="desk">The desk as written.</param>
    /// <param name="fonts">The fonts it can use.</param>
    /// <param name="arts">What the files of its artwork hold; those that could not be read are left out. Null for none.</param>
    /// <param name="earlier">What an earlier layout can lend; null where all is to be placed.</param>
    public static Checked<LaidDesk> Place(Desk desk, FontShelf fonts, IReadOnlyDictionary<ArtItem, ArtContent>? arts = null, EarlierLayout? earlier = null)
    {
        ArgumentNullException.ThrowIfNull(desk);
        ArgumentNullException.ThrowIfNull(fonts);
        var placed = desk.Panels.AsParallel().AsOrdered().Select(panel =>
        {
            var findings = new List<Finding>();
            return (Panel: PlacePanel(panel, desk.Order, fonts, arts, earlier, findings) with { PunchesInInches = desk.Book.IsInInches, CutErrorMm = desk.Bench.PaperErrorMm }, Findings: findings);
        }).ToImmutableArray();

        // A font that is missing is told of once, not once for each panel.
        var told = placed.SelectMany(panel => panel.Findings).DistinctBy(finding => finding.Code == "font-unknown" ? (finding.Message, null) : (finding.Message, (object)finding));
        return new(new(desk, [.. placed.Select(panel => panel.Panel)]), [.. told]);
    }

    private static LaidPanel PlacePanel(Panel panel, WorkOrder order, FontShelf fonts, IReadOnlyDictionary<ArtItem, ArtContent>? arts, EarlierLayout? earlier, List<Finding> findings)
    {
        var into = new PanelBuilder();

        // Each item by itself, several at a time: nothing of an item depends on another one's place.
        var items = panel.Items.AsParallel().AsOrdered().Select(item => (Item: item, Copies: PlaceCopies(panel, item, fonts, arts, earlier))).ToImmutableArray();
        foreach (var copy in items.SelectMany(item => item.Copies))
        {
            copy.AddTo(into, findings);
        }

        if (panel.Fixings is { } fixings)
        {
            for (var index = 0; index < fixings.PlacesMm.Length; index++)
            {
                var (x, y) = fixings.PlacesMm[index];
                var origin = new Origin(string.Create(CultureInfo.InvariantCulture, $"{panel.Id}/fixing-{index + 1}"), fixings.Span);
                into.Parts.Add(ControlLayout.PlacePart(fixings.Part, new(x, y), 0, origin));
            }
        }

        var outline = Region<PanelSpace>.RoundedRectangle(new(0, 0, panel.WidthMm, panel.HeightMm), panel.CornerMm);
        var laid = new LaidPanel(
            panel,
            order,
            outline,
            into.Areas.ToImmutable(),
            into.Rules.ToImmutable(),
            into.Dials.ToImmutable(),
            into.Texts.ToImmutable(),
            into.Leaders.ToImmutable(),
            into.Parts.ToImmutable())
        {
            Arts = into.Arts.ToImmutable(),
            Items = items,
        };
        HoleChecks.Check(laid, findings);
        CollisionChecks.Check(laid, findings);
        return laid;
    }

    private static LaidItem[] PlaceCopies(Panel panel, PanelItem item, FontShelf fonts, IReadOnlyDictionary<ArtItem, ArtContent>? arts, EarlierLayout? earlier)
    {
        var copies = new LaidItem[item.Copies.Count];
        for (var copy = 0; copy < copies.Length; copy++)
        {
            var name = item.Copies.Count == 1 ? item.Id : string.Create(CultureInfo.InvariantCulture, $"{item.Id}.{copy + 1}");
            var origin = new Origin($"{panel.Id}/{name}", item.Span);
            copies[copy] = earlier?.Find(item, copy, origin) ?? PlaceCopy(item, copy, origin, fonts, arts);
        }

        return copies;
    }

    private static LaidItem PlaceCopy(PanelItem item, int copy, Origin origin, FontShelf fonts, IReadOnlyDictionary<ArtItem, ArtContent>? arts)
    {
        var (into, findings) = (new PanelBuilder(), new List<Finding>());
        var (dx, dy) = item.Copies.ShiftOf(copy);
        if (item is not ArtItem art)
        {
            PlaceItem(item, copy, new Vector<PanelSpace>(dx, dy), origin, new ControlLayout(fonts, findings), fonts, findings, into);
        }
        else if (arts?.GetValueOrDefault(art) is { } content)
        {
            ArtLayout.Place(art, content, new(dx, dy), origin, into);
        }

        return LaidItem.Of(into, findings);
    }

    private static void PlaceItem(
        PanelItem item,
        int copy,
        Vector<PanelSpace> shift,
        Origin origin,
        ControlLayout controls,
        FontShelf fonts,
        List<Finding> findings,
        PanelBuilder into)
    {
        switch (item)
        {
            case Control control:
                controls.Place(control, copy, new Point<PanelSpace>(control.XMm, control.YMm) + shift, origin, into);
                break;
            case Legend legend:
                var lines = legend.Texts[Math.Min(copy, legend.Texts.Length - 1)];
                if (lines.Any(line => !string.IsNullOrWhiteSpace(line)))
                {
                    var block = TextBlock.Set(lines, legend.Text, legend.Align, legend.Anchor, fonts, origin, findings);
                    into.Texts.Add(block.At(new Point<PanelSpace>(legend.XMm, legend.YMm) + shift, legend.TurnDegrees, origin, legend.Style, string.Join(' ', lines)));
                }

                break;
            case FreeDial dial:
                var (placed, numerals) = DialLayout.Place(
                    dial.Dial, new Point<PanelSpace>(dial.XMm, dial.YMm) + shift, dial.Dial.RadiusMm, origin, dial.Style, fonts, findings);
                into.Dials.Add(placed);
                into.Texts.AddRange(numerals);
                break;
            case Rule rule:
                into.Rules.Add(RuleTitle.Place(rule, shift, origin, fonts, findings, into));
                break;
            case FilledArea area:
                into.Areas.Add(new(origin, area.Style, area.Form, shift));
                break;
        }
    }
}
