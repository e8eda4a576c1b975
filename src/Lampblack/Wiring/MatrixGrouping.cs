using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Wiring;

/// <summary>Exchanges the crossings of single contacts until rows and columns are short: each row and each column is a wire from control to control.</summary>
public static class MatrixGrouping
{
    // Each pass looks at every pair; later ones find little.
    private const int MostPasses = 6;
    private const double LeastGainMm = 0.01;

    /// <summary>Length of all rows and columns of a plan as shortest trees along x and y, in mm, and what no grouping of the same controls into as many rows and columns can go below.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="needs">Its controls.</param>
    public static (double LengthMm, double LeastMm) Lengths(ControllerPlan plan, ImmutableArray<WiredNeed> needs)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var spots = needs.ToDictionary(need => need.Id, need => need.Spot);
        var crossings = plan.Contacts.Where(contact => contact.Place is MatrixInput).Select(contact => (Place: (MatrixInput)contact.Place, Spot: spots[contact.ItemId])).ToList();
        var all = crossings.Select(crossing => crossing.Spot).ToList();
        var edges = Tree(all).OrderDescending().ToList();

        // A forest of so many trees over the same places is at least as long as the shortest tree without its longest edges.
        var least = edges.Skip(plan.Rows.Length - 1).Sum() + edges.Skip(plan.Columns.Length - 1).Sum();
        var length = crossings.GroupBy(crossing => crossing.Place.Row).Concat(crossings.GroupBy(crossing => -1 - crossing.Place.Column)).Sum(line => Tree([.. line.Select(one => one.Spot)]).Sum());
        return (length, least);
    }

    /// <summary>The plan with its single contacts exchanged; others stay.</summary>
    internal static ControllerPlan Shortened(ControllerPlan plan, PinTask task)
    {
        if (plan.Columns.IsEmpty)
        {
            return plan;
        }

        var needs = task.Needs.ToDictionary(need => need.Id);
        ImmutableArray<(int Index, PlannedContact Item)> crossing = [.. plan.Contacts.Index().Where(contact => contact.Item.Place is MatrixInput)];
        ImmutableArray<Point<PanelSpace>> spots = [.. crossing.Select(contact => needs[contact.Item.ItemId].Spot)];
        var single = crossing.Index().Where(contact => needs[contact.Item.Item.ItemId].Poles.All(pole => pole.Length == 1)).Select(contact => contact.Index).ToList();
        var places = crossing.Select(contact => (MatrixInput)contact.Item.Place).ToArray();
        Sort(single, places, index => spots[index]);
        var lines = new MatrixLines(places, spots, plan.Rows.Length, plan.Columns.Length);
        for (var pass = 0; pass < MostPasses && Pass(single, lines); pass++)
        {
        }

        var contacts = plan.Contacts.ToBuilder();
        foreach (var (contact, place) in crossing.Zip(places))
        {
            contacts[contact.Index] = contact.Item with { Place = place };
        }

        return plan with { Contacts = contacts.ToImmutable() };
    }

    /// <summary>A good start: from top to bottom into rows, and within a row from left to right.</summary>
    private static void Sort(List<int> single, MatrixInput[] places, Func<int, Point<PanelSpace>> spot)
    {
        var free = single.Select(index => places[index]).OrderBy(place => place.Row).ThenBy(place => place.Column).ToList();
        var waiting = new Queue<int>(single.OrderBy(index => Math.Floor(spot(index).XMm / 1000)).ThenByDescending(index => spot(index).YMm).ThenBy(index => spot(index).XMm));
        foreach (var row in free.GroupBy(place => place.Row))
        {
            var members = Enumerable.Range(0, row.Count()).Select(_ => waiting.Dequeue()).OrderBy(index => spot(index).XMm).ToList();
            foreach (var (index, place) in members.Zip(row))
            {
                places[index] = place;
            }
        }
    }

    private static bool Pass(List<int> single, MatrixLines lines)
    {
        var improved = false;
        for (var first = 0; first < single.Count; first++)
        {
            for (var second = first + 1; second < single.Count; second++)
            {
                improved |= lines.Exchange(single[first], single[second], LeastGainMm);
            }
        }

        return improved;
    }

    /// <summary>The edges of the shortest tree (Prim), along x and y.</summary>
    private static List<double> Tree(List<Point<PanelSpace>> points)
    {
        var edges = new List<double>(points.Count);
        var near = new double[points.Count];
        Array.Fill(near, double.MaxValue);
        var waiting = Enumerable.Range(1, Math.Max(0, points.Count - 1)).ToList();
        var last = 0;
        while (waiting.Count > 0)
        {
            var next = 0;
            foreach (var (place, index) in waiting.Index())
            {
                near[index] = Math.Min(near[index], Math.Abs(points[index].XMm - points[last].XMm) + Math.Abs(points[index].YMm - points[last].YMm));
                next = near[index] < near[waiting[next]] ? place : next;
            }

            last = waiting[next];
            waiting.RemoveAt(next);
            edges.Add(near[last]);
        }

        return edges;
    }
}
