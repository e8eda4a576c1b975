using System;
using System.Collections.Generic;
using System.Linq;
using NetTopologySuite.Geometries;
using NetTopologySuite.Noding;
using NetTopologySuite.Noding.Snapround;

namespace Lampblack.Geometry;

/// <summary>
/// Finds the borders of what outlines enclose by a fill rule: all sides are cut where they meet, on the grid; the number of turns around every
/// place is then known on both sides of each cut, and a border is where one side is inside and the other is not.
/// </summary>
internal static class Windings
{
    /// <summary>Rings in grid steps become borders in mm: outer ones counter-clockwise, holes clockwise. Null where there is too much to do.</summary>
    public static List<Coordinate[]>? Borders(IReadOnlyList<Coordinate[]> rings, FillRule rule, ref long meetingsLeft)
    {
        var strings = new List<ISegmentString>(rings.Count);
        foreach (var ring in rings)
        {
            strings.Add(new NodedSegmentString([.. ring.Select(corner => new Coordinate(Steps(corner.X), Steps(corner.Y)))], null));
        }

        if (strings.Count == 0)
        {
            return [];
        }

        var meetings = new MeetingCounter(meetingsLeft);
        new MCIndexNoder(meetings).ComputeNodes(strings);
        meetingsLeft -= meetings.Count;
        if (!meetings.IsDone)
        {
            meetingsLeft -= MeetingCounter.Crowding(strings, meetings.Crossings);
        }

        if (meetingsLeft < 0)
        {
            return null;
        }

        IEnumerable<ISegmentString> cut = strings;
        if (meetings.IsMet)
        {
            var noder = new SnapRoundingNoder(new PrecisionModel(1));
            noder.ComputeNodes(strings);
            cut = noder.GetNodedSubstrings();
        }

        return new WindingGraph(Turns(cut, rule), rule).Rings()
            .ConvertAll(ring => ring.ConvertAll(corner => new Coordinate(Mm(corner.X), Mm(corner.Y))).ToArray());
    }

    /// <summary>Each cut side once, from its left (or lower) end, with how often it is passed that way less how often the other way.</summary>
    private static Dictionary<(GridPoint From, GridPoint To), int> Turns(IEnumerable<ISegmentString> strings, FillRule rule)
    {
        var turns = new Dictionary<(GridPoint From, GridPoint To), int>();
        foreach (var line in strings)
        {
            for (var index = 1; index < line.Count; index++)
            {
                var from = GridPoint.Of(line.Coordinates[index - 1]);
                var to = GridPoint.Of(line.Coordinates[index]);
                if (from == to)
                {
                    continue;
                }

                var isForward = from.CompareTo(to) < 0;
                var side = isForward ? (from, to) : (to, from);
                turns[side] = turns.GetValueOrDefault(side) + (isForward ? 1 : -1);
            }
        }

        // A side that is passed as often one way as the other parts nothing.
        foreach (var side in turns.Where(pair => pair.Value == 0 || (rule == FillRule.EvenOdd && pair.Value % 2 == 0)).Select(pair => pair.Key).ToList())
        {
            turns.Remove(side);
        }

        return turns;
    }

    private static double Steps(double mm) => Math.Round(mm / Resolution.GridMm, MidpointRounding.AwayFromZero);

    private static double Mm(long steps) => steps * Resolution.GridMm;
}

/// <summary>A place on the grid, in steps. Differences of two stay below 2^31 steps within 100 m, so their products are exact.</summary>
internal readonly record struct GridPoint(long X, long Y) : IComparable<GridPoint>
{
    public static GridPoint Of(Coordinate corner) => new((long)corner.X, (long)corner.Y);

    public int CompareTo(GridPoint other) => X != other.X ? X.CompareTo(other.X) : Y.CompareTo(other.Y);
}
