using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Books;

/// <summary>Where words of a drawing find room: within its edges, beside symbols and each other, and off the lines that are not their own. Places are mm from the upper left corner, y down.</summary>
/// <param name="leftMm">Left edge of what words may lie on.</param>
/// <param name="topMm">Upper edge.</param>
/// <param name="rightMm">Right edge.</param>
/// <param name="bottomMm">Lower edge.</param>
internal sealed class WordRoom(double leftMm, double topMm, double rightMm, double bottomMm)
{
    /// <summary>A line of small letters is so high with its air.</summary>
    public const double HighMm = 3;

    private const double LetterShare = 0.65;

    // A word that is cut off or lies over another one can't be read; one over a line can, with pains.
    private const double OutsideCost = 100;
    private const double LineCost = 0.6;

    // Of places that are alike the first is taken.
    private const double LaterCost = 0.001;
    private const double NothingCost = 1e-6;

    private readonly List<Box<PageSpace>> _taken = [];
    private readonly List<(Point<PageSpace> From, Point<PageSpace> To, Box<PageSpace> Around, string Owner)> _lines = [];

    /// <summary>How wide letters are with their air. From memory.</summary>
    public static double WideMm(string words, double letterMm = WireChains.SmallestMm) => 1 + (words.Length * letterMm * LetterShare);

    /// <summary>Where nothing else may stand, told by its middle.</summary>
    public void Take(double xMm, double yMm, double wideMm, double highMm) => _taken.Add(Box<PageSpace>.Around(new(xMm, yMm), wideMm, highMm));

    /// <summary>A line that only its owner's own word may lie on.</summary>
    public void Line(double x1Mm, double y1Mm, double x2Mm, double y2Mm, string owner = "") => _lines.Add((new(x1Mm, y1Mm), new(x2Mm, y2Mm), Box<PageSpace>.Between(new(x1Mm, y1Mm), new(x2Mm, y2Mm)), owner));

    /// <summary>The four lines of a box, told by its upper left corner.</summary>
    public void Frame(double xMm, double yMm, double wideMm, double highMm)
    {
        Line(xMm, yMm, xMm + wideMm, yMm);
        Line(xMm, yMm + highMm, xMm + wideMm, yMm + highMm);
        Line(xMm, yMm, xMm, yMm + highMm);
        Line(xMm + wideMm, yMm, xMm + wideMm, yMm + highMm);
    }

    /// <summary>The place of some that costs least, as a middle; it is taken from then on.</summary>
    /// <param name="words">What stands there.</param>
    /// <param name="places">Where it may stand, the best first.</param>
    /// <param name="owner">Whose lines it may lie on.</param>
    /// <param name="letterMm">Size of its letters.</param>
    public (double X, double Y) Place(string words, IEnumerable<(double X, double Y)> places, string owner = "", double letterMm = WireChains.SmallestMm)
    {
        var (wide, high) = (WideMm(words, letterMm), HighMm);
        var (best, least) = ((X: 0.0, Y: 0.0), double.PositiveInfinity);
        foreach (var (index, (x, y)) in places.Index())
        {
            // Later places can't be had for less than their being later.
            if (LaterCost * index >= least)
            {
                break;
            }

            var cost = Cost(x, y, wide, high, owner, least - (LaterCost * index)) + (LaterCost * index);
            if (cost < least)
            {
                (best, least) = ((x, y), cost);
            }
        }

        if (double.IsPositiveInfinity(least))
        {
            throw new ArgumentException("a word has no place to stand at", nameof(places));
        }

        Take(best.X, best.Y, wide, high);
        return best;
    }

    /// <summary>Whether a place covers nothing and no line.</summary>
    public bool IsFree(string words, (double X, double Y) place, double letterMm = WireChains.SmallestMm, double highMm = HighMm) => Cost(place.X, place.Y, WideMm(words, letterMm), highMm, string.Empty, NothingCost) < NothingCost;

    /// <summary>The first place where it covers nothing and no line; null where there is none.</summary>
    public (double X, double Y)? Free(string words, IEnumerable<(double X, double Y)> places, double letterMm = WireChains.SmallestMm)
    {
        var (wide, high) = (WideMm(words, letterMm), HighMm);
        foreach (var place in places)
        {
            if (Cost(place.X, place.Y, wide, high, string.Empty, NothingCost) < NothingCost)
            {
                Take(place.X, place.Y, wide, high);
                return place;
            }
        }

        return null;
    }

