using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Geometry;

/// <summary>Sides that meet only in their ends, each with the turns it adds; tells on which side of each it is inside, and links borders.</summary>
internal sealed class WindingGraph
{
    // Half-sides come in pairs: 2i runs from a side's left end, 2i + 1 back.
    private readonly List<GridPoint> _starts = [];
    private readonly List<int> _turns = [];
    private readonly Dictionary<GridPoint, List<int>> _around = [];
    private readonly int?[] _windingLeft;
    private readonly FillRule _rule;

    public WindingGraph(Dictionary<(GridPoint From, GridPoint To), int> sides, FillRule rule)
    {
        _rule = rule;
        foreach (var ((from, to), turns) in sides)
        {
            Add(from, turns);
            Add(to, -turns);
        }

        foreach (var halves in _around.Values)
        {
            halves.Sort(CompareAngles);
        }

        _windingLeft = new int?[_starts.Count];
    }

    /// <summary>The borders, inside on their left, split where they touch themselves.</summary>
    public List<List<GridPoint>> Rings()
    {
        Wind();
        var used = new bool[_starts.Count];
        var rings = new List<List<GridPoint>>();
        for (var half = 0; half < _starts.Count; half++)
        {
            if (!used[half] && IsBorder(half))
            {
                Follow(half, used, rings);
            }
        }

        return rings;
    }

    private void Add(GridPoint start, int turns)
    {
        if (!_around.TryGetValue(start, out var halves))
        {
            _around[start] = halves = [];
        }

        halves.Add(_starts.Count);
        _starts.Add(start);
        _turns.Add(turns);
    }

    private GridPoint End(int half) => _starts[half ^ 1];

    private bool IsInside(int winding) => _rule == FillRule.NonZero ? winding != 0 : winding % 2 != 0;

    private bool IsBorder(int half) => IsInside(_windingLeft[half]!.Value) && !IsInside(_windingLeft[half ^ 1]!.Value);

    /// <summary>From a place whose winding is known it is known all around each corner, and so along every side that hangs together.</summary>
    private void Wind()
    {
        var outside = new OutsideFinder([.. Enumerable.Range(0, _starts.Count / 2).Select(index => (_starts[2 * index], _starts[(2 * index) + 1], _turns[2 * index]))]);
        var seen = new HashSet<GridPoint>();
        foreach (var corner in _around.Keys.OrderByDescending(point => point.Y).ThenByDescending(point => point.X))
        {
            // The first corner met of all that hang together is their highest, so nothing of theirs lies above it.
            if (!seen.Add(corner))
            {
                continue;
            }

            // All sides leave it downwards or straight to the left, so upwards lies left of the last one before 180 degrees or the first after 0.
            var halves = _around[corner];
            var first = halves.FindIndex(half => !IsUpper(Way(half)));
            first = first < 0 ? 0 : first;
            _windingLeft[halves[(first + halves.Count - 1) % halves.Count]] = outside.WindingAbove(corner);
            var waiting = new Stack<(GridPoint Corner, int Known)>([(corner, halves[(first + halves.Count - 1) % halves.Count])]);
            while (waiting.TryPop(out var next))
            {
                SpreadAround(next.Corner, next.Known);
                foreach (var half in _around[next.Corner])
                {
                    var end = End(half);
                    if (seen.Add(end))
                    {
                        waiting.Push((end, half ^ 1));
                    }
                }
            }
        }
    }

    /// <summary>Counter-clockwise from a half-side whose left is known: crossing the next one from its right to its left adds its turns.</summary>
    private void SpreadAround(GridPoint corner, int known)
    {
        var halves = _around[corner];
        var at = halves.IndexOf(known);
        var winding = _windingLeft[known]!.Value;
        _windingLeft[known ^ 1] = winding - _turns[known];
        for (var step = 1; step < halves.Count; step++)
        {
            var half = halves[(at + step) % halves.Count];
            _windingLeft[half ^ 1] = winding;
            winding += _turns[half];
            _windingLeft[half] = winding;
        }
    }

    private void Follow(int start, bool[] used, List<List<GridPoint>> rings)
    {
        var way = new List<GridPoint>();
        var places = new Dictionary<GridPoint, int>();
        for (var half = start; !used[half]; half = Next(half))
        {
            used[half] = true;
            var corner = _starts[half];
            if (places.TryGetValue(corner, out var before))
            {
                Close(way, places, before, rings);
            }

            places[corner] = way.Count;
            way.Add(corner);
        }

        Close(way, places, 0, rings);
    }

    private static void Close(List<GridPoint> way, Dictionary<GridPoint, int> places, int from, List<List<GridPoint>> rings)
    {
        var ring = way.GetRange(from, way.Count - from);
        way.RemoveRange(from, ring.Count);
        foreach (var corner in ring)
        {
            places.Remove(corner);
        }

        ring.Add(ring[0]);
        rings.Add(ring);
    }

    /// <summary>The border that goes on with the same inside: the first one clockwise from where we came.</summary>
    private int Next(int half)
    {
        var halves = _around[End(half)];
        var at = halves.IndexOf(half ^ 1);
        for (var step = 1; step <= halves.Count; step++)
        {
            var next = halves[(at - step + (2 * halves.Count)) % halves.Count];
            if (IsBorder(next))
            {
                return next;
            }
        }

        throw new InvalidOperationException("a border ended in the open");
    }

    private (long X, long Y) Way(int half) => (End(half).X - _starts[half].X, End(half).Y - _starts[half].Y);

    private int CompareAngles(int first, int second)
    {
        var (a, b) = (Way(first), Way(second));
        var (upperA, upperB) = (IsUpper(a), IsUpper(b));
        return upperA != upperB ? (upperA ? -1 : 1) : ((b.X * a.Y) - (b.Y * a.X)).CompareTo(0);
    }

    // Angles from 0 up to, not with, 180 degrees come first.
    private static bool IsUpper((long X, long Y) way) => way.Y > 0 || (way.Y == 0 && way.X > 0);
}
