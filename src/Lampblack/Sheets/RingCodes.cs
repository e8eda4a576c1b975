using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Numerics;

namespace Lampblack.Sheets;

/// <summary>
/// Numbers for round marks: twelve cells around the middle, each bright or dark. Turned or seen from behind, no code becomes another one or itself,
/// and no single wrong cell makes one out of another; so a mark tells its number, how it is turned, and whether it is seen from behind.
/// </summary>
public static class RingCodes
{
    /// <summary>How many cells go around.</summary>
    public const int Cells = 12;

    private const int Mask = (1 << Cells) - 1;

    private static readonly ImmutableArray<int> Codes = [.. Choose()];

    /// <summary>How many numbers there are, from 1 on.</summary>
    public static int Count => Codes.Length;

    /// <summary>The cells of a number.</summary>
    /// <param name="number">From 1 to <see cref="Count"/>.</param>
    /// <returns>Bit k is the cell from k times 30 degrees on, counter-clockwise from the right in front view; set where it stands out of what is around it.</returns>
    public static int Of(int number) => Codes[number - 1];

    /// <summary>What a ring of cells says.</summary>
    /// <param name="cells">As they are seen, counter-clockwise from anywhere.</param>
    /// <returns>The number, by how many cells it is turned counter-clockwise, and whether it is seen from behind; null where the cells are no code.</returns>
    public static (int Number, int TurnCells, bool IsMirrored)? Read(int cells)
    {
        for (var index = 0; index < Codes.Length; index++)
        {
            for (var turn = 0; turn < Cells; turn++)
            {
                if (Turned(Codes[index], turn) == cells)
                {
                    return (index + 1, turn, false);
                }

                if (Turned(Mirrored(Codes[index]), turn) == cells)
                {
                    return (index + 1, turn, true);
                }
            }
        }

        return null;
    }

    private static IEnumerable<int> Choose()
    {
        var chosen = new List<int>();
        for (var code = 1; code < Mask; code++)
        {
            // Enough of both, so that neither a blank ring nor dust is a code, and one choice of all that are alike.
            if (BitOperations.PopCount((uint)code) is >= 4 and <= 8 && Alike(code).Min() == code && Alike(code).Skip(1).All(other => Distance(code, other) >= 2)
                && chosen.TrueForAll(known => Alike(known).All(other => Distance(code, other) >= 2)))
            {
                chosen.Add(code);
            }
        }

        return chosen;
    }

    /// <summary>The code, its turns, and those of its mirror image.</summary>
    private static IEnumerable<int> Alike(int code) =>
        Enumerable.Range(0, Cells).Select(turn => Turned(code, turn)).Concat(Enumerable.Range(0, Cells).Select(turn => Turned(Mirrored(code), turn)));

    private static int Distance(int first, int second) => BitOperations.PopCount((uint)(first ^ second));

    private static int Turned(int code, int cells) => ((code << cells) | (code >> (Cells - cells))) & Mask;

    /// <summary>Cell k, from k to k + 1 steps counter-clockwise, becomes the one from k to k + 1 steps clockwise.</summary>
    private static int Mirrored(int code)
    {
        var mirrored = 0;
        for (var cell = 0; cell < Cells; cell++)
        {
            mirrored |= ((code >> cell) & 1) << (Cells - 1 - cell);
        }

        return mirrored;
    }
}
