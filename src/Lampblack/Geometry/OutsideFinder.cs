using System;
using System.Collections.Generic;

namespace Lampblack.Geometry;

/// <summary>Tells the turns beside a side by looking straight up from its middle; sides are kept by columns, so that few are looked at.</summary>
internal sealed class OutsideFinder
{
    private readonly List<GridSide> _sides;
    private readonly WindingRule _rule;

    // The sides of a column stand one after the other, up to where those of the next begin.
    private readonly int[] _firstOfColumn;
    private readonly int[] _inColumns;
    private readonly long _leftX;
    private readonly double _columnWidth;

    public OutsideFinder(List<GridSide> sides, WindingRule rule)
    {
        (_sides, _rule) = (sides, rule);
        (_leftX, var rightX) = (long.MaxValue, long.MinValue);
        foreach (var side in sides)
        {
            (_leftX, rightX) = (Math.Min(_leftX, side.Start.X), Math.Max(rightX, side.Start.X));
        }

        var count = (int)Math.Clamp(Math.Sqrt(sides.Count) * 4, 1, 4096);
        _columnWidth = Math.Max(1, (double)(rightX - _leftX) / count);
        _firstOfColumn = new int[count + 3];
        foreach (var side in sides)
        {
            var (first, last) = Columns(side);
            for (var column = first; column <= last; column++)
            {
                _firstOfColumn[column + 1]++;
            }
        }

        for (var column = 1; column < _firstOfColumn.Length; column++)
        {
            _firstOfColumn[column] += _firstOfColumn[column - 1];
        }

        _inColumns = new int[_firstOfColumn[^1]];
        var filled = (int[])_firstOfColumn.Clone();
        for (var index = 0; index < sides.Count; index++)
        {
            var (first, last) = Columns(sides[index]);
            for (var column = first; column <= last; column++)
            {
                _inColumns[filled[column]++] = index;
            }
        }
    }

    /// <summary>The turns around the places just above the middle of a side that is not upright.</summary>
    public long WindingAbove(GridSide below)
    {
        // The middle in half steps, as it may lie between two.
        var (x, y) = (below.Start.X + below.End.X, below.Start.Y + below.End.Y);
        var column = Column(x / 2);
        var winding = 0L;
        for (var at = _firstOfColumn[column]; at < _firstOfColumn[column + 1]; at++)
        {
            var side = _sides[_inColumns[at]];
            var (startX, endX) = (2 * side.Start.X, 2 * side.End.X);

            // Its left end belongs to a side, its right end not: so where two meet only one counts.
            // Looking from below, the inside of a side that runs to the left lies beyond it.
            if ((startX <= x) != (endX <= x))
            {
                var left = ((side.End.X - side.Start.X) * (y - (2 * side.Start.Y))) - ((side.End.Y - side.Start.Y) * (x - startX));
                winding += _rule.Turns(side.Ring) * (startX <= x ? (left < 0 ? -1 : 0) : (left > 0 ? 1 : 0));
            }
        }

        return winding;
    }

    private (int First, int Last) Columns(GridSide side) => side.Start.X < side.End.X
        ? (Column(side.Start.X), Column(side.End.X))
        : (Column(side.End.X), Column(side.Start.X));

    private int Column(long x) => (int)((x - _leftX) / _columnWidth);
}
