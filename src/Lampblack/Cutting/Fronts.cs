using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Cutting;

/// <summary>
/// For every choice of pieces, all smallest rectangles that it can be cut from: those of one part joined with those of the rest. As each cut parts what is in hand in two, nothing is
/// missed; so a choice fits a plate exactly where one of its rectangles does.
/// </summary>
internal sealed class Fronts
{
    private readonly Model _model;
    private readonly List<Block>[] _blocks;
    private readonly long _mostWaste;
    private long _area;

    private Fronts(Model model, Picks picks, long mostWaste)
    {
        (_model, Picks, _mostWaste) = (model, picks, mostWaste);
        _blocks = [.. Enumerable.Range(0, picks.Count).Select(_ => new List<Block>())];
    }

    public Picks Picks { get; }

    /// <summary>All fronts; null where the work was ended before.</summary>
    /// <param name="model">The task.</param>
    /// <param name="picks">The choices.</param>
    /// <param name="mostWaste">Blocks that waste a larger area are left out.</param>
    /// <param name="work">The work.</param>
    public static Fronts? Of(Model model, Picks picks, long mostWaste, Work work)
    {
        var fronts = new Fronts(model, picks, mostWaste);
        for (var kind = 0; kind < model.Kinds.Length; kind++)
        {
            foreach (var piece in model.PiecesOf(kind))
            {
                fronts._area = model.Kinds[kind].Area;
                fronts.Offer(fronts._blocks[picks.One(kind)], piece);
            }
        }

        for (var pick = 1; pick < picks.Count && !work.IsOver; pick++)
        {
            fronts.Build(pick, work);
        }

        return work.IsOver ? null : fronts;
    }

    /// <summary>The ways to cut a choice from a plate.</summary>
    public IEnumerable<Block> Fitting(int pick, Plate plate) =>
        _blocks[pick].Where(block => block.Fits(plate.Width, plate.Height, plate.HasGrain, _model.Narrowest));

    private void Build(int pick, Work work)
    {
        var front = _blocks[pick];
        long area = 0;
        for (var kind = 0; kind < _model.Kinds.Length; kind++)
        {
            area += _model.Kinds[kind].Area * Picks.CountOf(pick, kind);
        }

        _area = area;
        if (_model.Plates.All(plate => plate.Area < area))
        {
            return;
        }

        Picks.Within(pick, part =>
        {
            if (part > pick - part || work.IsOver)
            {
                return;
            }

            var (some, rest) = (_blocks[part], _blocks[pick - part]);
            work.Spend(1 + ((long)some.Count * rest.Count * 2));
            foreach (var first in some)
            {
                foreach (var second in rest)
                {
                    Join(front, first, second);
                }
            }
        });
    }

    private void Join(List<Block> front, Block first, Block second)
    {
        var narrowest = _model.Narrowest;
        var isTurned = first.IsTurned || second.IsTurned;
        if (IsOfUse(front, first.Wide.And(second.Wide), first.High.Both(second.High, narrowest), isTurned))
        {
            Add(front, Block.Beside(first, second, narrowest));
        }

        if (IsOfUse(front, first.Wide.Both(second.Wide, narrowest), first.High.And(second.High), isTurned))
        {
            Add(front, Block.Above(first, second, narrowest));
        }
    }

    private void Offer(List<Block> front, Block block)
    {
        if (IsOfUse(front, block.Wide, block.High, block.IsTurned))
        {
            Add(front, block);
        }
    }

    private bool IsOfUse(List<Block> front, Extent wide, Extent high, bool isTurned)
    {
        var isInside = false;
        foreach (var plate in _model.Plates)
        {
            isInside |= wide.Length <= plate.Width && high.Length <= plate.Height;
        }

        if (!isInside || ((long)wide.Length * high.Length) - _area > _mostWaste)
        {
            return false;
        }

        foreach (var known in front)
        {
            if ((!known.IsTurned || isTurned) && known.Wide.Covers(wide, _model.Narrowest) && known.High.Covers(high, _model.Narrowest))
            {
                return false;
            }
        }

        return true;
    }

    private void Add(List<Block> front, Block block)
    {
        front.RemoveAll(known => block.Covers(known, _model.Narrowest));
        front.Add(block);
    }
}
