using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Cutting;

/// <summary>
/// Good plans fast: pieces one after the other into the free rectangle that suits best, which is cut in two for what is left; again and again in other orders. The orders come from
/// a generator of its own, always the same.
/// </summary>
internal sealed class Spread
{
    private readonly Model _model;
    private readonly Work _work;
    private readonly List<(int Kind, double Size)> _pieces;
    private ulong _state = 0x9E3779B97F4A7C15;

    private Spread(Model model, Work work)
    {
        (_model, _work) = (model, work);
        _pieces = [.. Enumerable.Range(0, model.Kinds.Length).SelectMany(kind => Enumerable.Repeat((kind, 0.0), model.Kinds[kind].Count))];
    }

    /// <summary>The best of so many tries.</summary>
    public static Covered Best(Model model, int tries, Work work)
    {
        var spread = new Spread(model, work);
        Covered best = new([]);
        for (var attempt = 0; attempt < tries && !work.IsOver; attempt++)
        {
            if (spread.Try(attempt) is var found && found.IsBetterThan(best, model))
            {
                best = found;
            }
        }

        return best;
    }

    private Covered Try(int attempt)
    {
        var plates = new List<(Plate Plate, Slot Slot)>();
        var used = new int[_model.Plates.Length];
        var free = new List<Slot>();
        foreach (var kind in Order(attempt))
        {
            if (_work.IsOver && attempt > 0)
            {
                break;
            }

            _work.Spend(1 + free.Count);
            var place = Choose(free, kind, attempt);
            if (place is null && Open(kind, attempt, plates.Count, used) is { } opened)
            {
                plates.Add(opened);
                free.Add(opened.Slot);
                place = Choose(free, kind, attempt);
            }

            if (place is { } at)
            {
                free.Remove(at.Slot);
                free.AddRange(at.Slot.Fill(at.Piece, IsUprightFirst(at.Slot, at.Piece, attempt)));
            }
        }

        return new(PlateByPlate.Cheaper(_model, [.. plates.Select(plate => (plate.Plate, plate.Slot.ToBlock(_model.Narrowest)!))], used));
    }

    private List<int> Order(int attempt)
    {
        for (var piece = 0; piece < _pieces.Count; piece++)
        {
            var kind = _model.Kinds[_pieces[piece].Kind];
            double size = (attempt % 4) switch
            {
                0 => kind.Area,
                1 => Math.Max(kind.Width, kind.Height),
                2 => kind.Width + kind.Height,
                _ => Math.Min(kind.Width, kind.Height),
            };
            _pieces[piece] = (_pieces[piece].Kind, attempt < 16 ? size : size * (0.6 + (0.8 * Share())));
        }

        return [.. _pieces.OrderByDescending(piece => piece.Size).ThenBy(piece => piece.Kind).Select(piece => piece.Kind)];
    }

    private (Slot Slot, Block Piece)? Choose(List<Slot> free, int kind, int attempt)
    {
        (Slot, Block)? best = null;
        var least = long.MaxValue;
        foreach (var piece in _model.PiecesOf(kind))
        {
            foreach (var slot in free)
            {
                if (!piece.Fits(slot.Width, slot.Height, slot.HasGrain, _model.Narrowest))
                {
                    continue;
                }

                var (right, top) = (slot.Width - piece.Wide.Length, slot.Height - piece.High.Length);
                var rest = (attempt / 4 % 3) switch
                {
                    0 => ((long)slot.Width * slot.Height) - ((long)piece.Wide.Length * piece.High.Length),
                    1 => Math.Min(right, top),
                    _ => Math.Max(right, top),
                };
                if (rest < least)
                {
                    (best, least) = ((slot, piece), rest);
                }
            }
        }

        return best;
    }

    private (Plate Plate, Slot Slot)? Open(int kind, int attempt, int count, int[] used)
    {
        if (count >= _model.MostPlates)
        {
            return null;
        }

        var types = _model.Plates.Length;
        var first = attempt < 16 ? attempt / 4 % types : (int)(Share() * types);
        for (var next = 0; next < types; next++)
        {
            var index = (first + next) % types;
            var plate = _model.Plates[index];
            if (used[index] < plate.Count && _model.PiecesOf(kind).Any(piece => piece.Fits(plate.Width, plate.Height, plate.HasGrain, _model.Narrowest)))
            {
                used[index]++;
                return (plate, new(plate.Width, plate.Height, plate.HasGrain));
            }
        }

        return null;
    }

    private bool IsUprightFirst(Slot slot, Block piece, int attempt)
    {
        var (right, top) = (slot.Width - piece.Wide.Length, slot.Height - piece.High.Length);
        return (attempt / 12 % 3) switch
        {
            0 => right >= top,
            1 => (long)right * slot.Height >= (long)top * slot.Width,
            _ => Share() < 0.5,
        };
    }

    /// <summary>A number from 0 to 1 (xorshift, Marsaglia, Journal of Statistical Software 8, 2003).</summary>
    private double Share()
    {
        _state ^= _state << 13;
        _state ^= _state >> 7;
        _state ^= _state << 17;
        return (_state >> 11) * (1.0 / (1UL << 53));
    }

    /// <summary>A free rectangle, and once it is filled its piece and the two rectangles that are left.</summary>
    private sealed class Slot(int width, int height, bool hasGrain)
    {
        private Block? _piece;
        private Slot? _right;
        private Slot? _top;
        private bool _isUprightFirst;

        public int Width => width;

        public int Height => height;

        public bool HasGrain => hasGrain;

        public IEnumerable<Slot> Fill(Block piece, bool isUprightFirst)
        {
            (_piece, _isUprightFirst) = (piece, isUprightFirst);
            var (right, top) = (width - piece.Wide.Length, height - piece.High.Length);
            _right = new(right, isUprightFirst ? height : piece.High.Length, hasGrain);
            _top = new(isUprightFirst ? piece.Wide.Length : width, top, hasGrain);
            return new[] { _right, _top }.Where(slot => slot is { Width: > 0, Height: > 0 });
        }

        public Block? ToBlock(int narrowest)
        {
            if (_piece is null)
            {
                return null;
            }

            var (right, top) = (_right!.ToBlock(narrowest), _top!.ToBlock(narrowest));
            return _isUprightFirst
                ? Beside(Above(_piece, top, narrowest), right, narrowest)
                : Above(Beside(_piece, right, narrowest), top, narrowest);
        }

        private static Block Beside(Block first, Block? second, int narrowest) => second is null ? first : Block.Beside(first, second, narrowest);

        private static Block Above(Block first, Block? second, int narrowest) => second is null ? first : Block.Above(first, second, narrowest);
    }
}
