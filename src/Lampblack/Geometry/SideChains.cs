using System.Collections.Generic;

namespace Lampblack.Geometry;

/// <summary>Sides one after the other that nothing else touches but in the first and the last corner.</summary>
/// <param name="First">The first side.</param>
/// <param name="Count">How many sides; after a ring's last one its first follows.</param>
/// <param name="IsLoop">Whether nothing touches the whole ring.</param>
internal readonly record struct SideChain(int First, int Count, bool IsLoop);

/// <summary>Rings divided where they meet others or themselves.</summary>
internal sealed class SideChains
{
    private readonly List<GridSide> _sides;
    private readonly List<SideChain> _chains = [];
    private readonly Dictionary<int, (int First, int End)> _rings = [];

    public SideChains(List<GridSide> sides, HashSet<GridPoint> nodes)
    {
        _sides = sides;
        for (var first = 0; first < sides.Count;)
        {
            var end = first + 1;
            while (end < sides.Count && sides[end].Ring == sides[first].Ring)
            {
                end++;
            }

            _rings[sides[first].Ring] = (first, end);
            Divide(first, end, nodes);
            first = end;
        }
    }

    public IReadOnlyList<SideChain> Chains => _chains;

    /// <summary>A chain's side; they are counted on from the ring's end to its beginning.</summary>
    public GridSide Side(SideChain chain, int index)
    {
        var at = chain.First + index;
        if (at < _sides.Count && _sides[at].Ring == _sides[chain.First].Ring)
        {
            return _sides[at];
        }

        var (first, end) = _rings[_sides[chain.First].Ring];
        return _sides[at - (end - first)];
    }

    public GridSide First(SideChain chain) => _sides[chain.First];

    public GridSide Last(SideChain chain) => Side(chain, chain.Count - 1);

    private void Divide(int first, int end, HashSet<GridPoint> nodes)
    {
        var start = first;
        while (start < end && !nodes.Contains(_sides[start].Start))
        {
            start++;
        }

        if (start == end)
        {
            _chains.Add(new(first, end - first, IsLoop: true));
            return;
        }

        var count = end - first;
        var from = 0;
        for (var step = 1; step <= count; step++)
        {
            var at = start + step;
            if (step == count || nodes.Contains(_sides[at < end ? at : at - count].Start))
            {
                var begin = start + from;
                _chains.Add(new(begin < end ? begin : begin - count, step - from, IsLoop: false));
                from = step;
            }
        }
    }
}
