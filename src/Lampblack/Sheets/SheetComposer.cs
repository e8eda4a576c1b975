using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Sheets;

/// <summary>Puts panels, marks and gauges on sheets.</summary>
public static class SheetComposer
{
    /// <summary>Decides which panel goes where, before anything of it is separated: how far a place lies from the sheet's middle decides how large its openings must be.</summary>
    /// <param name="panels">The panels; only their sizes count.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="printer">What is known of the printer.</param>
    public static Checked<ImposedSheets> Impose(ImmutableArray<Printable> panels, PaperSize paper, PrinterProperties printer)
    {
        ArgumentNullException.ThrowIfNull(printer);
        var findings = new List<Finding>();
        var room = SheetRoom.Of(paper, printer);
        return new(new(room, Imposition.Place(panels, room, findings)), [.. findings]);
    }

    /// <summary>Composes all sheets.</summary>
    /// <param name="title">The desk's title.</param>
    /// <param name="imposed">Where the panels go.</param>
    /// <param name="panels">The separated panels.</param>
    /// <param name="printer">What is known of the printer.</param>
    /// <param name="build">The black build, for gauges.</param>
    /// <param name="wishes">What else is wanted on the sheets.</param>
    public static Checked<ImmutableArray<Sheet>> Compose(
        string title, ImposedSheets imposed, ImmutableArray<Printable> panels, PrinterProperties printer, BlackBuild build, SheetWishes wishes)
    {
        ArgumentNullException.ThrowIfNull(imposed);
        ArgumentNullException.ThrowIfNull(printer);
        ArgumentNullException.ThrowIfNull(build);
        ArgumentNullException.ThrowIfNull(wishes);
        var findings = new List<Finding>();
        var inks = new GaugeInks(build.Edge, build.Ink);
        var extras = Extras.Of(printer, build, wishes);
        var separated = panels.ToDictionary(panel => panel.Id, StringComparer.Ordinal);
        var composed = new List<Func<Sheet>>();
        foreach (var (index, sheet) in imposed.Sheets.Index())
        {
            var id = string.Create(CultureInfo.InvariantCulture, $"sheet-{index + 1}");
            ImmutableArray<PlacedPanel> placed = [.. sheet.Panels.Select(panel => panel with { Panel = separated[panel.Panel.Id] })];
            var free = sheet.Free.Copy();
            var gauges = GaugePlaces.Of(placed, free, inks, placed.Min(panel => panel.Panel.SpreadMm), id, findings);
            var (all, rows) = extras.TakeRoom(placed, free, wishes.Fill, imposed.Room.Printable, id, findings);
            composed.Add(() => Compose(title, all, [.. gauges, .. rows], imposed.Room, inks, printer, id));
        }

        // Who gets which room is decided one after the other; putting it all in place is most of the work.
        return new([.. composed.AsParallel().AsOrdered().Select(sheet => sheet())], [.. findings]);
    }

    private static Sheet Compose(
        string title, ImmutableArray<PlacedPanel> panels, ImmutableArray<(Gauge Gauge, Box<SheetSpace> Box)> gauges, SheetRoom room, GaugeInks inks, PrinterProperties printer, string id)
    {
        var drawings = gauges.Select(gauge => gauge.Gauge.Draw(gauge.Box, inks)).ToList();
        var front = Side(panels, panel => panel.Front, Sheets.Side.Front, room, inks).Concat(drawings.SelectMany(drawing => drawing.Front)).ToList();
        var back = Side(panels, panel => panel.Mask, Sheets.Side.Back, room, inks).Concat(drawings.SelectMany(drawing => drawing.Back)).ToList();
        var code = PairCode.Of(front, back, PageMapping.Front(printer), PageMapping.Back(printer, room.Paper));
        var taken = Printed(panels);
        front.Add(new(EndStrips.Title(room, Sheets.Side.Front, title, id, code, printer.Revision, taken), inks.Mark));
        var backTitle = EndStrips.Title(room, Sheets.Side.Back, title, id, code, printer.Revision, taken);
        back.Add(new(backTitle, inks.Mark));
        return new(id, code, room.Paper, panels, [.. front], [.. back], [.. gauges.Select(gauge => new PlacedGauge(gauge.Gauge.Name, gauge.Box))])
        {
            BackTitle = backTitle,
        };
    }

    private static IEnumerable<Painted<SheetSpace>> Side(
        ImmutableArray<PlacedPanel> panels,
        Func<Printable, ImmutableArray<Painted<PanelSpace>>> areas,
        Side side,
        SheetRoom room,
        GaugeInks inks)
    {
        foreach (var panel in panels)
        {
            foreach (var area in areas(panel.Panel))
            {
                yield return area.Map(panel.Map);
            }
        }

        yield return new(
            Region<SheetSpace>.Union([.. panels.Select(panel => PanelMarks.Draw(panel, side)), EndStrips.Draw(room, side, Printed(panels))]), inks.Mark);
    }

    /// <summary>Where panels with their bleed are printed.</summary>
    internal static List<Box<SheetSpace>> Printed(ImmutableArray<PlacedPanel> panels) =>
        [.. panels.Select(panel => panel.Trim.Grow(panel.Panel.BleedMm))];
}
