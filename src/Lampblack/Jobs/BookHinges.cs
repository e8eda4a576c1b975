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

    /// <summary>The hinges, panel by panel.</summary>
    internal static ImmutableArray<BookHinge> Of(BookInput input) =>
    [
        .. input.Laid.Panels.Select(panel => panel.Panel).Select(panel => Of(
            panel.Id,
            panel.Title,
            input.Cut.Plan,
            input.Sheets.SelectMany(sheet => sheet.Panels).FirstOrDefault(placed => placed.Panel.Id == panel.Id && placed.Hinge is not null))).OfType<BookHinge>(),
    ];

    /// <summary>The hinge of one panel; null where no plate has it.</summary>
    /// <param name="id">The panel's id.</param>
    /// <param name="title">Its title.</param>
    /// <param name="plan">The cut plan.</param>
    /// <param name="placed">The panel on its sheet, where that has a strip for it; null for none.</param>
    public static BookHinge? Of(string id, string title, CutPlan plan, PlacedPanel? placed)
    {
        ArgumentNullException.ThrowIfNull(plan);
        foreach (var (plate, index, _) in CutWords.Numbered(plan))
        {
            if (plate.Pieces.FirstOrDefault(piece => piece.Id == id) is { } piece)
            {
                // The strip runs along the panel's width or along its height; on the plate the print may lie either way round.
                var isLevel = placed is { Hinge: { } strip } ? (strip.WidthMm > strip.HeightMm) == (placed.QuarterTurns % 2 == 0) != piece.IsTurned : (bool?)null;
                ImmutableArray<(string Side, bool IsLevel, double RoomMm)> sides = [.. new[] { ("right", false), ("left", false), ("upper", true), ("lower", true) }.Select(side => (side.Item1, side.Item2, RoomMm(plate, piece, side.Item1)))];
                var best = sides.OrderByDescending(side => side.IsLevel == isLevel && side.RoomMm >= Imposition.HingeMm).ThenByDescending(side => side.RoomMm).First();
                return new(title, index + 1, best.Side, best.RoomMm, best.IsLevel == isLevel && best.RoomMm >= Imposition.HingeMm, isLevel is not null);
            }
        }

        return null;
    }

    /// <summary>The plate's drawing with the strips in their places.</summary>
    internal static SvgDrawing<SheetSpace> Drawn(SvgDrawing<SheetSpace> drawing, CutPlate plate, int number, ImmutableArray<BookHinge> hinges, ImmutableDictionary<string, string> ids)
    {
        var marginMm = (drawing.WidthMm - plate.Stock.WidthMm) / 2;
        ImmutableArray<Region<SheetSpace>> strips = [.. hinges.Where(hinge => hinge.Plate == number && hinge.RoomMm >= Imposition.HingeMm).Select(hinge => Strip(plate.Pieces.First(piece => piece.Id == ids[hinge.Panel]).Box, hinge.Side, marginMm))];
        return drawing with { Layers = drawing.Layers.Add(new("hinges", "Where the prints are hinged", Region<SheetSpace>.Union(strips), InkOfHinge)) };
    }

    /// <summary>Hatched, so that a black-only print tells it from the lines of the cuts.</summary>
    private static Region<SheetSpace> Strip(CutBox box, string side, double marginMm)
    {
        const double WideMm = Imposition.HingeMm;
        var (left, low, right, top) = (box.XMm + marginMm, box.YMm + marginMm, box.XMm + box.WidthMm + marginMm, box.YMm + box.HeightMm + marginMm);
        var strip = side switch
        {
            "left" => new Box<SheetSpace>(left - WideMm, low, WideMm, top - low),
            "right" => new(right, low, WideMm, top - low),
            "upper" => new(left, top, right - left, WideMm),
            _ => new(left, low - WideMm, right - left, WideMm),
        };
        var isUpright = strip.HeightMm > strip.WidthMm;
        var count = Math.Max(1, (int)((isUpright ? strip.HeightMm : strip.WidthMm) / 6));
        return Region<SheetSpace>.Union(Enumerable.Range(0, count).Select(bar => Region<SheetSpace>.Rectangle(isUpright
            ? new(strip.LeftMm, strip.BottomMm + (bar * 6) + 2, strip.WidthMm, 2)
            : new(strip.LeftMm + (bar * 6) + 2, strip.BottomMm, 2, strip.HeightMm))));
    }

    /// <summary>How far the plate goes on beyond a side, up to its edge or to the next panel.</summary>
    private static double RoomMm(CutPlate plate, PlacedPiece piece, string side)
    {
        var (box, stock) = (piece.Box, plate.Stock);
        bool Beside(CutBox other) => side is "left" or "right"
            ? other.YMm < box.YMm + box.HeightMm && other.YMm + other.HeightMm > box.YMm
            : other.XMm < box.XMm + box.WidthMm && other.XMm + other.WidthMm > box.XMm;
        var others = plate.Pieces.Where(other => !ReferenceEquals(other, piece)).Select(other => other.Box).Where(Beside);
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
