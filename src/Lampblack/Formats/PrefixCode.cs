using System;
using System.Collections.Generic;

namespace Lampblack.Formats;

/// <summary>Prefix codes of limited length (Huffman's, RFC 1951 clause 3.2.2).</summary>
internal static class PrefixCode
{
    /// <summary>
    /// The best code lengths for how often each symbol occurs, none longer than <paramref name="limit"/>; 0 for symbols that do not occur.
    /// A lone symbol gets one bit.
    /// </summary>
    /// <remarks>Package-merge (Larmore and Hirschberg 1990): exact, where cutting the tree back afterwards would only be close.</remarks>
    public static byte[] Lengths(ReadOnlySpan<int> counts, int limit)
    {
        var used = new List<(int Count, int Symbol)>();
        for (var symbol = 0; symbol < counts.Length; symbol++)
        {
            if (counts[symbol] > 0)
            {
                used.Add((counts[symbol], symbol));
            }
        }

        used.Sort();
        var lengths = new byte[counts.Length];
        if (used.Count == 1)
        {
            lengths[used[0].Symbol] = 1;
        }
        else if (used.Count > 1)
        {
            var levels = Levels(used, limit);

            // From the top level down, the cheapest items are taken; each symbol among them costs one more bit, each package two items below.
            var take = (2 * used.Count) - 2;
            for (var level = limit - 1; level >= 0; level--)
            {
                var symbols = levels[level].AsSpan(0, take).Count(true);
                for (var index = 0; index < symbols; index++)
                {
                    lengths[used[index].Symbol]++;
                }

                take = 2 * (take - symbols);
            }
        }

        return lengths;
    }

    /// <summary>The codes that follow from the lengths, with their bits reversed, as they are sent from the lowest bit up.</summary>
    public static ushort[] Codes(ReadOnlySpan<byte> lengths)
    {
        Span<int> next = stackalloc int[17];
        foreach (var length in lengths)
        {
            next[length + 1] += length > 0 ? 1 : 0;
        }

        for (var length = 1; length < next.Length; length++)
        {
            next[length] = (next[length] + next[length - 1]) << 1;
        }

        var codes = new ushort[lengths.Length];
        for (var symbol = 0; symbol < lengths.Length; symbol++)
        {
            var code = lengths[symbol] > 0 ? next[lengths[symbol]]++ : 0;
            for (var bit = 0; bit < lengths[symbol]; bit++)
            {
                codes[symbol] = (ushort)((codes[symbol] << 1) | ((code >> bit) & 1));
            }
        }

        return codes;
    }

    /// <summary>For each level, which items in rising order of weight are symbols; the others are packages of two items of the level below.</summary>
    private static bool[][] Levels(List<(int Count, int Symbol)> used, int limit)
    {
        var levels = new bool[limit][];
        long[] below = [];
        for (var level = 0; level < limit; level++)
        {
            var packages = below.Length / 2;
            var weights = new long[used.Count + packages];
            levels[level] = new bool[weights.Length];
            for (int index = 0, symbol = 0, package = 0; index < weights.Length; index++)
            {
                var packageWeight = package < packages ? below[2 * package] + below[(2 * package) + 1] : long.MaxValue;
                if (symbol < used.Count && used[symbol].Count <= packageWeight)
                {
                    levels[level][index] = true;
                    weights[index] = used[symbol++].Count;
                }
                else
                {
                    weights[index] = packageWeight;
                    package++;
                }
            }

            below = weights;
        }

        return levels;
    }
}
