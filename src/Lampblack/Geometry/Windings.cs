using System;
using System.Collections.Generic;
using System.Linq;
using NetTopologySuite.Geometries;
using NetTopologySuite.Noding;
using NetTopologySuite.Noding.Snapround;

namespace Lampblack.Geometry;

/// <summary>
/// Finds the borders of what outlines enclose by a fill rule: all sides are cut where they meet, on a grid; the number of turns around every
/// place is then known on both sides of each cut, and a border is where one side is inside and the other is not.
/// </summary>
internal static class Windings
{
    /// <summary>How many steps products of two differences allow.</summary>
    private const double MostSteps = 1.2e9;

    /// <summary>Rings on the grid become borders on the grid: outer ones counter-clockwise, holes clockwise. Null where there is too much to do.</summary>
    public static List<Coordinate[]>? Borders(IReadOnlyList<Coordinate[]> rings, FillRule rule, ref long meetingsLeft)
    {
        if (rings.Count == 0)
        {
            return [];
        }

        var places = rings.Select(ring => Array.ConvertAll(ring, corner => Place(corner, Resolution.GridMm))).ToList();
        var strings = Strings(places);
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

        return Traced(places, meetings.IsMet, WindingRule.Of(rule))
            .ConvertAll(ring => ring.ConvertAll(corner => new Coordinate(corner.Place.X * Resolution.GridMm, corner.Place.Y * Resolution.GridMm)).ToArray());
    }

    /// <summary>The borders of what lies inside at least one of pieces: rings with the inside on their left. Corners on the fine grid keep their places to the last bit; others, and crossings, are rounded to it.</summary>
    public static List<Coordinate[]> Union(IReadOnlyList<Coordinate[]> rings) => Finely(rings, WindingRule.Of(FillRule.NonZero));

    /// <summary>The same of what lies in pieces and in none of others.</summary>
    public static List<Coordinate[]> Difference(IReadOnlyList<Coordinate[]> rings, IReadOnlyList<Coordinate[]> others) =>
        Finely([.. rings, .. others], new(rings.Count, (turns, otherTurns) => turns != 0 && otherTurns == 0));

    /// <summary>The same of what lies both in pieces and in others.</summary>
    public static List<Coordinate[]> Intersection(IReadOnlyList<Coordinate[]> rings, IReadOnlyList<Coordinate[]> others) =>
        Finely([.. rings, .. others], new(rings.Count, (turns, otherTurns) => turns != 0 && otherTurns != 0));

    private static List<Coordinate[]> Finely(IReadOnlyList<Coordinate[]> rings, WindingRule rule)
    {
        var around = new Envelope();
        foreach (var ring in rings)
        {
            Array.ForEach(ring, around.ExpandToInclude);
        }

        var stepMm = Resolution.FineStepMm;
        while (Math.Max(around.Width, around.Height) > MostSteps * stepMm)
        {
            stepMm *= 2;
        }

        var corners = rings.SelectMany(ring => ring).ToArray();
        return Traced([.. rings.Select(ring => Array.ConvertAll(ring, corner => Place(corner, stepMm)))], isMet: true, rule).ConvertAll(ring => ring.ConvertAll(
            corner => Exact(corner.Place, corner.Corner >= 0 ? corners[corner.Corner] : null, stepMm)).ToArray());
    }

    /// <summary>The corner of the input where only the last bits of its numbers differ from the place that was reckoned with; else that place, or borders might cross.</summary>
    private static Coordinate Exact(GridPoint place, Coordinate? corner, double stepMm)
    {
        var reckoned = new Coordinate(place.X * stepMm, place.Y * stepMm);
        return corner is not null && Math.Abs(corner.X - reckoned.X) < stepMm / 1000 && Math.Abs(corner.Y - reckoned.Y) < stepMm / 1000 ? corner.Copy() : reckoned;
    }

    private static List<List<(GridPoint Place, int Corner)>> Traced(List<GridPoint[]> rings, bool isMet, WindingRule rule)
    {
        var sides = Sides(rings);
        if (!isMet)
        {
            return new WindingGraph(sides, [], rule).Rings();
        }

        return SideCutter.Cut(sides, rings.Count) is { } cut
            ? new WindingGraph(cut.Sides, cut.Nodes, rule).Rings()
            : CutAllAtOnce(rings, rule).Rings();
    }

    /// <summary>Where cutting round by round does not settle: snap rounding, which always does, and takes some ten times as long.</summary>
    private static WindingGraph CutAllAtOnce(List<GridPoint[]> rings, WindingRule rule)
    {
        var noder = new SnapRoundingNoder(new PrecisionModel(1));
        noder.ComputeNodes(Strings(rings));
        var parts = noder.GetNodedSubstrings().ToLookup(part => (int)part.Context < rule.SecondFrom, part => Array.ConvertAll(part.Coordinates, corner => Place(corner, 1)));
        var sides = Sides([.. parts[true], .. parts[false]], isExact: false);
        return new(sides, [.. sides.Select(side => side.Start)], rule with { SecondFrom = parts[true].Count() });
    }

    private static List<GridSide> Sides(List<GridPoint[]> rings, bool isExact = true)
    {
        var sides = new List<GridSide>(rings.Sum(ring => ring.Length));
        var corner = 0;
        for (var ring = 0; ring < rings.Count; ring++)
        {
            for (var index = 1; index < rings[ring].Length; index++, corner++)
            {
                if (rings[ring][index - 1] != rings[ring][index])
                {
                    sides.Add(new(rings[ring][index - 1], rings[ring][index], ring, isExact ? corner : -1));
                }
            }

            corner++;
        }

        return sides;
    }

    private static List<ISegmentString> Strings(List<GridPoint[]> rings) =>
        [.. rings.Select((ring, index) => new NodedSegmentString(Array.ConvertAll(ring, place => new Coordinate(place.X, place.Y)), index))];

    private static GridPoint Place(Coordinate corner, double stepMm) => new(Steps(corner.X, stepMm), Steps(corner.Y, stepMm));

    private static long Steps(double mm, double stepMm) => (long)Math.Round(mm / stepMm, MidpointRounding.AwayFromZero);
}
