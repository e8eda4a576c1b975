using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Layout;

namespace Lampblack.Books;

/// <summary>A piece of board or wood to cut.</summary>
/// <param name="Count">How many.</param>
/// <param name="What">What it becomes.</param>
/// <param name="WidthMm">One side.</param>
/// <param name="HeightMm">The other.</param>
/// <param name="ThickMm">How thick; for pieces of strip the third side.</param>
/// <param name="IsWood">Whether it is cut off a strip of wood; else out of board.</param>
internal sealed record BoxPiece(int Count, string What, double WidthMm, double HeightMm, double ThickMm, bool IsWood);

/// <summary>What a box is cut from. Outside it is as large as its panel where board of that thickness is sold. Sizes of shops from memory.</summary>
internal static class BoxPieces
{
    /// <summary>Between two pieces on the board: a saw's cut, and a stroke of the file on both.</summary>
    public const double KerfMm = 2;

    /// <summary>How thick the lamp board is.</summary>
    public const double LampBoardMm = 3;

    /// <summary>How much smaller than the box it is, both ways: it goes in without force.</summary>
    public const double LooseMm = 1;

    private const double FloorBlockMm = 12;
    private const double FloorBlockHighMm = 20;
    private static readonly ImmutableArray<double> SoldMm = [3, 4, 5, 6, 8, 10];

    /// <summary>How thick the walls are: what the panel stands out beyond the inside, as board is sold.</summary>
    public static double WallMm(BookFacts facts)
    {
        var inset = facts.Boxes.Min(box => box.Inside.LeftMm);
        return SoldMm.LastOrDefault(mm => mm <= inset + 0.2) is > 0 and var sold ? sold : SoldMm[0];
    }

    /// <summary>How high the walls are.</summary>
    public static double WallHighMm(BookFacts facts) => facts.BoxDepthMm + LampBoardMm + LampDrawings.RoomMm(facts);

    /// <summary>The pieces of one box.</summary>
    public static IEnumerable<BoxPiece> Of(LampBoard board, BookFacts facts)
    {
        var (box, wall, high) = (board.Box, WallMm(facts), WallHighMm(facts));
        yield return new(2, "wall above and below", box.WidthMm + (2 * wall), high, wall, false);
        yield return new(2, "wall at the sides, between the others", box.HeightMm, high, wall, false);
        yield return new(1, "floor, below all walls", box.WidthMm + (2 * wall), box.HeightMm + (2 * wall), wall, false);
        yield return new(1, "lamp board, white above", box.WidthMm - LooseMm, box.HeightMm - LooseMm, LampBoardMm, false);
        foreach (var block in board.Blocks.GroupBy(area => (Math.Round(area.WidthMm, 2, MidpointRounding.AwayFromZero), Math.Round(area.HeightMm, 2, MidpointRounding.AwayFromZero))))
        {
            yield return new(block.Count(), "block for a screw of the panel", block.Key.Item1, block.Key.Item2, ScrewBlock.HighMm, true);
        }

        yield return new(4, "block for the floor's screws, in the lower corners", FloorBlockMm, FloorBlockMm, FloorBlockHighMm, true);
        foreach (var rest in board.Rests.GroupBy(rest => Math.Round(rest.IsLevel ? rest.Area.WidthMm : rest.Area.HeightMm, MidpointRounding.AwayFromZero)).OrderByDescending(group => group.Key))
        {
            yield return new(rest.Count(), "piece of strip that the lamp board lies on", rest.Key, LampRests.StripMm, LampRests.StripMm, true);
        }
    }

    /// <summary>How much board the pieces take, cuts included, in square metres.</summary>
    public static double BoardSquareMetres(BookFacts facts) =>
        facts.LampBoards.SelectMany(board => Of(board, facts)).Where(piece => !piece.IsWood).Sum(piece => piece.Count * (piece.WidthMm + KerfMm) * (piece.HeightMm + KerfMm)) / 1e6;

    /// <summary>How much strip the pieces of strip take, in mm.</summary>
    public static double StripMm(BookFacts facts) =>
        facts.LampBoards.SelectMany(board => board.Rests).Sum(rest => Math.Round(rest.IsLevel ? rest.Area.WidthMm : rest.Area.HeightMm, MidpointRounding.AwayFromZero) + KerfMm);

    /// <summary>How many small wood screws: one in each piece of strip, four in each floor.</summary>
    public static int WoodScrews(BookFacts facts) => facts.LampBoards.Sum(board => board.Rests.Count(board.TakesScrew) + 4);
}
