using System;
using System.Collections.Immutable;

namespace Lampblack.Geometry;

/// <summary>A chain of points, open or closed; curves are already followed by chords.</summary>
/// <typeparam name="TSpace">The space it is in.</typeparam>
/// <param name="Points">The corners in order; a closed chain does not repeat its first point.</param>
/// <param name="Closed">Whether the last point is joined to the first.</param>
public sealed record Outline<TSpace>(ImmutableArray<Point<TSpace>> Points, bool Closed)
    where TSpace : struct, ISpace
{
    /// <summary>Area inside a closed chain in mm2, positive where it runs counter-clockwise (shoelace formula).</summary>
    public double SignedAreaMm2
    {
        get
        {
            double twice = 0;
            for (var index = 0; index < Points.Length; index++)
            {
                var here = Points[index];
                var next = Points[(index + 1) % Points.Length];
                twice += (here.XMm * next.YMm) - (next.XMm * here.YMm);
            }

            return twice / 2;
        }
    }

    /// <summary>Length in mm, the closing side included where it is closed.</summary>
    public double LengthMm
    {
        get
        {
            double sum = 0;
            var sides = Closed ? Points.Length : Points.Length - 1;
            for (var index = 0; index < sides; index++)
            {
                sum += Points[index].DistanceMm(Points[(index + 1) % Points.Length]);
            }

            return sum;
        }
    }

    /// <summary>An arc about a centre, from one angle to another (degrees, counter-clockwise from the x axis; clockwise where the end is smaller).</summary>
    public static Outline<TSpace> Arc(Point<TSpace> centre, double radiusMm, double fromDegrees, double toDegrees)
    {
        var share = Math.Min(1, Math.Abs(toDegrees - fromDegrees) / 360);
        var chords = Math.Max(2, (int)Math.Ceiling(Resolution.ChordsPerCircle(radiusMm) * share));
        var points = ImmutableArray.CreateBuilder<Point<TSpace>>(chords + 1);
        for (var index = 0; index <= chords; index++)
        {
            points.Add(centre.Polar(radiusMm, fromDegrees + ((toDegrees - fromDegrees) * index / chords)));
        }

        return new(points.MoveToImmutable(), Closed: false);
    }

    /// <summary>The chain in another space.</summary>
    public Outline<TTo> Map<TTo>(Affine<TSpace, TTo> map)
        where TTo : struct, ISpace
    {
        ArgumentNullException.ThrowIfNull(map);
        var points = ImmutableArray.CreateBuilder<Point<TTo>>(Points.Length);
        foreach (var point in Points)
        {
            points.Add(map.Apply(point));
        }

        return new(points.MoveToImmutable(), Closed);
    }
}
