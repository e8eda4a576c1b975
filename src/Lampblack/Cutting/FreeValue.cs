using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Cutting;

/// <summary>
/// The greatest value of every rectangle where each piece may be cut as often as one likes (Gilmore and Gomory, Operations Research 14, 1966): the better of its best piece and its
/// best cut. Exact where nobody counts; a bound where somebody does.
/// </summary>
internal sealed class FreeValue
{
    private readonly Positions _across;
    private readonly Positions _up;
    private readonly long[] _values;
    private readonly List<Block> _pieces;

    private FreeValue(Positions across, Positions up, List<Block> pieces) =>
        (_across, _up, _values, _pieces) = (across, up, new long[across.Lengths.Length * up.Lengths.Length], pieces);

    /// <summary>The value of the rectangle of so many positions across and up.</summary>
    public long this[int across, int up] => _values[(across * _up.Lengths.Length) + up];

    /// <summary>How many steps it takes.</summary>
    public static long StepsOf(Positions across, Positions up)
    {
        long wide = across.Lengths.Length, high = up.Lengths.Length;
        return wide * high * (wide + high) / 2;
    }

    /// <summary>All values; null where the work was ended before.</summary>
    public static FreeValue? Of(Positions across, Positions up, IEnumerable<Block> pieces, Work work)
    {
        var values = new FreeValue(across, up, [.. pieces]);
        return values.Fill(work) ? values : null;
    }

    /// <summary>The best plan for a rectangle; null for none.</summary>
    public Block? Best(int width, int height)
    {
        var (i, j) = (_across.AtOrBelow(width), _up.AtOrBelow(height));
        var value = this[i, j];
        if (value == 0)
        {
            return null;
        }

        var (w, h) = (_across.Lengths[i], _up.Lengths[j]);
        if (_pieces.Find(piece => piece.Value == value && piece.Wide.Length <= w && piece.High.Length <= h) is { } single)
        {
            return single;
        }

        for (var left = 1; _across.Lengths[left] <= w / 2; left++)
        {
            if (this[left, j] + this[_across.AtOrBelow(w - _across.Lengths[left]), j] == value)
            {
                return Joined(Best(_across.Lengths[left], h), Best(w - _across.Lengths[left], h), true);
            }
        }

        for (var low = 1; _up.Lengths[low] <= h / 2; low++)
        {
            if (this[i, low] + this[i, _up.AtOrBelow(h - _up.Lengths[low])] == value)
            {
                return Joined(Best(w, _up.Lengths[low]), Best(w, h - _up.Lengths[low]), false);
            }
        }

        // Nothing is cut at the last position, the plate's own edge: the value is that of the position before.
        return i > 0 && this[i - 1, j] == value ? Best(_across.Lengths[i - 1], h) : Best(w, _up.Lengths[j - 1]);
    }

    private static Block? Joined(Block? first, Block? second, bool isBeside) =>
        first is null ? second : second is null ? first : isBeside ? Block.Beside(first, second, 0) : Block.Above(first, second, 0);

    private bool Fill(Work work)
    {
        var (wide, high) = (_across.Lengths, _up.Lengths);
        for (var i = 1; i < wide.Length; i++)
        {
            var across = Halves(_across, i);
            if (!work.Spend((long)high.Length * (across.Length + (high.Length / 2)) / 16))
            {
                return false;
            }

            for (var j = 1; j < high.Length; j++)
            {
                _values[(i * high.Length) + j] = Math.Max(BestPiece(wide[i], high[j]), BestCut(i, j, across));
            }
        }

        return true;
    }

    private long BestCut(int i, int j, (int First, int Second)[] across)
    {
        var best = Math.Max(this[i - 1, j], this[i, j - 1]);
        foreach (var (first, second) in across)
        {
            best = Math.Max(best, this[first, j] + this[second, j]);
        }

        var row = _values.AsSpan(i * _up.Lengths.Length, _up.Lengths.Length);
        var height = _up.Lengths[j];
        for (var low = 1; low < _up.Lengths.Length && _up.Lengths[low] <= height / 2; low++)
        {
            best = Math.Max(best, row[low] + row[_up.AtOrBelow(height - _up.Lengths[low])]);
        }

        return best;
    }

    private static (int First, int Second)[] Halves(Positions positions, int of)
    {
        var length = positions.Lengths[of];
        return [.. Enumerable.Range(1, of).TakeWhile(first => positions.Lengths[first] <= length / 2).Select(first => (first, positions.AtOrBelow(length - positions.Lengths[first])))];
    }

    private long BestPiece(int width, int height)
    {
        long best = 0;
        foreach (var piece in _pieces)
        {
            if (piece.Wide.Length <= width && piece.High.Length <= height)
            {
                best = Math.Max(best, piece.Value);
            }
        }

        return best;
    }
}
