using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Geometry;

/// <summary>Chains of sides that meet only in their ends; tells on which side of each it is inside, and links borders.</summary>
internal sealed class WindingGraph
{
    private readonly SideChains _chains;
    private readonly WindingRule _rule;
    private readonly Lazy<OutsideFinder> _outside;

    // Half-chains come in pairs: 2i runs as its chain, 2i + 1 back.
    private readonly List<(SideChain Chain, long Turns)> _pairs = [];

    // Of each half-chain the node where it starts; around each node the half-chains by angle.
    private readonly List<int> _nodes = [];
    private readonly List<List<int>> _around = [];

    // Of each node a corner of the input that stands there, or -1.
    private readonly List<int> _corners = [];
    private readonly long[] _windingLeft;

    // Of each half-chain its place around its node.
    private readonly int[] _places;

    public WindingGraph(List<GridSide> sides, HashSet<GridPoint> nodes, WindingRule rule)
    {
        (_chains, _rule) = (new(sides, nodes), rule);
        _outside = new(() => new(sides, rule));
        var known = new Dictionary<GridPoint, int>();
        foreach (var chain in _chains.Chains.Where(chain => !chain.IsLoop))
        {
            var first = _chains.First(chain);
            if (known.TryAdd(first.Start, _around.Count))
            {
                _around.Add([]);
                _corners.Add(-1);
            }

            _corners[known[first.Start]] = Math.Max(_corners[known[first.Start]], first.Corner);
        }

        foreach (var (chain, turns) in Merged())
        {
            Put(2 * _pairs.Count, known[_chains.First(chain).Start]);
            Put((2 * _pairs.Count) + 1, known[_chains.Last(chain).End]);
            _pairs.Add((chain, turns));
        }

        (_windingLeft, _places) = (new long[2 * _pairs.Count], new int[2 * _pairs.Count]);
        foreach (var halves in _around)
        {
            halves.Sort(CompareAngles);
            for (var place = 0; place < halves.Count; place++)
            {
                _places[halves[place]] = place;
            }
        }
    }

    /// <summary>The borders, inside on their left, split where they touch themselves: of each the corners, and of each corner the input's number or -1.</summary>
    public List<List<(GridPoint Place, int Corner)>> Rings()
    {
        Wind();
        var rings = new List<List<(GridPoint, int)>>();
        foreach (var loop in _chains.Chains.Where(chain => chain.IsLoop))
        {
            AddLoop(loop, rings);
        }

        var used = new bool[_windingLeft.Length];
        for (var half = 0; half < used.Length; half++)
        {
            if (!used[half] && IsBorder(half))
            {
                Follow(half, used, rings);
            }
        }

        return rings;
    }

    /// <summary>Chains that lie on each other become one, whose turns are those of all; one that is passed as often one way as the other parts nothing.</summary>
    private IEnumerable<(SideChain Chain, long Turns)> Merged()
    {
        var single = new Dictionary<(GridPoint, GridPoint), (SideChain Chain, long Turns)>();
        foreach (var chain in _chains.Chains.Where(chain => !chain.IsLoop))
        {
            var (first, end) = (_chains.First(chain), _chains.Last(chain).End);
            var turns = _rule.Turns(first.Ring);
            if (chain.Count > 1)
            {
                yield return (chain, turns);
                continue;
            }

            if (single.TryGetValue((end, first.Start), out var back))
            {
                single[(end, first.Start)] = back with { Turns = back.Turns - turns };
            }
            else
            {
                single[(first.Start, end)] = (chain, single.TryGetValue((first.Start, end), out var like) ? like.Turns + turns : turns);
            }
        }

        foreach (var side in single.Values)
        {
            if (side.Turns != 0)
            {
                yield return side;
            }
        }
    }

    private void Put(int half, int node)
    {
        _nodes.Add(node);
        _around[node].Add(half);
    }

    private long Turns(int half) => (half & 1) == 0 ? _pairs[half >> 1].Turns : -_pairs[half >> 1].Turns;

    private bool IsBorder(int half) => _rule.IsInside(_windingLeft[half]) && !_rule.IsInside(_windingLeft[half ^ 1]);

    /// <summary>The turns on the left of a chain that adds some.</summary>
    private long? LeftOf(SideChain chain, long turns)
    {
        for (var index = 0; index < chain.Count; index++)
        {
            var side = _chains.Side(chain, index);
            if (side.Start.X != side.End.X)
            {
                var above = _outside.Value.WindingAbove(side);
                return side.Start.X < side.End.X ? above : above + turns;
            }
        }

        return null;
    }

