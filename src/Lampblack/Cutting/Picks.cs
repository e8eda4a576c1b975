using System;
using System.Linq;

namespace Lampblack.Cutting;

/// <summary>Every choice of pieces as one number, each kind a digit: choice 0 is none, and a choice within another has a lower number.</summary>
internal sealed class Picks
{
    private readonly int[] _counts;
    private readonly int[] _weights;

    private Picks(int[] counts, int[] weights, int count) => (_counts, _weights, Count) = (counts, weights, count);

    /// <summary>How many choices there are.</summary>
    public int Count { get; }

    /// <summary>The number of the choice of all.</summary>
    public int All => Count - 1;

    /// <summary>The choices among so many of each kind; null where there are more than <paramref name="most"/>.</summary>
    public static Picks? Of(int[] counts, int most)
    {
        var weights = new int[counts.Length];
        long all = 1;
        for (var kind = 0; kind < counts.Length; kind++)
        {
            weights[kind] = (int)all;
            all *= counts[kind] + 1L;
            if (all > most)
            {
                return null;
            }
        }

        return new(counts, weights, (int)all);
    }

    public int One(int kind) => _weights[kind];

    public int CountOf(int pick, int kind) => pick / _weights[kind] % (_counts[kind] + 1);

    public int[] CountsOf(int pick) => [.. Enumerable.Range(0, _counts.Length).Select(kind => CountOf(pick, kind))];

    /// <summary>Calls with every choice within another, itself and none left out, in rising order.</summary>
    public void Within(int pick, Action<int> part)
    {
        var digits = CountsOf(pick);
        var current = new int[digits.Length];
        var number = 0;
        while (true)
        {
            var kind = 0;
            while (kind < digits.Length && current[kind] == digits[kind])
            {
                number -= current[kind] * _weights[kind];
                current[kind++] = 0;
            }

            if (kind == digits.Length)
            {
                return;
            }

            current[kind]++;
            number += _weights[kind];
            if (number == pick)
            {
                return;
            }

            part(number);
        }
    }
}
