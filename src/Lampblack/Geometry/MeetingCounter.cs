using System;
using System.Collections.Generic;
using NetTopologySuite.Algorithm;
using NetTopologySuite.Geometries;
using NetTopologySuite.Noding;

namespace Lampblack.Geometry;

/// <summary>Counts pairs of sides whose boxes meet, and gives up early; remembers where sides cross.</summary>
internal sealed class MeetingCounter(long most) : ISegmentIntersector
{
    private const int Cells = 64;

    public long Count { get; private set; }

    public bool IsDone => Count > most;

    /// <summary>Whether sides meet anywhere but in the corners of their ring.</summary>
    public bool IsMet { get; private set; }

    public List<Coordinate> Crossings { get; } = [];

    public void ProcessIntersections(ISegmentString e0, int segIndex0, ISegmentString e1, int segIndex1)
    {
        if (e0 == e1 && segIndex0 == segIndex1)
        {
            return;
        }

        Count++;
        var (a, b, c, d) = (e0.Coordinates[segIndex0], e0.Coordinates[segIndex0 + 1], e1.Coordinates[segIndex1], e1.Coordinates[segIndex1 + 1]);
        var (wayX, wayY, otherX, otherY) = (b.X - a.X, b.Y - a.Y, d.X - c.X, d.Y - c.Y);
        var cross = (wayX * otherY) - (wayY * otherX);
        var share = (((c.X - a.X) * otherY) - ((c.Y - a.Y) * otherX)) / cross;
        var otherShare = (((c.X - a.X) * wayY) - ((c.Y - a.Y) * wayX)) / cross;
        if (share is > 0 and < 1 && otherShare is > 0 and < 1)
        {
            Crossings.Add(new(a.X + (share * wayX), a.Y + (share * wayY)));
            IsMet = true;

            // What a crossing costs, measured: a few hundred times what a pair does that only comes near.
            Count += 300;
        }
        else if (IsNeighbour(e0, segIndex0, e1, segIndex1) ? cross == 0 && (wayX * otherX) + (wayY * otherY) < 0 : Meet(a, b, c, d))
        {
            IsMet = true;
            Count += 200;
        }
    }

    /// <summary>Whether one side follows the other in their ring.</summary>
    private static bool IsNeighbour(ISegmentString e0, int segIndex0, ISegmentString e1, int segIndex1)
    {
        var apart = Math.Abs(segIndex0 - segIndex1);
        return e0 == e1 && (apart == 1 || apart == e0.Count - 2);
    }

    /// <summary>Whether two sides have a point in common, ends included.</summary>
    private static bool Meet(Coordinate a, Coordinate b, Coordinate c, Coordinate d) =>
        new Envelope(a, b).Intersects(new Envelope(c, d))
        && (int)Orientation.Index(a, b, c) * (int)Orientation.Index(a, b, d) <= 0
        && (int)Orientation.Index(c, d, a) * (int)Orientation.Index(c, d, b) <= 0;

    /// <summary>
    /// About how many corners and crossings lie in the boxes of all sides together: that is what snapping will look at. Few long sides over
    /// many crossings cost more than many short ones. Corners are counted in cells, and taken to be spread evenly in each.
    /// </summary>
    public static long Crowding(List<ISegmentString> strings, List<Coordinate> crossings)
    {
        var around = new Envelope();
        strings.ForEach(line => Array.ForEach(line.Coordinates, around.ExpandToInclude));
        var (cellX, cellY) = (Math.Max(1, around.Width / Cells), Math.Max(1, around.Height / Cells));
        var crowd = new int[Cells + 1, Cells + 1];
        strings.ForEach(line => Array.ForEach(line.Coordinates, Put));
        crossings.ForEach(Put);
        double sum = 0;
        foreach (var line in strings)
        {
            for (var index = 1; index < line.Count; index++)
            {
                var box = new Envelope(line.Coordinates[index - 1], line.Coordinates[index]);
                for (var x = (int)((box.MinX - around.MinX) / cellX); x <= (int)((box.MaxX - around.MinX) / cellX); x++)
                {
                    for (var y = (int)((box.MinY - around.MinY) / cellY); y <= (int)((box.MaxY - around.MinY) / cellY); y++)
                    {
                        sum += crowd[x, y] * Share(box.MinX, box.MaxX, around.MinX + (x * cellX), cellX) * Share(box.MinY, box.MaxY, around.MinY + (y * cellY), cellY);
                    }
                }
            }
        }

        return (long)Math.Min(sum, long.MaxValue / 4);

        void Put(Coordinate corner) => crowd[(int)((corner.X - around.MinX) / cellX), (int)((corner.Y - around.MinY) / cellY)]++;
    }

    private static double Share(double low, double high, double cell, double size) =>
        Math.Max(0, Math.Min(high, cell + size) - Math.Max(low, cell) + 1) / size;
}
