using System.Collections.Generic;

namespace Lampblack.RollCalls;

/// <summary>A way that current can take.</summary>
/// <param name="From">The node that it leaves.</param>
/// <param name="To">The node that it enters.</param>
/// <param name="IsBoth">Whether it can take the way back as well.</param>
internal readonly record struct Way(int From, int To, bool IsBoth);

/// <summary>All ways at one moment, by the nodes that they enter: thousands of panels are looked at in a second.</summary>
internal sealed class WayMap
{
    private readonly List<Way> ways;
    private readonly int[] first;
    private readonly int[] next;

    /// <summary>Sorts ways.</summary>
    public WayMap(List<Way> ways, int nodes)
    {
        this.ways = ways;
        first = new int[nodes];
        next = new int[2 * ways.Count];
        System.Array.Fill(first, -1);
        for (var way = 0; way < ways.Count; way++)
        {
            // Even entries are ways as they are, odd ones the way back.
            (next[2 * way], first[ways[way].To]) = (first[ways[way].To], 2 * way);
            if (ways[way].IsBoth)
            {
                (next[(2 * way) + 1], first[ways[way].From]) = (first[ways[way].From], (2 * way) + 1);
            }
        }
    }

    /// <summary>Nodes from which current finds its way to one of two.</summary>
    /// <param name="one">A node.</param>
    /// <param name="other">Another; -1 for none.</param>
    /// <param name="onlyBoth">Whether only ways count that go both ways.</param>
    public bool[] Reach(int one, int other, bool onlyBoth)
    {
        var reached = new bool[first.Length];
        Stack<int> open = new();
        reached[one] = true;
        open.Push(one);
        if (other >= 0 && !reached[other])
        {
            reached[other] = true;
            open.Push(other);
        }

        while (open.TryPop(out var node))
        {
            for (var entry = first[node]; entry >= 0; entry = next[entry])
            {
                var way = ways[entry / 2];
                var from = entry % 2 == 0 ? way.From : way.To;
                if (!reached[from] && (way.IsBoth || !onlyBoth))
                {
                    reached[from] = true;
                    open.Push(from);
                }
            }
        }

        return reached;
    }
}
