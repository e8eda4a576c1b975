using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Cutting;

/// <summary>A good plan for many pieces: one plate after the other is filled as well as it can be with what is left.</summary>
internal static class PlateByPlate
{
    /// <summary>Steps for one plate; the first plan of a plate is found in far fewer.</summary>
    private const long StepsForOne = 600_000;

    /// <summary>The better of filling for worth and filling with large pieces first.</summary>
    public static Covered Best(Model model, Work work)
    {
        var found = new[] { 1.0, 1.15, 1.4 }.Select(power => Fill(model, power, work)).ToList();
        return found.Aggregate((best, other) => other.IsBetterThan(best, model) ? other : best);
    }

    private static Covered Fill(Model model, double power, Work work)
    {
        var left = model.Counts;
        var used = new int[model.Plates.Length];
        var plates = new List<(Plate Plate, Block Block)>();
        var weighed = power <= 1 ? model : model.Weighed(power);
        while (plates.Count < model.MostPlates && left.Any(count => count > 0))
        {
            var fills = Enumerable.Range(0, model.Plates.Length)
                .Where(plate => used[plate] < model.Plates[plate].Count)
                .Select(plate => (Plate: plate, Block: work.Within(StepsForOne, () => BestFirst.Fill(weighed, model.Plates[plate], left, work)).Best ?? Single(weighed, model.Plates[plate], left)))
                .Where(fill => fill.Block is not null)
                .OrderByDescending(fill => fill.Block!.Value)
                .ThenBy(fill => model.Plates[fill.Plate].Stock.Price)
                .ToList();
            if (fills.Count == 0)
            {
                break;
            }

            var (chosen, block) = fills[0];
            var again = model.Again(block!);
            plates.Add((model.Plates[chosen], again));
            used[chosen]++;
            var taken = BestFirst.Count(again, new int[left.Length]);
            left = [.. left.Zip(taken, (count, gone) => count - gone)];
        }

        return new(Cheaper(model, plates, used));
    }

    /// <summary>The first piece that fits, where the search had no time.</summary>
    private static Block? Single(Model model, Plate plate, int[] left) => Enumerable.Range(0, left.Length).Where(kind => left[kind] > 0)
        .SelectMany(model.PiecesOf)
        .FirstOrDefault(piece => piece.Fits(plate.Width, plate.Height, plate.HasGrain, model.Narrowest));

    /// <summary>What fits a cheaper plate goes there.</summary>
    public static List<(Plate Plate, Block Block)> Cheaper(Model model, List<(Plate Plate, Block Block)> plates, int[] used) =>
    [
        .. plates.Select(filled =>
        {
            var own = model.Plates.IndexOf(filled.Plate);
            var cheapest = Enumerable.Range(0, model.Plates.Length)
                .Where(plate => used[plate] < model.Plates[plate].Count && model.Plates[plate].Stock.Price < filled.Plate.Stock.Price)
                .Where(plate => filled.Block.Fits(model.Plates[plate].Width, model.Plates[plate].Height, model.Plates[plate].HasGrain, model.Narrowest))
                .OrderBy(plate => model.Plates[plate].Stock.Price)
                .ToList();
            if (cheapest.Count == 0)
            {
                return filled;
            }

            used[own]--;
            used[cheapest[0]]++;
            return (model.Plates[cheapest[0]], filled.Block);
        }),
    ];
}