    /// <summary>Places round something: above, below, left, right, then slanting, then the same farther off.</summary>
    /// <param name="xMm">Its middle.</param>
    /// <param name="yMm">Its middle.</param>
    /// <param name="halfMm">Half its size.</param>
    /// <param name="words">What is to stand there.</param>
    /// <param name="letterMm">Size of its letters.</param>
    public static IEnumerable<(double X, double Y)> Round(double xMm, double yMm, double halfMm, string words, double letterMm = WireChains.SmallestMm) => Round(xMm, yMm, halfMm, halfMm, words, letterMm);

    /// <summary>The same round something that is not as high as it is wide.</summary>
    public static IEnumerable<(double X, double Y)> Round(double xMm, double yMm, double halfWideMm, double halfHighMm, string words, double letterMm = WireChains.SmallestMm)
    {
        foreach (var gap in new[] { 0, 1.5, 3, 5 })
        {
            var (across, up) = (halfWideMm + gap + (WideMm(words, letterMm) / 2), halfHighMm + gap + (HighMm / 2));
            foreach (var (x, y) in new[] { (0.0, -1.0), (0, 1), (-1, 0), (1, 0), (-0.8, -0.9), (0.8, -0.9), (-0.8, 0.9), (0.8, 0.9), (-0.5, -1), (0.5, -1), (-0.5, 1), (0.5, 1) })
            {
                yield return (xMm + (x * across), yMm + (y * up));
            }
        }
    }

    /// <summary>What a place costs; a sum that has come to what is not worth it is not added up to its end.</summary>
    private double Cost(double xMm, double yMm, double wideMm, double highMm, string owner, double mostCost)
    {
        // As y runs down here, a box's lower edge is the upper one of what is seen.
        var word = Box<PageSpace>.Around(new(xMm, yMm), wideMm, highMm);
        var cost = OutsideCost * (Math.Max(0, leftMm - word.LeftMm) + Math.Max(0, topMm - word.BottomMm) + Math.Max(0, word.RightMm - rightMm) + Math.Max(0, word.TopMm - bottomMm));
        foreach (var taken in _taken)
        {
            cost += word.SharedMm2(taken);
            if (cost >= mostCost)
            {
                return cost;
            }
        }

        foreach (var line in _lines)
        {
            if ((owner.Length > 0 && line.Owner == owner) || line.Around.LeftMm > word.RightMm || line.Around.RightMm < word.LeftMm || line.Around.BottomMm > word.TopMm || line.Around.TopMm < word.BottomMm)
            {
                continue;
            }

            cost += LineCost * word.InsideShare(line.From, line.To) * line.From.DistanceMm(line.To);
            if (cost >= mostCost)
            {
                return cost;
            }
        }

        return cost;
    }

    /// <summary>Places along a way, from its middle outwards; then those beside it.</summary>
    /// <param name="way">Its corners.</param>
    public static IEnumerable<(double X, double Y)> Along(ImmutableArray<(double X, double Y)> way)
    {
        var places = On(way).ToList();
        return places.Concat(from far in new[] { 3.4, 5, 6.6, 8.4 } from place in places.Take(5) from side in new[] { (0.0, far), (0, -far), (-far, 0), (far, 0), (far, far), (-far, far), (far, -far), (-far, -far) } select (place.X + side.Item1, place.Y + side.Item2));
    }

    private static IEnumerable<(double X, double Y)> On(ImmutableArray<(double X, double Y)> way)
    {
        var sides = way.Zip(way.Skip(1)).Select(side => (side.First, side.Second, Long: Math.Sqrt(((side.Second.X - side.First.X) * (side.Second.X - side.First.X)) + ((side.Second.Y - side.First.Y) * (side.Second.Y - side.First.Y))))).ToList();
        var whole = sides.Sum(side => side.Long);
        foreach (var share in new[] { 0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75, 0.2, 0.8, 0.15, 0.85, 0.1, 0.9 })
        {
            var left = share * whole;
            foreach (var side in sides)
            {
                if (left <= side.Long)
                {
                    var part = side.Long < 1e-9 ? 0 : left / side.Long;
                    yield return (side.First.X + (part * (side.Second.X - side.First.X)), side.First.Y + (part * (side.Second.Y - side.First.Y)));
                    break;
                }

                left -= side.Long;
            }
        }
    }
}
