using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Books;
using Lampblack.Cutting;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>On which side each print is hinged on its plate: there must be plate to tape it to, whichever way the cut plan laid the panel.</summary>
public static class BookHinges
{
    private const string InkOfHinge = "#7a4a00";

    // Labels of narrow pieces stand further in.
    private const double DrawnMm = 6;
    private const double AroundMm = 3;

    /// <summary>The hinges, panel by panel.</summary>
    internal static ImmutableArray<BookHinge> Of(BookInput input)
    {
        var hinges = ImmutableArray<BookHinge>.Empty;
        foreach (var panel in input.Laid.Panels.Select(panel => panel.Panel))
        {
            var placed = input.Sheets.SelectMany(sheet => sheet.Sheet.Panels).FirstOrDefault(placed => placed.Panel.Id == panel.Id && placed.Hinge is not null);
            hinges = Of(panel.Id, panel.Title, input.Cut.Plan, placed, hinges) is { } hinge ? hinges.Add(hinge) : hinges;
        }

        return hinges;
    }

    /// <summary>The hinge of one panel; null where no plate has it.</summary>
    /// <param name="id">The panel's id.</param>
    /// <param name="title">Its title.</param>
    /// <param name="plan">The cut plan.</param>
    /// <param name="placed">The panel on its sheet, where that has a strip for it; null for none.</param>
    /// <param name="before">Other panels' hinges: what they cover is no room any more.</param>
    public static BookHinge? Of(string id, string title, CutPlan plan, PlacedPanel? placed, ImmutableArray<BookHinge> before)
    {
        ArgumentNullException.ThrowIfNull(plan);
        foreach (var (plate, index, _) in CutWords.Numbered(plan))
        {
            if (plate.Pieces.FirstOrDefault(piece => piece.Id == id) is { } piece)
            {
                ImmutableArray<CutBox> taken =
                [
                    .. plate.Pieces.Where(other => !ReferenceEquals(other, piece)).Select(other => other.Box),
                    .. before.Where(hinge => hinge.Plate == index + 1 && hinge.RoomMm >= Imposition.HingeMm).SelectMany(hinge => plate.Pieces.Where(other => other.Id == hinge.Id).Take(1).Select(other => Strip(other.Box, hinge.Side))),
                ];

                // The strip runs along the panel's width or along its height; on the plate the print may lie either way round.
                var isLevel = placed is { Hinge: { } strip } ? (strip.WidthMm > strip.HeightMm) == (placed.QuarterTurns % 2 == 0) != piece.IsTurned : (bool?)null;
                ImmutableArray<(string Side, bool IsLevel, double RoomMm)> sides = [.. new[] { ("right", false), ("left", false), ("upper", true), ("lower", true) }.Select(side => (side.Item1, side.Item2, RoomMm(plate.Stock, piece.Box, taken, side.Item1)))];
                var best = sides.OrderByDescending(side => side.IsLevel == isLevel && side.RoomMm >= Imposition.HingeMm).ThenByDescending(side => side.RoomMm).First();
                return new(id, title, index + 1, best.Side, best.RoomMm, best.IsLevel == isLevel && best.RoomMm >= Imposition.HingeMm, isLevel is not null);
            }
        }

        return null;
    }

    /// <summary>The plate's drawing with the strips in their places.</summary>
    internal static SvgDrawing<SheetSpace> Drawn(SvgDrawing<SheetSpace> drawing, CutPlate plate, int number, ImmutableArray<BookHinge> hinges)
    {
        var marginMm = (drawing.WidthMm - plate.Stock.WidthMm) / 2;
        ImmutableArray<Region<SheetSpace>> strips = [.. hinges.Where(hinge => hinge.Plate == number && hinge.RoomMm >= Imposition.HingeMm).Select(hinge => Hatched(Strip(plate.Pieces.First(piece => piece.Id == hinge.Id).Box, hinge.Side, DrawnMm), marginMm))];

        // Under everything but the paper and narrower than the tape, and broken off round words: no label is covered.
        var words = Region<SheetSpace>.Union(drawing.Layers.Where(layer => layer.Id == "words").SelectMany(layer => layer.Region.Pieces).Select(letter => Region<SheetSpace>.Rectangle(letter.Bounds.Grow(AroundMm))));
        return drawing with { Layers = drawing.Layers.Insert(drawing.Layers.Index().First(layer => layer.Item.Id == "cuts").Index, new("hinges", "Where the prints are hinged", Region<SheetSpace>.Union(strips).Except(words), InkOfHinge)) };
    }

    private static CutBox Strip(CutBox box, string side, double wideMm = Imposition.HingeMm) => side switch
    {
        "left" => new(box.XMm - wideMm, box.YMm, wideMm, box.HeightMm),
        "right" => new(box.XMm + box.WidthMm, box.YMm, wideMm, box.HeightMm),
        "upper" => new(box.XMm, box.YMm + box.HeightMm, box.WidthMm, wideMm),
        _ => new(box.XMm, box.YMm - wideMm, box.WidthMm, wideMm),
    };

    /// <summary>Hatched, so that a black-only print tells it from the lines of the cuts.</summary>
    private static Region<SheetSpace> Hatched(CutBox box, double marginMm)
    {
        var strip = new Box<SheetSpace>(box.XMm + marginMm, box.YMm + marginMm, box.WidthMm, box.HeightMm);
        var isUpright = strip.HeightMm > strip.WidthMm;
        var count = Math.Max(1, (int)((isUpright ? strip.HeightMm : strip.WidthMm) / 6));
        return Region<SheetSpace>.Union(Enumerable.Range(0, count).Select(bar => Region<SheetSpace>.Rectangle(isUpright
            ? new(strip.LeftMm, strip.BottomMm + (bar * 6) + 2, strip.WidthMm, 2)
            : new(strip.LeftMm + (bar * 6) + 2, strip.BottomMm, 2, strip.HeightMm))));
    }

    /// <summary>How far the plate goes on beyond a side, up to its edge or to the next panel.</summary>
    private static double RoomMm(CutStock stock, CutBox box, ImmutableArray<CutBox> taken, string side)
    {
        bool Beside(CutBox other) => side is "left" or "right"
            ? other.YMm < box.YMm + box.HeightMm && other.YMm + other.HeightMm > box.YMm
            : other.XMm < box.XMm + box.WidthMm && other.XMm + other.WidthMm > box.XMm;
        var others = taken.Where(Beside);
        var ways = side switch
        {
            "left" => others.Select(other => box.XMm - other.XMm - other.WidthMm).Append(box.XMm),
            "right" => others.Select(other => other.XMm - box.XMm - box.WidthMm).Append(stock.WidthMm - box.XMm - box.WidthMm),
            "upper" => others.Select(other => other.YMm - box.YMm - box.HeightMm).Append(stock.HeightMm - box.YMm - box.HeightMm),
            _ => others.Select(other => box.YMm - other.YMm - other.HeightMm).Append(box.YMm),
        };
        return Math.Max(0, ways.Where(mm => mm > -1e-6).DefaultIfEmpty(0).Min());
    }
}
