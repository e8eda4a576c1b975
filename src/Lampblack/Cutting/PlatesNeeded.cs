using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Cutting;

/// <summary>How many plates there must be at least, whatever the plan.</summary>
internal static class PlatesNeeded
{
    /// <summary>At least so many plates for all these pieces: by their area, by each kind alone, and by pieces of which no two fit one plate.</summary>
    public static int AtLeast(Model model, Work work)
    {
        var need = Math.Max(ByArea(model), Apart(model));
        for (var kind = 0; kind < model.Kinds.Length; kind++)
        {
            need = Math.Max(need, Alone(model, kind, work));
        }

        return need;
    }

    private static int ByArea(Model model)
    {
        var area = model.Kinds.Sum(kind => kind.Area * kind.Count);
        var plates = 0;
        foreach (var plate in model.Plates.OrderByDescending(plate => plate.Area))
        {
            for (var copy = 0; copy < plate.Count && area > 0; copy++)
            {
                (area, plates) = (area - plate.Area, plates + 1);
            }
        }

        return plates;
    }

    private static int Alone(Model model, int kind, Work work)
    {
        var counts = new int[model.Kinds.Length];
        counts[kind] = model.Kinds[kind].Count;
        var most = model.Plates.Max(plate => PlateBound.Of(model, plate, counts, work) is { Best: { } best } ? best.Value / Math.Max(1, model.Kinds[kind].Value) : plate.Area / model.Kinds[kind].Area);
        return most <= 0 ? 0 : (int)((counts[kind] + most - 1) / most);
    }

    /// <summary>Pieces of which no two go on one plate, gathered one by one, the largest first.</summary>
    private static int Apart(Model model)
    {
        var (gathered, need) = (new List<int>(), 0);
        foreach (var kind in Enumerable.Range(0, model.Kinds.Length).OrderByDescending(kind => model.Kinds[kind].Area))
        {
            if (gathered.TrueForAll(other => !GoTogether(model, kind, other)))
            {
                gathered.Add(kind);
                need += GoTogether(model, kind, kind) ? 1 : model.Kinds[kind].Count;
            }
        }

        return need;
    }

    private static bool GoTogether(Model model, int kind, int other) => model.Plates.Any(plate => model.PiecesOf(kind).Any(first => model.PiecesOf(other).Any(second =>
        Block.Beside(first, second, model.Narrowest).Fits(plate.Width, plate.Height, plate.HasGrain, model.Narrowest)
        || Block.Above(first, second, model.Narrowest).Fits(plate.Width, plate.Height, plate.HasGrain, model.Narrowest))));
}
