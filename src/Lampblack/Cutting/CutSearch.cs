using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Cutting;

/// <summary>Plans cuts: the most value, then the fewest plates, then the least price, then the longest offcut.</summary>
public static class CutSearch
{
    /// <summary>Choices of pieces up to which every one is looked at; 12 pieces, each of its own, make 4096.</summary>
    private const int MostPicks = 5_000;

    private const int FewTries = 300;
    private const int ManyTries = 6_000;

    /// <summary>What a longer offcut is worth, in steps.</summary>
    private const long StepsForOffcuts = 3_000_000;

    /// <summary>The best plan that the effort finds. Same task and steps, same plan.</summary>
    /// <param name="task">What is to be cut from what.</param>
    /// <param name="effort">How much to work.</param>
    public static CutPlan Run(CutTask task, CutEffort effort)
    {
        ArgumentNullException.ThrowIfNull(task);
        ArgumentNullException.ThrowIfNull(effort);
        var model = Model.Of(task);
        var work = new Work(effort);
        var available = (int)Math.Min(model.MostPlates, model.Plates.Sum(plate => (long)plate.Count));
        if (model.Kinds.IsEmpty || available == 0)
        {
            return Plan(task, model, new([]), 0, 0, true, work);
        }

        return available == 1 ? OnePlate(task, model, work) : ManyPlates(task, model, work);
    }

    /// <summary>The pieces that can't be cut from any of the plates.</summary>
    /// <param name="task">The task.</param>
    public static ImmutableArray<CutPiece> TooLarge(CutTask task)
    {
        ArgumentNullException.ThrowIfNull(task);
        return Model.Of(task).TooLarge;
    }

    private static CutPlan OnePlate(CutTask task, Model model, Work work)
    {
        Covered best = new([]);
        long bound = 0;
        foreach (var plate in model.Plates)
        {
            var filled = BestFirst.Fill(model, plate, model.Counts, work);
            bound = Math.Max(bound, filled.Bound);
            if (filled.Best is { } block && new Covered([(plate, block)]) is var covered && covered.IsBetterThan(best, model))
            {
                best = covered;
            }
        }

        // Where all fits, what is left over can still be better or worse.
        return best.Value == model.Kinds.Sum(kind => kind.Value * kind.Count)
            ? AllCut(task, model, Better(best, Spread.Best(model, FewTries, work), model), work)
            : Plan(task, model, best, bound, best.Plates.Count, bound <= best.Value, work);
    }

    private static CutPlan ManyPlates(CutTask task, Model model, Work work)
    {
        var good = Spread.Best(model, FewTries, work);
        var all = model.Kinds.Sum(kind => kind.Value * kind.Count);
        return good.Value == all ? AllCut(task, model, good, work) : SomeCut(task, model, good, all, work);
    }

    /// <summary>All pieces find room: the fewest plates are looked for, then the cheapest.</summary>
    private static CutPlan AllCut(CutTask task, Model model, Covered good, Work work)
    {
        var area = model.Kinds.Sum(kind => kind.Area * kind.Count);
        var need = PlatesNeeded.AtLeast(model, work);
        var spare = Choices.LargestBetterArea(model, good, need) - area;
        if (spare >= 0)
        {
            good = Better(good, Spread.Best(model, ManyTries, work), model);
            good = Better(good, PlateByPlate.Best(model, work), model);
            spare = Choices.LargestBetterArea(model, good, need) - area;
        }

        var isProven = spare < 0;
        if (!isProven && Exact(model, good.Plates.Count, spare, work) is { } exact)
        {
            // Where nothing better is found, nothing better is there.
            good = Better(good, exact, model);
            isProven = true;
        }
        else if (isProven && work.Within(StepsForOffcuts, () => Exact(model, good.Plates.Count, long.MaxValue, work)) is { } longer)
        {
            good = Better(good, longer, model);
        }

        return Plan(task, model, good, good.Value, isProven ? good.Plates.Count : need, isProven, work);
    }

    /// <summary>Not all pieces find room, as far as is known: the most value is looked for.</summary>
    private static CutPlan SomeCut(CutTask task, Model model, Covered good, long all, Work work)
    {
        if (Exact(model, model.MostPlates, long.MaxValue, work) is { } exact)
        {
            return Plan(task, model, exact, exact.Value, exact.Plates.Count, true, work);
        }

        good = Better(Better(good, Spread.Best(model, ManyTries, work), model), PlateByPlate.Best(model, work), model);
        return good.Value == all ? AllCut(task, model, good, work) : Plan(task, model, good, Math.Min(all, MostValue(model, work)), 1, false, work);
    }

    private static Covered Better(Covered first, Covered second, Model model) => second.IsBetterThan(first, model) ? second : first;

    /// <summary>Every choice on every plate; null where that is too much.</summary>
    private static Covered? Exact(Model model, int mostPlates, long mostWaste, Work work) =>
        !work.IsOver && Picks.Of(model.Counts, MostPicks) is { } picks && Fronts.Of(model, picks, mostWaste, work) is { } fronts
            ? PlateCover.Best(model, fronts, mostPlates, work)
            : null;

    /// <summary>What all plates together can hold at most.</summary>
    private static long MostValue(Model model, Work work) => model.Plates
        .SelectMany(plate => Enumerable.Repeat(PlateBound.Of(model, plate, model.Counts, work).OfPlate(model.Counts), Math.Min(plate.Count, model.MostPlates)))
        .OrderDescending()
        .Take(model.MostPlates)
        .Sum();

    private static CutPlan Plan(CutTask task, Model model, Covered covered, long bound, int platesBound, bool isProven, Work work)
    {
        var ids = model.Kinds.Select(kind => new Queue<string>(kind.Ids)).ToArray();
        var plates = covered.Plates
            .OrderByDescending(plate => BestFirst.Count(plate.Block, new int[model.Kinds.Length]).Zip(model.Kinds, (count, kind) => count * kind.Area).Sum() / (double)plate.Plate.Area)
            .Select(plate => Placing.Of(model, plate.Plate, plate.Block, ids))
            .ToImmutableArray();
        var cut = plates.SelectMany(plate => plate.Pieces).GroupBy(piece => piece.Id).ToDictionary(group => group.Key, group => group.Count());
        return new(
            plates,
            Model.ValueOf(covered.Value),
            Model.ValueOf(Math.Max(bound, covered.Value)),
            platesBound,
            isProven,
            work.IsStopped,
            [.. task.Pieces.Select(piece => (piece.Id, piece.Count - cut.GetValueOrDefault(piece.Id))).Where(left => left.Item2 > 0)])
        {
            Steps = work.Steps,
        };
    }
}
