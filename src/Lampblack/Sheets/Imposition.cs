using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Sheets;

/// <summary>Puts panels on as few sheets as can be found.</summary>
internal static class Imposition
{
    /// <summary>Trim marks of 3 mm, half a millimetre off the bleed.</summary>
    public const double MarksMm = 3.5;

    /// <summary>The strip that stays on for a tape hinge.</summary>
    public const double HingeMm = 12;

    /// <summary>Up to this many panels every order is tried; beyond, only the likely ones.</summary>
    private const int TryAllOrders = 5;

    /// <summary>Up to this many panels each is tried both upright and turned; beyond, all with their longer sides one way.</summary>
    private const int TryAllTurns = 4;

    /// <summary>The sheets, each with its panels and what is free of it.</summary>
    public static ImmutableArray<(ImmutableArray<PlacedPanel> Panels, FreeSpace Free)> Place(
        ImmutableArray<Printable> panels, SheetRoom room, ICollection<Finding> findings)
    {
        var fitting = panels.Where(panel => Fits(panel, room, findings)).ToImmutableArray();
        List<List<PlacedPanel>>? best = null;
        var bestScore = (Sheets: int.MaxValue, Missing: int.MaxValue, Turns: int.MaxValue);
        foreach (var order in Orders(fitting))
        {
            foreach (var (hinged, turns) in Ways(order))
            {
                var sheets = Pack(order, room, hinged, turns);
                var all = sheets.SelectMany(sheet => sheet).ToList();
                var score = (sheets.Count, all.Count(panel => panel.Hinge is null), all.Sum(panel => panel.QuarterTurns));
                if (score.CompareTo(bestScore) < 0)
                {
                    (best, bestScore) = (sheets, score);
                }
            }
        }

        return [.. (best ?? []).Select(sheet => (sheet.ToImmutableArray(), FreeOf(sheet, room)))];
    }

    /// <summary>Puts another copy of a panel where there is room for one; null where there is none.</summary>
    public static PlacedPanel? PlaceSpare(Printable panel, FreeSpace free) => Place(panel, free, MarksMm, hinged: false, spare: true);

    private static FreeSpace FreeOf(List<PlacedPanel> sheet, SheetRoom room)
    {
        var free = new FreeSpace(room.Panels);
        foreach (var panel in sheet)
        {
            free.Take(panel.Block);
        }

        return free;
    }

    private static bool Fits(Printable panel, SheetRoom room, ICollection<Finding> findings)
    {
        if (Place(panel, new FreeSpace(room.Panels), MarksMm, hinged: false, spare: false) is not null)
        {
            return true;
        }

        if (Place(panel, new FreeSpace(room.Panels), 0, hinged: false, spare: false) is not null)
        {
            findings.Add(Finding.Note(
                "trim-marks-no-room",
                $"panel `{panel.Id}` leaves no room for trim marks on {room.Paper.Name}",
                "cut where the print's bleed tells, 3 mm inside its edge; or take a larger paper",
                null,
                panel.Id));
            return true;
        }

        if (Place(panel, new FreeSpace(room.Printable), 0, hinged: false, spare: false) is not null)
        {
            findings.Add(Finding.Warn(
                "leading-edge-toner",
                $"panel `{panel.Id}` needs the whole of {room.Paper.Name}: heavy toner comes near the sheet's leading edge, and there is no room for trim marks, nor for all that tells how the sheet was turned",
                $"a larger paper avoids both; {Larger(panel, room)}",
                null,
                panel.Id));
            return true;
        }

        findings.Add(Finding.Stop(
            "panel-too-large",
            FormattableString.Invariant($"panel `{panel.Id}` ({panel.WidthMm} x {panel.HeightMm} mm) and its bleed do not fit on {room.Paper.Name}"),
            Larger(panel, room),
            null,
            panel.Id));
        return false;
    }

    private static string Larger(Printable panel, SheetRoom room)
    {
        var larger = PaperSize.All
            .Where(paper => Place(panel, new FreeSpace((room with { Paper = paper }).Panels), MarksMm, hinged: false, spare: false) is not null)
            .OrderBy(paper => paper.WidthMm * paper.HeightMm)
            .Select(paper => paper.Name)
            .ToList();
        if (larger.Count > 0)
        {
            return "it fits on " + string.Join(" or ", larger) + ": build with `--paper " + larger[0] + "`";
        }

        // The fewest pieces of equal size that each fit on this paper.
        var split = Enumerable.Range(1, 10).SelectMany(columns => Enumerable.Range(1, 10).Select(rows => (columns, rows)))
            .OrderBy(grid => grid.columns * grid.rows).ThenBy(grid => Math.Abs(grid.columns - grid.rows))
            .FirstOrDefault(grid => Place(
                panel with { WidthMm = panel.WidthMm / grid.columns, HeightMm = panel.HeightMm / grid.rows },
                new FreeSpace(room.Panels),
                MarksMm,
                hinged: false,
                spare: false) is not null);
        return split == default
            ? "no paper in the list is large enough: make it of several smaller panels"
            : FormattableString.Invariant(
                $"no paper in the list is large enough: split it into {split.columns * split.rows} panels of {panel.WidthMm / split.columns:0.#} x {panel.HeightMm / split.rows:0.#} mm, which fit on {room.Paper.Name}");
    }

