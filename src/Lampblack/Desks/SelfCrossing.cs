using System;
using System.Collections.Immutable;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Finds lines and outlines that cross themselves.</summary>
internal static class SelfCrossing
{
    /// <summary>A tangle beyond this is a slip of the pen, and takes minutes to draw.</summary>
    private const int MostCrossings = 500;

    /// <summary>An outline that crosses itself is told of; a tangle is refused.</summary>
    /// <returns>Whether it can be drawn.</returns>
    public static bool Check(ImmutableArray<(double XMm, double YMm)> points, bool closed, TableReader table, string key, DeskReading reading)
    {
        var crossings = Count(points, closed);
        if (crossings > MostCrossings)
        {
            reading.Findings.Add(Finding.Stop(
                "outline-crosses-itself", $"`{key}` crosses itself more than {MostCrossings} times", "put its points in order, or split it", table.SpanOf(key)));
            return false;
        }

        if (crossings > 0 && closed)
        {
            reading.Findings.Add(Finding.Warn(
                "outline-crosses-itself", $"`{key}` crosses itself; every part that it goes around is filled", "put the corners in order, all the way around", table.SpanOf(key)));
        }

        return true;
    }

    private static int Count(ImmutableArray<(double XMm, double YMm)> points, bool closed)
    {
        var sides = closed ? points.Length : points.Length - 1;
        var count = 0;
        for (var first = 0; first < sides && count <= MostCrossings; first++)
        {
            var (a, b) = (points[first], points[(first + 1) % points.Length]);
            for (var second = first + 2; second < sides; second++)
            {
                count += Cross(a, b, points[second], points[(second + 1) % points.Length]) ? 1 : 0;
            }
        }

        return count;
    }

    /// <summary>Whether two stretches cross in their insides: each has its ends on different sides of the other.</summary>
    private static bool Cross((double X, double Y) a, (double X, double Y) b, (double X, double Y) c, (double X, double Y) d) =>
        Turn(a, b, c) * Turn(a, b, d) < 0 && Turn(c, d, a) * Turn(c, d, b) < 0;

    private static int Turn((double X, double Y) a, (double X, double Y) b, (double X, double Y) c) =>
        Math.Sign(((b.X - a.X) * (c.Y - a.Y)) - ((b.Y - a.Y) * (c.X - a.X)));
}
