using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Checks;

/// <summary>Pairs of boxes that lie near each other, without comparing each with each.</summary>
internal static class Neighbours
{
    /// <summary>The numbers of all pairs whose boxes are at most so far apart both ways; the smaller number first.</summary>
    public static IEnumerable<(int First, int Second)> Pairs(IReadOnlyList<Box<PanelSpace>> boxes, double reachMm)
    {
        var order = Enumerable.Range(0, boxes.Count).OrderBy(place => boxes[place].LeftMm).ToList();
        for (var first = 0; first < order.Count; first++)
        {
            var one = boxes[order[first]];
            for (var second = first + 1; second < order.Count && boxes[order[second]].LeftMm <= one.RightMm + reachMm; second++)
            {
                var other = boxes[order[second]];
                if (other.BottomMm <= one.TopMm + reachMm && one.BottomMm <= other.TopMm + reachMm)
                {
                    yield return (Math.Min(order[first], order[second]), Math.Max(order[first], order[second]));
                }
            }
        }
    }
}