    private static IEnumerable<ImmutableArray<Printable>> Orders(ImmutableArray<Printable> panels)
    {
        if (panels.Length <= TryAllOrders)
        {
            return Permutations(panels);
        }

        return
        [
            [.. panels.OrderByDescending(panel => panel.WidthMm * panel.HeightMm)],
            [.. panels.OrderByDescending(panel => Math.Max(panel.WidthMm, panel.HeightMm))],
            [.. panels.OrderByDescending(panel => Math.Min(panel.WidthMm, panel.HeightMm))],
            panels,
        ];
    }

    /// <summary>With and without hinge strips, and for each panel of an order whether it is tried turned first; all upright comes first.</summary>
    private static IEnumerable<(bool Hinged, ImmutableArray<bool> Turns)> Ways(ImmutableArray<Printable> order)
    {
        ImmutableArray<ImmutableArray<bool>> turns = order.Length <= TryAllTurns
            ? [.. Enumerable.Range(0, 1 << order.Length).Select(bits => order.Select((_, place) => (bits >> place & 1) == 1).ToImmutableArray())]
            :
            [
                [.. order.Select(_ => false)],
                [.. order.Select(panel => panel.HeightMm > panel.WidthMm)],
                [.. order.Select(panel => panel.WidthMm > panel.HeightMm)],
            ];
        return new[] { true, false }.SelectMany(hinged => turns.Select(turn => (hinged, turn)));
    }

    private static IEnumerable<ImmutableArray<Printable>> Permutations(ImmutableArray<Printable> panels)
    {
        if (panels.Length <= 1)
        {
            yield return panels;
            yield break;
        }

        for (var index = 0; index < panels.Length; index++)
        {
            foreach (var rest in Permutations(panels.RemoveAt(index)))
            {
                yield return rest.Insert(0, panels[index]);
            }
        }
    }

    private static List<List<PlacedPanel>> Pack(ImmutableArray<Printable> panels, SheetRoom room, bool hinged, ImmutableArray<bool> turns)
    {
        var sheets = new List<(List<PlacedPanel> Panels, FreeSpace Free)>();
        foreach (var (panel, turnFirst) in panels.Zip(turns))
        {
            var placed = false;
            foreach (var sheet in sheets)
            {
                if (Place(panel, sheet.Free, MarksMm, hinged, spare: false, turnFirst) is { } there)
                {
                    sheet.Panels.Add(there);
                    placed = true;
                    break;
                }
            }

            if (placed)
            {
                continue;
            }

            var free = new FreeSpace(room.Panels);
            if ((Place(panel, free, MarksMm, hinged, spare: false, turnFirst) ?? Place(panel, free, 0, hinged: false, spare: false)) is not { } first)
            {
                // Only this panel may reach into the end strips; what comes after it keeps to the usual room.
                first = Place(panel, new FreeSpace(room.Printable), 0, hinged: false, spare: false)!;
                free.Take(first.Block);
            }

            sheets.Add(([first], free));
        }

        return [.. sheets.Select(sheet => sheet.Panels)];
    }

    /// <summary>Takes a place for a panel, the way it is asked for where that fits, else the other way; with a hinge strip where asked for and possible.</summary>
    private static PlacedPanel? Place(Printable panel, FreeSpace free, double marksMm, bool hinged, bool spare, bool turnFirst = false)
    {
        var borderMm = panel.BleedMm + marksMm;
        foreach (var hinge in hinged ? new[] { true, false } : [false])
        {
            foreach (var turned in new[] { turnFirst, !turnFirst })
            {
                var (width, height) = turned ? (panel.HeightMm, panel.WidthMm) : (panel.WidthMm, panel.HeightMm);
                var wide = width >= height;
                var (blockWidth, blockHeight) = (width + (2 * borderMm), height + (2 * borderMm));
                var extraMm = hinge ? HingeMm - marksMm : 0;
                if (free.Find(blockWidth + (wide ? 0 : extraMm), blockHeight + (wide ? extraMm : 0)) is not { } block)
                {
                    continue;
                }

                free.Take(block);
                return Placed(panel, block, borderMm, turned, wide, hinge, spare);
            }
        }

        return null;
    }

    private static PlacedPanel Placed(Printable panel, Box<SheetSpace> block, double borderMm, bool turned, bool wide, bool hinge, bool spare)
    {
        var (width, height) = turned ? (panel.HeightMm, panel.WidthMm) : (panel.WidthMm, panel.HeightMm);
        var trim = new Box<SheetSpace>(block.LeftMm + borderMm, block.BottomMm + borderMm, width, height);
        var map = turned
            ? Affine<PanelSpace, PanelSpace>.Turn(90).Then(Affine<PanelSpace, SheetSpace>.Shift(trim.LeftMm + panel.HeightMm, trim.BottomMm))
            : Affine<PanelSpace, SheetSpace>.Shift(trim.LeftMm, trim.BottomMm);
        Box<SheetSpace>? strip = !hinge ? null : wide
            ? new(trim.LeftMm, trim.TopMm + panel.BleedMm, width, HingeMm)
            : new(trim.RightMm + panel.BleedMm, trim.BottomMm, HingeMm, height);
        return new(panel, map, turned ? 1 : 0, trim, block, strip, spare);
    }
}
