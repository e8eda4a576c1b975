using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Cutting;

/// <summary>One plate filled.</summary>
/// <param name="Best">The best plan found; null where nothing fits.</param>
/// <param name="Bound">No plan is worth more.</param>
internal sealed record Filled(Block? Best, long Bound)
{
    public bool IsProven => Bound <= (Best?.Value ?? 0);
}

/// <summary>
/// The most valuable plan of one plate with so many of each kind at most. Blocks are built up from pieces, the most promising first, each joined with all that went before; what
/// can't beat the best plan is dropped (Viswanathan and Bagchi 1993; Cung, Hifi and Le Cun, International Transactions in Operational Research 7, 2000). When none is left that
/// promises more, the best is proven.
/// </summary>
internal sealed class BestFirst
{
    /// <summary>Blocks held at once; some 200 bytes each.</summary>
    private const int MostBlocks = 4_000_000;

    private readonly Model _model;
    private readonly Plate _plate;
    private readonly int[] _counts;
    private readonly Work _work;
    private readonly TallyForm _form;
    private readonly PlateBound _bound;
    private readonly PriorityQueue<Open, (long Promise, long Value, int Age)> _open = new();
    private readonly Dictionary<Tally, List<Block>> _known = [];
    private readonly SortedList<int, List<Open>> _closedByWidth = [];
    private readonly SortedList<int, List<Open>> _closedByHeight = [];
    private int _age;
    private Block? _best;

    private BestFirst(Model model, Plate plate, int[] counts, Work work, TallyForm form, PlateBound bound) =>
        (_model, _plate, _counts, _work, _form, _bound) = (model, plate, counts, work, form, bound);

    /// <summary>Fills a plate.</summary>
    public static Filled Fill(Model model, Plate plate, int[] counts, Work work)
    {
        counts = [.. counts.Select((count, kind) => (int)Math.Min(count, plate.Area / model.Kinds[kind].Area))];
        var bound = PlateBound.Of(model, plate, counts, work);
        if (bound.Best is { } free && model.Narrowest <= 1 && Count(free, new int[counts.Length]).Zip(counts).All(pair => pair.First <= pair.Second))
        {
            return new(free, free.Value);
        }

        return TallyForm.For(counts) is { } form
            ? new BestFirst(model, plate, counts, work, form, bound).Run()
            : new(null, bound.OfPlate(counts));
    }

    /// <summary>How many of each kind a block has.</summary>
    public static int[] Count(Block block, int[] counts)
    {
        if (block.Kind >= 0)
        {
            counts[block.Kind]++;
            return counts;
        }

        Count(block.First!, counts);
        return Count(block.Second!, counts);
    }

    private long BestValue => _best?.Value ?? 0;

    private Filled Run()
    {
        foreach (var kind in Enumerable.Range(0, _counts.Length).Where(kind => _counts[kind] > 0))
        {
            foreach (var piece in _model.PiecesOf(kind))
            {
                Offer(piece, _form.One(kind));
            }
        }

        long promise = 0;
        while (_open.TryDequeue(out var block, out var rank))
        {
            promise = -rank.Promise;
            if (promise <= BestValue)
            {
                return new(_best, BestValue);
            }

            if (!_work.Spend() || _open.Count > MostBlocks)
            {
                return new(_best, Math.Min(promise, _bound.OfPlate(_counts)));
            }

            Join(block);
        }

        return new(_best, BestValue);
    }

    private void Join(Open open)
    {
        var (wide, high) = (open.Block.Wide.Length, open.Block.High.Length);
        Close(_closedByWidth, wide, open);
        Close(_closedByHeight, high, open);
        for (var other = 0; other < _closedByWidth.Count && _closedByWidth.GetKeyAtIndex(other) <= _plate.Width - wide; other++)
        {
            JoinAll(open, _closedByWidth.GetValueAtIndex(other), true);
        }

        for (var other = 0; other < _closedByHeight.Count && _closedByHeight.GetKeyAtIndex(other) <= _plate.Height - high; other++)
        {
            JoinAll(open, _closedByHeight.GetValueAtIndex(other), false);
        }
    }

    private static void Close(SortedList<int, List<Open>> closed, int length, Open open)
    {
        if (!closed.TryGetValue(length, out var same))
        {
            closed.Add(length, same = []);
        }

        same.Add(open);
    }

    private void JoinAll(Open open, List<Open> closed, bool isBeside)
    {
        _work.Spend(closed.Count);
        foreach (var other in closed)
        {
            var tally = open.Tally + other.Tally;
            if (_form.Allows(tally))
            {
                Offer(isBeside ? Block.Beside(open.Block, other.Block, _model.Narrowest) : Block.Above(open.Block, other.Block, _model.Narrowest), tally);
            }
        }
    }

    private void Offer(Block block, Tally tally)
    {
        if (block.Wide.Length > _plate.Width || block.High.Length > _plate.Height || (_plate.HasGrain && block.IsTurned))
        {
            return;
        }

        var promise = _bound.Of(block, tally, _form, _counts, BestValue);
        if (promise <= BestValue)
        {
            return;
        }

        if (_known.TryGetValue(tally, out var same))
        {
            _work.Spend(same.Count);
            if (same.Exists(known => known.Covers(block, _model.Narrowest)))
            {
                return;
            }
        }
        else
        {
            _known.Add(tally, same = []);
        }

        same.Add(block);
        if (block.Value > BestValue && block.Fits(_plate.Width, _plate.Height, _plate.HasGrain, _model.Narrowest))
        {
            _best = block;
        }

        _open.Enqueue(new(block, tally), (-promise, -block.Value, _age++));
    }

    private sealed record Open(Block Block, Tally Tally);
}
