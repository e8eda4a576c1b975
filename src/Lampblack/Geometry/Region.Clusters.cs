using System;
using System.Collections.Generic;
using System.Linq;
using NetTopologySuite.Algorithm.Locate;
using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;
using NetTopologySuite.Operation.Distance;

namespace Lampblack.Geometry;

/// <content>Pieces that have to do with each other.</content>
public sealed partial class Region<TSpace>
{
    /// <summary>How many boxes one may lie beside on the way before an index is quicker.</summary>
    private const int MostOverEachOther = 256;

    private const int MostSortedByHand = 64;

    /// <summary>Shares pieces out so that those of different clusters are farther apart than the margin; within a cluster they are near, or at least their boxes are.</summary>
    private static List<List<Polygon>> Clusters(List<Polygon> pieces, double marginMm)
    {
        var isAlone = Alone(pieces, marginMm);
        var seen = (bool[])isAlone.Clone();
        var waiting = seen.AsSpan().Count(false);
        var (tree, held) = Waiting();

        // A frame's box covers all that stands in it, near or not, so the frame itself is asked.
        var surroundings = new Surroundings?[pieces.Count];
        bool IsFree(int outer, int inner) => pieces[outer].EnvelopeInternal.Covers(pieces[inner].EnvelopeInternal)
            && (surroundings[outer] ??= new(pieces[outer])).Leaves(pieces[inner], marginMm);

        var clusters = new List<List<Polygon>>();
        for (var start = 0; start < pieces.Count; start++)
        {
            if (isAlone[start])
            {
                clusters.Add([pieces[start]]);
            }

            if (seen[start])
            {
                continue;
            }

            var cluster = new List<int> { start };
            seen[start] = true;
            waiting--;
            for (var next = 0; next < cluster.Count; next++)
            {
                var here = cluster[next];
                if (2 * waiting < held)
                {
                    // Where thousands of boxes lie over each other, those that are in a cluster already would be found again and again.
                    (tree, held) = Waiting();
                }

                var around = pieces[here].EnvelopeInternal.Copy();
                around.ExpandBy(marginMm);
                foreach (var near in tree.Query(around).Where(near => !seen[near]).Order())
                {
                    if (IsFree(here, near) || IsFree(near, here))
                    {
                        continue;
                    }

                    seen[near] = true;
                    waiting--;
                    cluster.Add(near);
                }
            }

            clusters.Add([.. cluster.Order().Select(index => pieces[index])]);
        }

        return clusters;

        (STRtree<int> Tree, int Held) Waiting()
        {
            var some = new STRtree<int>();
            for (var index = 0; index < pieces.Count; index++)
            {
                if (!seen[index])
                {
                    some.Insert(pieces[index].EnvelopeInternal, index);
                }
            }

            return (some, waiting);
        }
    }

    /// <summary>Which pieces' boxes are farther from all others than the margin. Of letters most are: one way over all from the left to the right finds them, without an index and a search for each.</summary>
    private static bool[] Alone(List<Polygon> pieces, double marginMm)
    {
        var alone = new bool[pieces.Count];
        Array.Fill(alone, true);
        var boxes = new Envelope[pieces.Count];
        var lefts = new double[pieces.Count];
        for (var index = 0; index < boxes.Length; index++)
        {
            boxes[index] = pieces[index].EnvelopeInternal;
            lefts[index] = boxes[index].MinX;
        }

        // A little more than the margin, so that rounding leaves none out; where everything lies over everything, an index is quicker after all.
        var reachMm = marginMm + Resolution.GridMm;
        var comparisonsLeft = MostOverEachOther * (long)pieces.Count;
        var open = new int[pieces.Count];
        var openCount = 0;
        foreach (var next in FromTheLeft(lefts))
        {
            var box = boxes[next];
            var (fromMm, belowMm, aboveMm) = (box.MinX - reachMm, box.MinY - reachMm, box.MaxY + reachMm);
            var kept = 0;
            for (var at = 0; at < openCount; at++)
            {
                var other = boxes[open[at]];
                if (other.MaxX >= fromMm)
                {
                    open[kept++] = open[at];
                    if (other.MaxY >= belowMm && aboveMm >= other.MinY)
                    {
                        alone[open[at]] = alone[next] = false;
                    }
                }
            }

            comparisonsLeft -= openCount;
            if (comparisonsLeft < 0)
            {
                return new bool[pieces.Count];
            }

            open[kept] = next;
            openCount = kept + 1;
        }

        return alone;
    }

    /// <summary>The numbers of lefts in rising order. Letters of a line come in it nearly as they are: few are moved, and none far.</summary>
    private static int[] FromTheLeft(double[] lefts)
    {
        var order = new int[lefts.Length];
        if (lefts.Length > MostSortedByHand)
        {
            return [.. Enumerable.Range(0, lefts.Length).OrderBy(index => lefts[index])];
        }

        for (var index = 0; index < order.Length; index++)
        {
            var place = index;
            for (; place > 0 && lefts[order[place - 1]] > lefts[index]; place--)
            {
                order[place] = order[place - 1];
            }

            order[place] = index;
        }

        return order;
    }

    /// <summary>A piece with others inside its box.</summary>
    private sealed class Surroundings(Polygon piece)
    {
        private readonly IndexedFacetDistance _border = new(piece);
        private readonly STRtree<FacetSequence> _facets = FacetSequenceTreeBuilder.BuildSTRtree(piece);
        private readonly IndexedPointInAreaLocator _area = new(piece);

        /// <summary>Whether the other piece lies free, farther away than the margin.</summary>
        public bool Leaves(Polygon other, double marginMm)
        {
            if (_area.Locate(other.Coordinate) != Location.Exterior)
            {
                return false;
            }

            // Where no stretch of the border comes near the other's box, none comes near the other: no distance need be worked out.
            var around = other.EnvelopeInternal.Copy();
            around.ExpandBy(marginMm);
            return _facets.Query(around).Count == 0 || _border.Distance(other) > marginMm;
        }
    }
}
