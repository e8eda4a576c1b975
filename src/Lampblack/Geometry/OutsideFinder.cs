using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Geometry;

/// <summary>Tells the turns around a place by looking straight up from it; sides are kept by columns, so that few are looked at.</summary>
internal sealed class OutsideFinder
{
    private readonly (GridPoint From, GridPoint To, int Turns)[] _sides;
    private readonly List<int>[] _columns;
    private readonly double _leftX;
    private readonly double _columnWidth;

    /// <summary>Sides with their turns, each from its left end.</summary>
    public OutsideFinder((GridPoint From, GridPoint To, int Turns)[] sides)
    {
        _sides = sides;
        _leftX = sides.Length == 0 ? 0 : sides.Min(side => side.From.X);
        var rightX = sides.Length == 0 ? 0 : sides.Max(side => side.To.X);
        var count = (int)Math.Clamp(Math.Sqrt(sides.Length) * 4, 1, 4096);
        _columnWidth = Math.Max(1, (rightX - _leftX) / count);
        _columns = [.. Enumerable.Range(0, count + 2).Select(_ => new List<int>())];
        for (var index = 0; index < sides.Length; index++)
        {
            for (var column = Column(sides[index].From.X); column <= Column(sides[index].To.X); column++)
            {
                _columns[column].Add(index);
            }
        }
    }

    /// <summary>The turns around the places just above a corner that no side passes through the inside of.</summary>
    public int WindingAbove(GridPoint corner)
    {
        var winding = 0;
        foreach (var index in _columns[Column(corner.X)])
        {
            var (from, to, turns) = _sides[index];

            // Its left end belongs to a side, its right end not: so where two meet only one counts.
            if (from.X <= corner.X && corner.X < to.X
                && ((to.X - from.X) * (corner.Y - from.Y)) - ((to.Y - from.Y) * (corner.X - from.X)) < 0)
            {
                // Looking from below a side that runs to the right, its turns are still to come.
                winding -= turns;
            }
        }

        return winding;
    }

    private int Column(long x) => (int)((x - _leftX) / _columnWidth);
}
