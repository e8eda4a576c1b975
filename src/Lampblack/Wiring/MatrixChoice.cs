using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Wiring;

/// <summary>Which controls go into a matrix, where there are pins for some of them but not for all: as few as can be, for each of their contacts takes a diode.</summary>
internal static class MatrixChoice
{
    /// <summary>The controls for the matrix and the size of it; null where no matrix has room.</summary>
    /// <param name="needs">Controls that are read by contacts.</param>
    /// <param name="mostColumns">Columns at most.</param>
    /// <param name="pins">Pins for rows, columns, and contacts on pins of their own.</param>
    /// <param name="mostDirect">How many contacts may have pins of their own.</param>
    public static (ImmutableHashSet<string> Ids, int Columns, int Rows)? Fewest(ImmutableArray<WiredNeed> needs, int mostColumns, int pins, int mostDirect = int.MaxValue)
    {
        // Single contacts first: they fill a matrix to its last crossing.
        ImmutableArray<WiredNeed> order = [.. needs.OrderBy(need => need.Poles.Max(pole => pole.Length))];
        var left = needs.Sum(need => need.Contacts.Length);
        var sizes = new List<int>();
        foreach (var (index, need) in order.Index())
        {
            left -= need.Contacts.Length;
            sizes.AddRange(need.Poles.Select(pole => pole.Length));
            if (left < pins && left <= mostDirect && MatrixGrid.Fewest(sizes, mostColumns, pins - left) is { } size)
            {
                var chosen = order[..(index + 1)];
                return ([.. (chosen.All(IsSingle) ? Nearest([.. needs.Where(IsSingle)], chosen.Length) : chosen).Select(one => one.Id)], size.Columns, size.Rows);
            }
        }

        return null;
    }

    private static bool IsSingle(WiredNeed need) => need.Contacts.Length == 1;

    /// <summary>So many that stand together: for each place those nearest to it, and of these the ones that lie least far from it.</summary>
    private static IEnumerable<WiredNeed> Nearest(ImmutableArray<WiredNeed> needs, int count) =>
        needs.Select(centre => needs.OrderBy(need => Apart(need.Spot, centre.Spot)).Take(count).ToList())
            .Index()
            .MinBy(group => (group.Item.Sum(need => Apart(need.Spot, needs[group.Index].Spot)), group.Index)).Item;

    private static double Apart(Point<PanelSpace> one, Point<PanelSpace> other) => Math.Abs(one.XMm - other.XMm) + Math.Abs(one.YMm - other.YMm);
}
