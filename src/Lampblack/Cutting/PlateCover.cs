using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Cutting;

/// <summary>The best way to spread pieces over plates: the most value, then the fewest plates, then the least price, then the longest offcut. Exact, plate by plate.</summary>
internal sealed class PlateCover
{
    private readonly Model _model;
    private readonly Fronts _fronts;
    private readonly Picks _picks;
    private readonly Work _work;

    private PlateCover(Model model, Fronts fronts, Work work) => (_model, _fronts, _picks, _work) = (model, fronts, fronts.Picks, work);

    /// <summary>The best; null where the work was ended before.</summary>
    /// <param name="model">The task.</param>
    /// <param name="fronts">What fits.</param>
    /// <param name="mostPlates">No more plates than these: what a plan that is known takes.</param>
    /// <param name="work">The work.</param>
    public static Covered? Best(Model model, Fronts fronts, int mostPlates, Work work) => new PlateCover(model, fronts, work).Run(mostPlates);

    private Covered? Run(int mostPlates)
    {
        var best = new State?[_picks.Count];
        best[0] = new(0, 0, (0, 0), null, null, null);
        foreach (var plate in _model.Plates)
        {
            var fitting = Fitting(plate);
            for (var copy = 0; copy < Math.Min(plate.Count, mostPlates); copy++)
            {
                var next = (State?[])best.Clone();
                if (!Layer(best, next, plate, fitting, mostPlates))
                {
                    break;
                }

                best = next;
            }
        }

        return _work.IsOver ? null : Plates(best);
    }

    /// <summary>For each choice the block that leaves the longest offcut of the plate; null where none fits.</summary>
    private (Block Block, (int, int) Offcut)?[] Fitting(Plate plate)
    {
        var fitting = new (Block, (int, int))?[_picks.Count];
        for (var pick = 1; pick < _picks.Count; pick++)
        {
            foreach (var block in _fronts.Fitting(pick, plate))
            {
                var offcut = Placing.LongestOffcut(_model, plate, block);
                if (fitting[pick] is not { } known || offcut.CompareTo(known.Item2) > 0)
                {
                    fitting[pick] = (block, offcut);
                }
            }
        }

        return fitting;
    }

    /// <summary>One plate more; false where it is of no use.</summary>
    private bool Layer(State?[] best, State?[] next, Plate plate, (Block Block, (int, int) Offcut)?[] fitting, int mostPlates)
    {
        var isBetter = false;
        for (var pick = 1; pick < _picks.Count && !_work.IsOver; pick++)
        {
            Try(pick);
            _picks.Within(pick, Try);

            void Try(int part)
            {
                _work.Spend();
                if (fitting[part] is { } fits && best[pick - part] is { } rest && rest.Count < mostPlates)
                {
                    var offcut = fits.Offcut.CompareTo(rest.Offcut) > 0 ? fits.Offcut : rest.Offcut;
                    var state = new State(rest.Count + 1, rest.Price + plate.Stock.Price, offcut, plate, fits.Block, rest);
                    if (next[pick] is not { } known || state.IsBetterThan(known))
                    {
                        next[pick] = state;
                        isBetter = true;
                    }
                }
            }
        }

        return isBetter;
    }

    private Covered Plates(State?[] best)
    {
        var (chosen, value) = (best[0]!, 0L);
        for (var pick = 1; pick < _picks.Count; pick++)
        {
            if (best[pick] is { } state)
            {
                var worth = Enumerable.Range(0, _model.Kinds.Length).Sum(kind => _model.Kinds[kind].Value * _picks.CountOf(pick, kind));
                if (worth > value || (worth == value && state.IsBetterThan(chosen)))
                {
                    (chosen, value) = (state, worth);
                }
            }
        }

        var plates = new List<(Plate, Block)>();
        for (var state = chosen; state.Rest is not null; state = state.Rest)
        {
            plates.Add((state.Plate!, state.Block!));
        }

        return new(plates);
    }

    private sealed record State(int Count, decimal Price, (int Long, int Short) Offcut, Plate? Plate, Block? Block, State? Rest)
    {
        public bool IsBetterThan(State other) => Count != other.Count ? Count < other.Count
            : Price != other.Price ? Price < other.Price
            : Offcut.CompareTo(other.Offcut) > 0;
    }
}
