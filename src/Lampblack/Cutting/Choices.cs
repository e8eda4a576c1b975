using System;
using System.Linq;

namespace Lampblack.Cutting;

/// <summary>Which plates could be chosen instead of those of a plan that is known.</summary>
internal static class Choices
{
    /// <summary>
    /// The largest area of plates that would be fewer, or as many and cheaper; 0 where there are none. Whatever is better than the known plan wastes no more than this area less that
    /// of the pieces, and no block of it does (Wang, Operations Research 31, 1983).
    /// </summary>
    /// <param name="model">The task.</param>
    /// <param name="known">The known plan.</param>
    /// <param name="atLeast">Fewer plates than these are known not to do.</param>
    public static long LargestBetterArea(Model model, Covered known, int atLeast)
    {
        var fewer = known.Plates.Count - 1;
        var area = fewer >= atLeast
            ? model.Plates.SelectMany(plate => Enumerable.Repeat(plate.Area, Math.Min(plate.Count, fewer))).OrderDescending().Take(fewer).Sum()
            : 0;
        return Math.Max(area, Cheaper(model, 0, known.Plates.Count, known.Price, 0, 0));
    }

    private static long Cheaper(Model model, int type, int left, decimal below, decimal price, long area)
    {
        if (left == 0)
        {
            return price < below ? area : 0;
        }

        if (type == model.Plates.Length)
        {
            return 0;
        }

        long best = 0;
        var plate = model.Plates[type];
        for (var count = 0; count <= Math.Min(left, plate.Count); count++)
        {
            best = Math.Max(best, Cheaper(model, type + 1, left - count, below, price + (count * plate.Stock.Price), area + (count * plate.Area)));
        }

        return best;
    }
}
