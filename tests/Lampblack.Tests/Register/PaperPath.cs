using System;
using Lampblack.Tests.Peers;

namespace Lampblack.Tests.Register;

/// <summary>
/// A sheet of paper as a body in space that goes through a printer twice. Nothing here knows of mirrors: a sheet is turned over by half a turn about
/// an axis, the printer always prints the face that lies up, and the rest follows. World axes: x to the right, y in the direction of feeding, z up.
/// </summary>
public sealed class PaperPath
{
    private readonly int[,] _first;
    private readonly int[,] _second;
    private readonly int[,] _page;

    private PaperPath(int[,] page, int[,] first, int[,] second) => (_page, _first, _second) = (page, first, second);

    private static int[,] Straight => new[,] { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } };

    private static int[,] HalfAboutX => new[,] { { 1, 0, 0 }, { 0, -1, 0 }, { 0, 0, -1 } };

    private static int[,] HalfAboutY => new[,] { { -1, 0, 0 }, { 0, 1, 0 }, { 0, 0, -1 } };

    private static int[,] HalfAboutZ => new[,] { { -1, 0, 0 }, { 0, -1, 0 }, { 0, 0, 1 } };

    private static int[,] QuarterAboutZ => new[,] { { 0, 1, 0 }, { -1, 0, 0 }, { 0, 0, 1 } };

    /// <summary>Fed twice by hand.</summary>
    /// <param name="longEdgeFirst">Whether the printer takes the long edge first (its driver then turns every page by a quarter).</param>
    /// <param name="sameEdge">Whether the same edge leads the second time.</param>
    /// <param name="otherFace">Whether the white face lies up the second time.</param>
    public static PaperPath ByHand(bool longEdgeFirst, bool sameEdge, bool otherFace)
    {
        var first = longEdgeFirst ? QuarterAboutZ : Straight;

        // The feeding direction is y: turning over about it keeps the leading edge, about x it swaps it.
        var turn = (otherFace, sameEdge) switch
        {
            (true, true) => HalfAboutY,
            (true, false) => HalfAboutX,
            (false, true) => Straight,
            (false, false) => HalfAboutZ,
        };
        return new(first, first, Times(turn, first));
    }

    /// <summary>Turned by the printer: like a book bound at the page's long edge, or like a pad bound at its short edge.</summary>
    /// <param name="longEdge">Which of the two.</param>
    public static PaperPath Automatic(bool longEdge) => new(Straight, Straight, longEdge ? HalfAboutY : HalfAboutX);

    /// <summary>Whether the second pass printed the other face than the first.</summary>
    public bool PrintsTheOtherFace => _second[2, 2] < 0;

    /// <summary>The second page's black where it lies on the sheet, row 0 at the top, as seen from the front through the paper.</summary>
    /// <param name="page">The second page, upright.</param>
    /// <param name="scale">By how much the printer shrinks it.</param>
    /// <param name="about">The place on the page that stays where it is: 0, 0 the lower left corner; 0.5, 0.5 the middle.</param>
    public bool[] SecondOnSheet(InkPlates page, double scale = 1, (double X, double Y) about = default)
    {
        var (width, height) = (page.WidthPx, page.HeightPx);
        var sheet = new bool[width * height];
        for (var row = 0; row < height; row++)
        {
            for (var column = 0; column < width; column++)
            {
                // From the sheet's middle, in dots, y up; through the second pose into the world; from there back to the page.
                var (x, y) = (column + 0.5 - (width / 2.0), (height / 2.0) - row - 0.5);
                var (worldX, worldY) = Apply(_second, x, y);
                var (pageX, pageY) = Apply(Transposed(_page), worldX, worldY);
                var (fromX, fromY) = (width * (about.X - 0.5), height * (about.Y - 0.5));
                var pageColumn = (int)Math.Floor(((pageX - fromX) / scale) + fromX + (width / 2.0));
                var pageRow = (int)Math.Floor((height / 2.0) - ((pageY - fromY) / scale) - fromY);
                if (pageColumn >= 0 && pageColumn < width && pageRow >= 0 && pageRow < height)
                {
                    sheet[(row * width) + column] = page.Black[(pageRow * width) + pageColumn] > 127;
                }
            }
        }

        return sheet;
    }

    private static (double X, double Y) Apply(int[,] turn, double x, double y) => ((turn[0, 0] * x) + (turn[0, 1] * y), (turn[1, 0] * x) + (turn[1, 1] * y));

    private static int[,] Transposed(int[,] turn)
    {
        var back = new int[3, 3];
        for (var row = 0; row < 3; row++)
        {
            for (var column = 0; column < 3; column++)
            {
                back[row, column] = turn[column, row];
            }
        }

        return back;
    }

    private static int[,] Times(int[,] second, int[,] first)
    {
        var both = new int[3, 3];
        for (var row = 0; row < 3; row++)
        {
            for (var column = 0; column < 3; column++)
            {
                for (var inner = 0; inner < 3; inner++)
                {
                    both[row, column] += second[row, inner] * first[inner, column];
                }
            }
        }

        return both;
    }
}
