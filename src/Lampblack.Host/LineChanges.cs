using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Edits;

namespace Lampblack.Host;

/// <summary>What parts two states of a text file, line by line, so that the lines between what was changed are known to have stayed.</summary>
/// <remarks>E. W. Myers, An O(ND) Difference Algorithm and Its Variations, Algorithmica 1 (1986), the greedy algorithm.</remarks>
internal static class LineChanges
{
    /// <summary>Files that differ in more lines than this are said to differ from the first such line to the last.</summary>
    private const int MostDifferent = 400;

    /// <summary>The changes, in ascending order.</summary>
    internal static ImmutableArray<ByteChange> Between(ImmutableArray<byte> old, ImmutableArray<byte> now)
    {
        ImmutableArray<ByteChange> whole = ByteChanges.Between(old, now);
        string[] from = Lines(old);
        string[] to = Lines(now);
        if (whole.IsEmpty || Kept(from, to) is not { } kept)
        {
            return whole;
        }

        ImmutableArray<ByteChange>.Builder changes = ImmutableArray.CreateBuilder<ByteChange>();
        (int x, int y, int offset) = (0, 0, 0);
        foreach ((int keptX, int keptY) in kept.Append((from.Length, to.Length)))
        {
            ImmutableArray<byte> removed = Bytes(from[x..keptX]);
            ImmutableArray<byte> inserted = Bytes(to[y..keptY]);
            changes.AddRange(ByteChanges.Between(removed, inserted).Select(change => change with { Offset = change.Offset + offset }));
            offset += removed.Length + (keptX < from.Length ? from[keptX].Length : 0);
            (x, y) = (keptX + 1, keptY + 1);
        }

        return changes.ToImmutable();
    }

    /// <summary>The lines that both have, in order; null where too many differ.</summary>
    private static List<(int X, int Y)>? Kept(string[] from, string[] to)
    {
        int most = Math.Min(from.Length + to.Length, MostDifferent);
        List<int[]> trace = [];
        int[] furthest = new int[(2 * most) + 3];
        for (int different = 0; different <= most; different++)
        {
            trace.Add([.. furthest]);
            for (int diagonal = -different; diagonal <= different; diagonal += 2)
            {
                int x = Start(furthest, most, diagonal, different);
                while (x < from.Length && x - diagonal < to.Length && from[x] == to[x - diagonal])
                {
                    x++;
                }

                furthest[diagonal + most + 1] = x;
                if (x >= from.Length && x - diagonal >= to.Length)
                {
                    return Back(trace, most, from.Length, to.Length);
                }
            }
        }

        return null;
    }

    private static List<(int X, int Y)> Back(List<int[]> trace, int most, int x, int y)
    {
        List<(int X, int Y)> kept = [];
        for (int different = trace.Count - 1; different >= 0; different--)
        {
            int[] furthest = trace[different];
            int start = Start(furthest, most, x - y, different);
            while (x > start)
            {
                kept.Add((--x, --y));
            }

            if (different > 0)
            {
                int diagonal = x - y;
                bool isDown = IsDown(furthest, most, diagonal, different);
                (x, y) = isDown ? (x, y - 1) : (x - 1, y);
            }
        }

        kept.Reverse();
        return kept;
    }

    private static bool IsDown(int[] furthest, int most, int diagonal, int different) =>
        diagonal == -different || (diagonal != different && furthest[diagonal + most] < furthest[diagonal + most + 2]);

    private static int Start(int[] furthest, int most, int diagonal, int different) =>
        different == 0 ? 0 : IsDown(furthest, most, diagonal, different) ? furthest[diagonal + most + 2] : furthest[diagonal + most] + 1;

    /// <summary>The lines with their breaks, a byte to a letter.</summary>
    private static string[] Lines(ImmutableArray<byte> bytes)
    {
        List<string> lines = [];
        ReadOnlySpan<byte> rest = bytes.AsSpan();
        while (!rest.IsEmpty)
        {
            int end = rest.IndexOf((byte)'\n') is >= 0 and var at ? at + 1 : rest.Length;
            lines.Add(Encoding.Latin1.GetString(rest[..end]));
            rest = rest[end..];
        }

        return [.. lines];
    }

    private static ImmutableArray<byte> Bytes(IEnumerable<string> lines) => [.. Encoding.Latin1.GetBytes(string.Concat(lines))];
}
