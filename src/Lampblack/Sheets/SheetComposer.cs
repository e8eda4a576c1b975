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
    private const int MostSpares = 40;
    private const double AirMm = 1.5;
    private const double RowGapMm = 0.8;

    /// <summary>How much of a hole's bounds is tried for gauges: all of a rectangle, 0.7 of a disc (its largest square is 0.707), less of what is turned.</summary>
    private static readonly ImmutableArray<double> Shares = [1, 0.7, 0.5];

    /// <summary>Composes all sheets.</summary>
    /// <param name="title">The desk's title.</param>
    /// <param name="panels">The separated panels.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="printer">What is known of the printer.</param>
    /// <param name="build">The black build, for gauges.</param>
    /// <param name="fill">Whether spare copies fill what room is left.</param>
    public static Checked<ImmutableArray<Sheet>> Compose(
        string title, ImmutableArray<Printable> panels, PaperSize paper, PrinterProperties printer, BlackBuild build, bool fill)
    {
        ArgumentNullException.ThrowIfNull(build);
        var findings = new List<Finding>();
        var room = SheetRoom.Of(paper, printer);
        var inks = new GaugeInks(build.Edge, build.Ink);
        var imposed = Imposition.Place(panels, room, findings);
        var sheets = imposed.Select((sheet, index) => Compose(
            title, sheet.Panels, sheet.Free, room, inks, fill, string.Create(CultureInfo.InvariantCulture, $"sheet-{index + 1}"), findings));
        return new([.. sheets], [.. findings]);
    }

    private static Sheet Compose(
        string title, ImmutableArray<PlacedPanel> placed, FreeSpace free, SheetRoom room, GaugeInks inks, bool fill, string id, List<Finding> findings)
    {
        var gauges = PlaceGauges(placed, free, id, findings);
        var panels = fill ? placed.AddRange(Spares(placed, free)) : placed;
        var drawings = gauges.Select(gauge => gauge.Gauge.Draw(gauge.Box, inks)).ToList();
        var front = Side(panels, panel => panel.Front, Sheets.Side.Front, room, inks).Concat(drawings.SelectMany(drawing => drawing.Front)).ToList();
        var back = Side(panels, panel => panel.Mask, Sheets.Side.Back, room, inks).Concat(drawings.SelectMany(drawing => drawing.Back)).ToList();
        var code = PairCode.Of(front, back);
        var taken = Printed(panels);
        front.Add(new(EndStrips.Title(room, Sheets.Side.Front, title, id, code, taken), inks.Mark));
        back.Add(new(EndStrips.Title(room, Sheets.Side.Back, title, id, code, taken), inks.Mark));
        return new(id, code, room.Paper, panels, [.. front], [.. back], [.. gauges.Select(gauge => new PlacedGauge(gauge.Gauge.Name, gauge.Box))]);
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
                yield return new(area.Region.Map(panel.Map), area.Ink);
            }
        }

        yield return new(
            Region<SheetSpace>.Union([.. panels.Select(panel => PanelMarks.Draw(panel, side)), EndStrips.Draw(room, side, Printed(panels))]), inks.Mark);
    }

    /// <summary>Where panels with their bleed are printed.</summary>
    private static List<Box<SheetSpace>> Printed(ImmutableArray<PlacedPanel> panels) =>
        [.. panels.Select(panel => panel.Trim.Grow(panel.Panel.BleedMm))];

    private static List<(Gauge Gauge, Box<SheetSpace> Box)> PlaceGauges(
        ImmutableArray<PlacedPanel> panels, FreeSpace free, string id, List<Finding> findings)
    {
        var placed = DotBlock(free);
        var holes = panels.SelectMany(HoleRooms).ToList();
        foreach (var gauge in ((IEnumerable<Gauge>)[.. DotRow.All.Reverse(), new WindowGauge(), new BlackPatches()]).Where(gauge => placed.All(there => there.Gauge.Name != gauge.Name)).ToList())
        {
            if ((Find(gauge, free) ?? Inside(gauge, holes)) is { } box)
            {
                placed.Add((gauge, box));
            }
            else
            {
                findings.Add(Finding.Note(
                    "gauge-no-room",
                    $"{id} has no room for the gauge `{gauge.Name}`",
                    "a larger paper has room for all of them",
                    null,
                    id));
            }
        }

        return placed;
    }

    /// <summary>The four dot rows one below the other, always N, E, S, W, where there is room for all; otherwise none of them yet.</summary>
    private static List<(Gauge Gauge, Box<SheetSpace> Box)> DotBlock(FreeSpace free)
    {
        var (width, height) = DotRow.All[0].Sizes[0];
        if (free.Find(width + (2 * AirMm), (4 * (height + RowGapMm)) + (2 * AirMm)) is not { } block)
        {
            return [];
        }

        free.Take(block);
        return [.. DotRow.All.Select((row, index) => ((Gauge)row, new Box<SheetSpace>(
            block.LeftMm + AirMm, block.TopMm - AirMm - ((index + 1) * (height + RowGapMm)) + RowGapMm, width, height)))];
    }

    /// <summary>A place with air around it, or at least a place.</summary>
    private static Box<SheetSpace>? Find(Gauge gauge, FreeSpace free)
    {
        foreach (var airMm in new[] { AirMm, 0 })
        {
            foreach (var (width, height) in gauge.Sizes)
            {
                if (free.Find(width + (2 * airMm), height + (2 * airMm)) is { } room)
                {
                    free.Take(room);
                    return room.Grow(-airMm);
                }
            }
        }

        return null;
    }

    private static Box<SheetSpace>? Inside(Gauge gauge, List<FreeSpace> holes) =>
        holes.Select(hole => Find(gauge, hole)).FirstOrDefault(box => box is not null);

    /// <summary>The room inside large holes, beside their crosshairs: it is cut away, so gauges may stand there.</summary>
    private static IEnumerable<FreeSpace> HoleRooms(PlacedPanel panel)
    {
        foreach (var hole in panel.Panel.Holes.Map(panel.Map).Pieces)
        {
            // The black reaches 0.8 mm into a hole; what is left must hold the whole rectangle, however the hole is shaped or turned.
            var rest = hole.Grow(-1);
            var inside = Shares.Select(share => Middle(rest.Bounds, share)).FirstOrDefault(box => rest.Contains(Region<SheetSpace>.Rectangle(box)));
            if (inside.WidthMm < 12 || inside.HeightMm < 12)
            {
                continue;
            }

            var crosshair = hole.Bounds.Centre;
            var room = new FreeSpace(inside);
            room.Take(new(crosshair.XMm - 7, crosshair.YMm - 4.5, 14, 9));
            yield return room;
        }
    }

    private static Box<SheetSpace> Middle(Box<SheetSpace> box, double share) =>
        new(box.Centre.XMm - (box.WidthMm * share / 2), box.Centre.YMm - (box.HeightMm * share / 2), box.WidthMm * share, box.HeightMm * share);

    private static List<PlacedPanel> Spares(ImmutableArray<PlacedPanel> placed, FreeSpace free)
    {
        var spares = new List<PlacedPanel>();
        foreach (var panel in placed.Select(panel => panel.Panel).OrderBy(panel => panel.WidthMm * panel.HeightMm).ThenBy(panel => panel.Id, StringComparer.Ordinal))
        {
            while (spares.Count < MostSpares && Imposition.PlaceSpare(panel, free) is { } spare)
            {
                spares.Add(spare);
            }
        }

        return spares;
    }
}
