using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Fabrication;

/// <summary>One page of a template: a window on the panel.</summary>
/// <param name="Map">From the panel to the page, seen from the front.</param>
/// <param name="Window">What of the page shows the panel.</param>
/// <param name="Column">Which column of pages, from 1.</param>
/// <param name="Row">Which row of pages from the bottom of the drawing as it lies on the pages, from 1.</param>
public sealed record TemplateTile(Affine<PanelSpace, SheetSpace> Map, Box<SheetSpace> Window, int Column, int Row);

/// <summary>How a template is spread over pages: on one where the paper has room, else over several that overlap.</summary>
/// <param name="Tiles">The pages, row by row from the bottom.</param>
/// <param name="Columns">How many side by side.</param>
/// <param name="Rows">How many above each other.</param>
/// <param name="Crosses">Where marks stand that two pages or more show, in the panel.</param>
/// <param name="HasWordsAside">Whether the words stand to the left of the window and not above it: so one page holds a panel nearly as long as the paper.</param>
public sealed record TemplateTiles(ImmutableArray<TemplateTile> Tiles, int Columns, int Rows, ImmutableArray<Point<PanelSpace>> Crosses, bool HasWordsAside = false)
{
    /// <summary>What is drawn outside the plate: score lines run on, the corner is named.</summary>
    public const double AroundMm = 8;

    /// <summary>How far pages overlap.</summary>
    public const double OverlapMm = 14;

    /// <summary>The least of that, where it spares a second page.</summary>
    public const double LeastAroundMm = 5;

    /// <summary>Kept free for words above the window, or beside it.</summary>
    public const double HeadMm = 17;

    /// <summary>Kept free for the bar below it.</summary>
    public const double FootMm = 7;

    /// <summary>The pages for a panel, upright or turned by a quarter, whichever takes fewer; upright where both take as many.</summary>
    /// <param name="widthMm">The panel's width.</param>
    /// <param name="heightMm">The panel's height.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="printer">What is known of the printer.</param>
    public static TemplateTiles Of(double widthMm, double heightMm, PaperSize paper, PrinterProperties printer)
    {
        ArgumentNullException.ThrowIfNull(paper);
        ArgumentNullException.ThrowIfNull(printer);
        var margin = Math.Max(printer.MarginMm, 5);
        var room = new Box<SheetSpace>(margin, margin + FootMm, paper.WidthMm - (2 * margin), paper.HeightMm - (2 * margin) - HeadMm - FootMm);
        var upright = (Columns: Count(widthMm, room.WidthMm), Rows: Count(heightMm, room.HeightMm));
        var turned = (Columns: Count(heightMm, room.WidthMm), Rows: Count(widthMm, room.HeightMm));
        var isTurned = turned.Columns * turned.Rows < upright.Columns * upright.Rows;
        var (columns, rows) = isTurned ? turned : upright;
        var aside = new Box<SheetSpace>(margin + HeadMm, margin + FootMm, paper.WidthMm - (2 * margin) - HeadMm, paper.HeightMm - (2 * margin) - FootMm);
        var isAside = columns * rows > 1 && (Fits(aside, widthMm, heightMm) || Fits(aside, heightMm, widthMm));
        if (isAside)
        {
            (room, isTurned, columns, rows) = (aside, !Fits(aside, widthMm, heightMm), 1, 1);
        }

        // The panel as it lies on the joined pages, its surroundings included, in the middle of what they show.
        var lying = isTurned
            ? new Affine<PanelSpace, SheetSpace>(0, -1, heightMm, 1, 0, 0)
            : Affine<PanelSpace, SheetSpace>.Shift(0, 0);
        var (acrossMm, upMm) = isTurned ? (heightMm, widthMm) : (widthMm, heightMm);
        var (leftMm, bottomMm) = ((Whole(columns, room.WidthMm) - acrossMm) / 2, (Whole(rows, room.HeightMm) - upMm) / 2);
        var tiles = ImmutableArray.CreateBuilder<TemplateTile>(columns * rows);
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                tiles.Add(new(
                    lying.Then(Affine<SheetSpace, SheetSpace>.Shift(
                        room.LeftMm + leftMm - (column * (room.WidthMm - OverlapMm)), room.BottomMm + bottomMm - (row * (room.HeightMm - OverlapMm)))),
                    room,
                    column + 1,
                    row + 1));
            }
        }

        var back = lying.Then(Affine<SheetSpace, SheetSpace>.Shift(leftMm, bottomMm)).Inverse();
        return new(tiles.ToImmutable(), columns, rows, [.. Seams(columns, rows, room).Select(back.Apply)], isAside);
    }

    private static bool Fits(Box<SheetSpace> room, double acrossMm, double upMm) => acrossMm + (2 * LeastAroundMm) <= room.WidthMm && upMm + (2 * LeastAroundMm) <= room.HeightMm;

    private static int Count(double panelMm, double roomMm)
    {
        var needed = panelMm + (2 * AroundMm);
        return needed <= roomMm ? 1 : 1 + (int)Math.Ceiling((needed - roomMm) / (roomMm - OverlapMm));
    }

    private static double Whole(int count, double roomMm) => (count * roomMm) - ((count - 1) * OverlapMm);

    /// <summary>The middles of all overlaps, near both ends of each and between, on the joined pages.</summary>
    private static IEnumerable<Point<SheetSpace>> Seams(int columns, int rows, Box<SheetSpace> room)
    {
        var (acrossMm, upMm) = (Whole(columns, room.WidthMm), Whole(rows, room.HeightMm));
        for (var column = 1; column < columns; column++)
        {
            var x = (column * (room.WidthMm - OverlapMm)) + (OverlapMm / 2);
            foreach (var y in Along(rows, room.HeightMm, upMm))
            {
                yield return new(x, y);
            }
        }

        for (var row = 1; row < rows; row++)
        {
            var y = (row * (room.HeightMm - OverlapMm)) + (OverlapMm / 2);
            foreach (var x in Along(columns, room.WidthMm, acrossMm))
            {
                yield return new(x, y);
            }
        }
    }

    /// <summary>Two places on each page along a seam, clear of the overlaps that cross it.</summary>
    private static IEnumerable<double> Along(int count, double roomMm, double wholeMm) => Enumerable.Range(0, count).SelectMany(page =>
    {
        var from = page * (roomMm - OverlapMm);
        return new[] { from + OverlapMm + 6, from + roomMm - OverlapMm - 6 };
    }).Where(place => place > 0 && place < wholeMm);
}
