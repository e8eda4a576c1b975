using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Edits;
using Lampblack.Geometry;

namespace Lampblack.Jobs;

/// <summary>How several items are put in order.</summary>
public enum Arrangement
{
    /// <summary>Their left edges in line with the leftmost.</summary>
    LeftEdges,

    /// <summary>Their middles one above the other, in line with the one held last.</summary>
    MiddlesAbove,

    /// <summary>Their right edges in line with the rightmost.</summary>
    RightEdges,

    /// <summary>Their upper edges in line with the highest.</summary>
    UpperEdges,

    /// <summary>Their middles side by side, in line with the one held last.</summary>
    MiddlesBeside,

    /// <summary>Their lower edges in line with the lowest.</summary>
    LowerEdges,

    /// <summary>The same step from middle to middle, from left to right; the outermost stay.</summary>
    EvenAcross,

    /// <summary>The same step from middle to middle, upwards; the outermost stay.</summary>
    EvenUp,
}

/// <summary>Works out how far items have to be moved to stand in order. A control's middle is that of its hole, not of hole and words.</summary>
public static class Arrange
{
    private const double LeastMm = 0.00005;

    /// <summary>The moves; those that stand right already are left out. Copies of one table count as one item, by the first that is named.</summary>
    /// <param name="items">The items; the one held last is the last.</param>
    /// <param name="how">In which order.</param>
    public static MoveItems Moves(IEnumerable<ItemView> items, Arrangement how)
    {
        ArgumentNullException.ThrowIfNull(items);
        ImmutableArray<ItemView> all = [.. items.DistinctBy(item => item.TableAddress)];
        return new([.. Shifts(all, how).Zip(all).Where(pair => Math.Abs(pair.First.Dx) > LeastMm || Math.Abs(pair.First.Dy) > LeastMm)
            .Select(pair => new ItemMove(pair.Second.TableAddress, Rounded(pair.First.Dx), Rounded(pair.First.Dy)))]);
    }

    /// <summary>What lies between two items: the gaps between their edges (negative where they overlap) and the way from middle to middle, in mm.</summary>
    public static (double GapXMm, double GapYMm, double MiddlesXMm, double MiddlesYMm) Between(ItemView first, ItemView second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        var (a, b) = (first.Box, second.Box);
        return (
            Math.Max(b.LeftMm - a.RightMm, a.LeftMm - b.RightMm),
            Math.Max(b.BottomMm - a.TopMm, a.BottomMm - b.TopMm),
            Middle(second).XMm - Middle(first).XMm,
            Middle(second).YMm - Middle(first).YMm);
    }

    /// <summary>The place by which an item is lined up.</summary>
    internal static Point<PanelSpace> Middle(ItemView item) => item.Kind is ItemKind.Control or ItemKind.Dial or ItemKind.Fixing ? item.Anchor : item.Box.Centre;

    private static IEnumerable<(double Dx, double Dy)> Shifts(ImmutableArray<ItemView> items, Arrangement how) => how switch
    {
        _ when items.Length < 2 => items.Select(_ => (0.0, 0.0)),
        Arrangement.LeftEdges => items.Min(item => item.Box.LeftMm) is var left ? items.Select(item => (left - item.Box.LeftMm, 0.0)) : [],
        Arrangement.RightEdges => items.Max(item => item.Box.RightMm) is var right ? items.Select(item => (right - item.Box.RightMm, 0.0)) : [],
        Arrangement.UpperEdges => items.Max(item => item.Box.TopMm) is var top ? items.Select(item => (0.0, top - item.Box.TopMm)) : [],
        Arrangement.LowerEdges => items.Min(item => item.Box.BottomMm) is var bottom ? items.Select(item => (0.0, bottom - item.Box.BottomMm)) : [],
        Arrangement.MiddlesAbove => items.Select(item => (Middle(items[^1]).XMm - Middle(item).XMm, 0.0)),
        Arrangement.MiddlesBeside => items.Select(item => (0.0, Middle(items[^1]).YMm - Middle(item).YMm)),
        Arrangement.EvenAcross => Even(items, item => Middle(item).XMm).Select(shift => (shift, 0.0)),
        _ => Even(items, item => Middle(item).YMm).Select(shift => (0.0, shift)),
    };

    private static IEnumerable<double> Even(ImmutableArray<ItemView> items, Func<ItemView, double> place)
    {
        var order = items.Select((item, index) => (Place: place(item), Index: index)).OrderBy(one => one.Place).ThenBy(one => one.Index).ToList();
        var (first, step) = (order[0].Place, (order[^1].Place - order[0].Place) / (order.Count - 1));
        var shifts = new double[items.Length];
        foreach (var (rank, one) in order.Index())
        {
            shifts[one.Index] = first + (rank * step) - one.Place;
        }

        return shifts;
    }

    private static double Rounded(double mm) => Math.Round(mm, 4, MidpointRounding.AwayFromZero);
}
