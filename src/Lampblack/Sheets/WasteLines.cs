using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;

namespace Lampblack.Sheets;

/// <summary>Places lines of small lettering in the waste of a sheet that is made up already, where nothing is printed on either side.</summary>
internal sealed class WasteLines
{
    private const double CellMm = 0.5;
    private const double AirMm = 0.8;

    /// <summary>Heights of capitals that are tried, the best first.</summary>
    private static readonly ImmutableArray<double> HeightsMm = [2, 1.6, 1.3];

    private readonly Box<SheetSpace> _room;
    private readonly bool[,] _taken;

    /// <summary>Takes stock of a sheet.</summary>
    public WasteLines(Sheet sheet, PrinterProperties printer)
    {
        _room = SheetRoom.Of(sheet.Paper, printer).Printable;
        _taken = new bool[(int)Math.Floor(_room.WidthMm / CellMm), (int)Math.Floor(_room.HeightMm / CellMm)];
        List<Box<SheetSpace>> blocks = [.. sheet.Panels.Select(panel => panel.Block), .. sheet.Gauges.Select(gauge => gauge.Box)];
        foreach (var box in blocks.Concat(Printed(sheet.Front, blocks)).Concat(Printed(sheet.Back, blocks)))
        {
            Take(box.Grow(AirMm));
        }
    }

    /// <summary>Sets a line where it is free, upright before turned and large before small, and takes its place; null where there is none.</summary>
    /// <param name="text">The words.</param>
    /// <param name="side">The side they are printed on.</param>
    /// <param name="heightMm">The height of its capitals; 0 for whichever fits.</param>
    /// <param name="upsideDown">Whether the line is turned by half, for a page that is.</param>
    public Region<SheetSpace>? Place(string text, Side side, double heightMm = 0, bool upsideDown = false) =>
        (heightMm > 0 ? Find(text, heightMm) : Find(text)) is { } place ? SheetText.Centred(text, place.HeightMm, place.Middle, side, place.QuarterTurns + (upsideDown ? 2 : 0)) : null;

    /// <summary>Finds and takes a place for a line.</summary>
    public LinePlace? Find(string text) => HeightsMm.Select(heightMm => Find(text, heightMm)).FirstOrDefault(place => place is not null);

    private LinePlace? Find(string text, double heightMm)
    {
        // Some letters reach below the line, and some above capitals.
        var (lengthMm, acrossMm) = (SheetText.WidthMm(text, heightMm), heightMm * 1.6);
        foreach (var turned in new[] { false, true })
        {
            if (Free(turned ? acrossMm : lengthMm, turned ? lengthMm : acrossMm) is { } box)
            {
                Take(box.Grow(AirMm));
                return new(box.Centre, heightMm, turned ? 1 : 0);
            }
        }

        return null;
    }

    /// <summary>What is printed outside these blocks, piece by piece.</summary>
    private static IEnumerable<Box<SheetSpace>> Printed(ImmutableArray<Painted<SheetSpace>> areas, List<Box<SheetSpace>> blocks) =>
        areas.Where(area => !area.Region.IsEmpty && !blocks.Any(block => block.Contains(area.Region.Bounds)))
            .SelectMany(area => area.Region.Pieces).Select(piece => piece.Bounds);

    private void Take(Box<SheetSpace> box)
    {
        var (left, right) = (Cell(box.LeftMm - _room.LeftMm), Cell(box.RightMm - _room.LeftMm));
        var (bottom, top) = (Cell(box.BottomMm - _room.BottomMm), Cell(box.TopMm - _room.BottomMm));
        for (var x = Math.Max(0, left); x <= Math.Min(right, _taken.GetLength(0) - 1); x++)
        {
            for (var y = Math.Max(0, bottom); y <= Math.Min(top, _taken.GetLength(1) - 1); y++)
            {
                _taken[x, y] = true;
            }
        }
    }

    /// <summary>The uppermost free box of a size, of those the leftmost. Each cell knows how many free ones follow it to the right.</summary>
    private Box<SheetSpace>? Free(double widthMm, double heightMm)
    {
        var (columns, rows) = (_taken.GetLength(0), _taken.GetLength(1));
        var (wide, high) = ((int)Math.Ceiling(widthMm / CellMm), (int)Math.Ceiling(heightMm / CellMm));
        var stacked = new int[columns];
        for (var y = rows - 1; y >= 0; y--)
        {
            // How many rows in a column are free from here upwards for the whole width.
            var run = 0;
            for (var x = columns - 1; x >= 0; x--)
            {
                run = _taken[x, y] ? 0 : run + 1;
                stacked[x] = run >= wide ? stacked[x] + 1 : 0;
            }

            var found = Array.FindIndex(stacked, count => count >= high);
            if (found >= 0)
            {
                return new(_room.LeftMm + (found * CellMm), _room.BottomMm + (y * CellMm), wide * CellMm, high * CellMm);
            }
        }

        return null;
    }

    private static int Cell(double mm) => (int)Math.Floor(mm / CellMm);
}