    private void AddLoop(SideChain loop, List<List<(GridPoint, int)>> rings)
    {
        var turns = _rule.Turns(_chains.First(loop).Ring);
        if (LeftOf(loop, turns) is not { } left || _rule.IsInside(left) == _rule.IsInside(left - turns))
        {
            return;
        }

        var ring = new List<(GridPoint, int)>(loop.Count + 1);
        for (var index = 0; index <= loop.Count; index++)
        {
            var side = _chains.Side(loop, index % loop.Count);
            ring.Add((side.Start, side.Corner));
        }

        if (!_rule.IsInside(left))
        {
            ring.Reverse();
        }

        rings.Add(ring);
    }

    /// <summary>The corners of a half-chain, but the last one.</summary>
    private void Add(int half, List<(GridPoint Place, int Corner)> ring)
    {
        var chain = _pairs[half >> 1].Chain;
        var isForward = (half & 1) == 0;
        ring.Add((isForward ? _chains.First(chain).Start : _chains.Last(chain).End, _corners[_nodes[half]]));
        for (var index = 1; index < chain.Count; index++)
        {
            var side = _chains.Side(chain, isForward ? index : chain.Count - index);
            ring.Add((side.Start, side.Corner));
        }
    }

    /// <summary>Where the winding on one side of a chain is known it is known all around its ends, and so along every chain that hangs together.</summary>
    private void Wind()
    {
        var seen = new bool[_around.Count];
        var waiting = new Stack<int>();
        for (var pair = 0; pair < _pairs.Count; pair++)
        {
            if (seen[_nodes[2 * pair]] || LeftOf(_pairs[pair].Chain, _pairs[pair].Turns) is not { } left)
            {
                continue;
            }

            seen[_nodes[2 * pair]] = true;
            _windingLeft[2 * pair] = left;
            waiting.Push(2 * pair);
            while (waiting.TryPop(out var known))
            {
                SpreadAround(known);
                foreach (var half in _around[_nodes[known]])
                {
                    if (!seen[_nodes[half ^ 1]])
                    {
                        seen[_nodes[half ^ 1]] = true;
                        waiting.Push(half ^ 1);
                    }
                }
            }
        }
    }

    /// <summary>Counter-clockwise from a half-chain whose left is known: crossing the next one from its right to its left adds its turns.</summary>
    private void SpreadAround(int known)
    {
        var halves = _around[_nodes[known]];
        var at = _places[known];
        var winding = _windingLeft[known];
        _windingLeft[known ^ 1] = winding - Turns(known);
        for (var step = 1; step < halves.Count; step++)
        {
            var half = halves[(at + step) % halves.Count];
            _windingLeft[half ^ 1] = winding;
            winding += Turns(half);
            _windingLeft[half] = winding;
        }
    }

    private void Follow(int start, bool[] used, List<List<(GridPoint, int)>> rings)
    {
        var way = new List<int>();
        var places = new Dictionary<int, int>();
        for (var half = start; !used[half]; half = Next(half))
        {
            used[half] = true;
            if (places.TryGetValue(_nodes[half], out var before))
            {
                Close(before);
            }

            places[_nodes[half]] = way.Count;
            way.Add(half);
        }

        Close(0);

        void Close(int from)
        {
            var ring = new List<(GridPoint, int)>();
            foreach (var half in way[from..])
            {
                places.Remove(_nodes[half]);
                Add(half, ring);
            }

            way.RemoveRange(from, way.Count - from);
            ring.Add(ring[0]);
            rings.Add(ring);
        }
    }

    /// <summary>The border that goes on with the same inside: the first one clockwise from where we came.</summary>
    private int Next(int half)
    {
        var halves = _around[_nodes[half ^ 1]];
        var at = _places[half ^ 1];
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

    private (long X, long Y) Way(int half)
    {
        var chain = _pairs[half >> 1].Chain;
        var side = (half & 1) == 0 ? _chains.First(chain) : _chains.Last(chain);
        return (half & 1) == 0 ? (side.End.X - side.Start.X, side.End.Y - side.Start.Y) : (side.Start.X - side.End.X, side.Start.Y - side.End.Y);
    }

    private int CompareAngles(int first, int second)
    {
        var (a, b) = (Way(first), Way(second));
        var (upperA, upperB) = (IsUpper(a), IsUpper(b));
        return upperA != upperB ? (upperA ? -1 : 1) : ((b.X * a.Y) - (b.Y * a.X)).CompareTo(0);
    }

    // Angles from 0 up to, not with, 180 degrees come first.
    private static bool IsUpper((long X, long Y) way) => way.Y > 0 || (way.Y == 0 && way.X > 0);
}
