using System;
using System.Collections.Generic;

namespace Lampblack.Cutting;

/// <summary>
/// Where cuts can stand: sums of lengths of pieces (Herz, IBM Journal 16, 1972; Christofides and Whitlock, Operations Research 25, 1977). Any plan can be pushed to the lower left
/// until each of its cuts stands at one of them.
/// </summary>
internal sealed class Positions
{
    private readonly int[] _atOrBelow;

    private Positions(int[] lengths, int[] atOrBelow) => (Lengths, _atOrBelow) = (lengths, atOrBelow);

    /// <summary>All of them from 0 up, and the plate's own length last.</summary>
    public int[] Lengths { get; }

    /// <summary>The positions of a plate.</summary>
    /// <param name="lengths">The lengths of the pieces, and how many times each can be used.</param>
    /// <param name="room">The plate's length.</param>
    public static Positions Of(IEnumerable<(int Length, int Count)> lengths, int room)
    {
        var isReached = new bool[room + 1];
        isReached[0] = true;
        foreach (var (length, count) in lengths)
        {
            if (length > room)
            {
                continue;
            }

            // How many of this length it took to come here; at most its count.
            var used = new int[room + 1];
            for (var at = length; at <= room; at++)
            {
                if (!isReached[at] && isReached[at - length] && used[at - length] < count)
                {
                    isReached[at] = true;
                    used[at] = used[at - length] + 1;
                }
            }
        }

        isReached[room] = true;
        var found = new List<int>();
        var atOrBelow = new int[room + 1];
        for (var at = 0; at <= room; at++)
        {
            if (isReached[at])
            {
                found.Add(at);
            }

            atOrBelow[at] = found.Count - 1;
        }

        return new([.. found], atOrBelow);
    }

    /// <summary>The number of the last position at a length or below it.</summary>
    public int AtOrBelow(int length) => _atOrBelow[Math.Min(length, _atOrBelow.Length - 1)];
}
