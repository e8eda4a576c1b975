using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.Sheets;

/// <summary>Finds places for the gauges of a sheet: in the waste, else inside large holes.</summary>
internal static class GaugePlaces
{
    private const double AirMm = 1.5;
    private const double RowGapMm = 0.8;

    /// <summary>How much of a hole's bounds is tried for gauges: all of a rectangle, 0.7 of a disc (its largest square is 0.707), less of what is turned.</summary>
    private static readonly ImmutableArray<double> Shares = [1, 0.7, 0.5];

    /// <summary>The gauges that every sheet should have, with their places; what finds no room becomes a finding.</summary>
    public static List<(Gauge Gauge, Box<SheetSpace> Box)> Of(
        ImmutableArray<PlacedPanel> panels, FreeSpace free, GaugeInks inks, double spreadMm, string id, List<Finding> findings)
    {
        var placed = DotBlock(free, spreadMm);
        var holes = panels.SelectMany(HoleRooms).ToList();
        IEnumerable<Gauge> others = inks.Mark == inks.Field ? [new WindowGauge()] : [new WindowGauge(), new BlackPatches()];
        foreach (var gauge in DotRow.All.Reverse().Concat(others).Where(gauge => placed.All(there => there.Gauge.Name != gauge.Name)).ToList())
        {
            Place(gauge);
        }

        ImmutableArray<Point<SheetSpace>> rows = [.. placed.Where(there => there.Gauge is DotRow).Select(there => there.Box.Centre)];
        if (!rows.IsEmpty && !placed.Exists(there => there.Gauge is PassBand))
        {
            Place(new PassBand(spreadMm, new(rows.Average(row => row.XMm), rows.Average(row => row.YMm))));
        }

        return placed;

        void Place(Gauge gauge)
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
    }

    /// <summary>The four dot rows one below the other, always N, E, S, W, with the pass band under them, where there is room for all; otherwise none of them yet.</summary>
    private static List<(Gauge Gauge, Box<SheetSpace> Box)> DotBlock(FreeSpace free, double spreadMm)
    {
        var (width, height) = DotRow.All[0].Sizes[0];
        var rowsMm = (4 * (height + RowGapMm)) - RowGapMm;
        var (bandWidth, bandHeight) = new PassBand(spreadMm, default).Sizes[0];
        if (free.Find(width + (2 * AirMm), rowsMm + bandHeight + (2 * AirMm)) is not { } block)
        {
            return [];
        }

        free.Take(block);
        var rows = new Box<SheetSpace>(block.LeftMm + AirMm, block.TopMm - AirMm - rowsMm, width, rowsMm);
        return
        [
            .. DotRow.All.Select((row, index) => ((Gauge)row, new Box<SheetSpace>(
                rows.LeftMm, rows.TopMm - (index * (height + RowGapMm)) - height, width, height))),
            (new PassBand(spreadMm, rows.Centre), new(rows.Centre.XMm - (bandWidth / 2), rows.BottomMm - bandHeight, bandWidth, bandHeight)),
        ];
    }

    /// <summary>A place with air around it, or at least a place.</summary>
    public static Box<SheetSpace>? Find(Gauge gauge, FreeSpace free)
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
}
