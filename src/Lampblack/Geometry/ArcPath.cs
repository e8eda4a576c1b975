using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Geometry;

/// <summary>A corner of a closed line of straight and round stretches.</summary>
/// <typeparam name="TSpace">The space it is in.</typeparam>
/// <param name="At">The corner.</param>
/// <param name="BulgeFactor">
/// The stretch from here to the next corner: 0 for a straight one, else the tangent of a quarter of the arc's angle, positive where the arc turns
/// counter-clockwise (0.414214 for a quarter circle, 1 for a half).
/// </param>
public readonly record struct ArcCorner<TSpace>(Point<TSpace> At, double BulgeFactor)
    where TSpace : struct, ISpace;

/// <summary>
/// A closed line of straight stretches and true arcs, for tools that can follow arcs. It says the same as a region's border does in chords; counter-clockwise
/// where it was made here, clockwise after a map that mirrors.
/// </summary>
/// <typeparam name="TSpace">The space it is in.</typeparam>
/// <param name="Corners">The corners in order; a full circle is two half arcs.</param>
public sealed record ArcPath<TSpace>(ImmutableArray<ArcCorner<TSpace>> Corners)
    where TSpace : struct, ISpace
{
    /// <summary>The circle that this is; null where it is none.</summary>
    public (Point<TSpace> Centre, double RadiusMm)? AsCircle => Corners is [{ BulgeFactor: 1 or -1 } first, { BulgeFactor: 1 or -1 } second]
        ? (new((first.At.XMm + second.At.XMm) / 2, (first.At.YMm + second.At.YMm) / 2), first.At.DistanceMm(second.At) / 2)
        : null;

    /// <summary>A full circle.</summary>
    /// <param name="centre">Its middle.</param>
    /// <param name="radiusMm">Its radius, above 0.</param>
    public static ArcPath<TSpace> Circle(Point<TSpace> centre, double radiusMm) =>
        new([new(new(centre.XMm + radiusMm, centre.YMm), 1), new(new(centre.XMm - radiusMm, centre.YMm), 1)]);

    /// <summary>Straight from corner to corner, and back to the first.</summary>
    /// <param name="corners">The corners, counter-clockwise.</param>
    public static ArcPath<TSpace> Straight(params ReadOnlySpan<Point<TSpace>> corners)
    {
        var path = ImmutableArray.CreateBuilder<ArcCorner<TSpace>>(corners.Length);
        foreach (var corner in corners)
        {
            path.Add(new(corner, 0));
        }

        return new(path.MoveToImmutable());
    }

    /// <summary>An upright rectangle with rounded corners; the radius is cut to half the shorter side.</summary>
    /// <param name="box">The box around it.</param>
    /// <param name="radiusMm">The corners' radius; 0 for sharp ones.</param>
    public static ArcPath<TSpace> RoundedRectangle(Box<TSpace> box, double radiusMm)
    {
        var (left, right, bottom, top) = (box.LeftMm, box.RightMm, box.BottomMm, box.TopMm);
        var radius = Math.Min(radiusMm, Math.Min(box.WidthMm, box.HeightMm) / 2);
        if (!(radius > 0))
        {
            return Straight([new(left, bottom), new(right, bottom), new(right, top), new(left, top)]);
        }

        var bulge = BulgeOf(90);
        ArcCorner<TSpace>[] corners =
        [
            new(new(left + radius, bottom), 0), new(new(right - radius, bottom), bulge),
            new(new(right, bottom + radius), 0), new(new(right, top - radius), bulge),
            new(new(right - radius, top), 0), new(new(left + radius, top), bulge),
            new(new(left, top - radius), 0), new(new(left, bottom + radius), bulge),
        ];

        // Straight stretches of no length vanish where a round end takes a whole side.
        return new([.. corners.Where((corner, index) => corner.BulgeFactor != 0 || corner.At.DistanceMm(corners[(index + 1) % corners.Length].At) > Resolution.GridMm)]);
    }

    /// <summary>The bulge of an arc, from its angle in degrees, counter-clockwise positive.</summary>
    public static double BulgeOf(double degrees) => Math.Tan(degrees * Math.PI / 720);

    /// <summary>The line turned, moved or mirrored; not stretched.</summary>
    /// <exception cref="ArgumentException">The map stretches: an arc would be none any more.</exception>
    public ArcPath<TTo> Map<TTo>(Affine<TSpace, TTo> map)
        where TTo : struct, ISpace
    {
        ArgumentNullException.ThrowIfNull(map);
        var isRigid = Math.Abs((map.Xx * map.Xx) + (map.Yx * map.Yx) - 1) < 1e-9 && Math.Abs((map.Xy * map.Xy) + (map.Yy * map.Yy) - 1) < 1e-9
            && Math.Abs((map.Xx * map.Xy) + (map.Yx * map.Yy)) < 1e-9;
        if (!isRigid)
        {
            throw new ArgumentException("arcs are turned, moved and mirrored, not stretched", nameof(map));
        }

        var sense = Math.Sign(map.Determinant);
        return new([.. Corners.Select(corner => new ArcCorner<TTo>(map.Apply(corner.At), sense * corner.BulgeFactor))]);
    }

    /// <summary>The same in chords.</summary>
    public Outline<TSpace> ToOutline()
    {
        var points = ImmutableArray.CreateBuilder<Point<TSpace>>();
        for (var index = 0; index < Corners.Length; index++)
        {
            var (from, to) = (Corners[index], Corners[(index + 1) % Corners.Length].At);
            points.Add(from.At);
            if (from.BulgeFactor != 0)
            {
                var (centre, radiusMm, startDegrees, turnDegrees) = ArcTo(from, to);
                var arc = Outline<TSpace>.Arc(centre, radiusMm, startDegrees, startDegrees + turnDegrees).Points;
                points.AddRange(arc.AsSpan()[1..^1]);
            }
        }

        return new(points.ToImmutable(), Closed: true);
    }

    /// <summary>The area inside.</summary>
    public Region<TSpace> ToRegion() => Region<TSpace>.FromCorners(ToOutline().Points);

    /// <summary>Centre, radius, start angle and turn (counter-clockwise positive) of the arc that leaves a corner.</summary>
    /// <param name="from">The corner, its bulge not 0.</param>
    /// <param name="to">The next corner.</param>
    public static (Point<TSpace> Centre, double RadiusMm, double StartDegrees, double TurnDegrees) ArcTo(ArcCorner<TSpace> from, Point<TSpace> to)
    {
        // Half the chord is c; the sagitta is bulge times c; the centre stands on the chord's perpendicular bisector.
        var chord = to - from.At;
        var offset = (1 - (from.BulgeFactor * from.BulgeFactor)) / (4 * from.BulgeFactor);
        Point<TSpace> centre = new(
            ((from.At.XMm + to.XMm) / 2) - (offset * chord.DyMm),
            ((from.At.YMm + to.YMm) / 2) + (offset * chord.DxMm));
        var start = Math.Atan2(from.At.YMm - centre.YMm, from.At.XMm - centre.XMm) * 180 / Math.PI;
        return (centre, centre.DistanceMm(from.At), start, 4 * Math.Atan(from.BulgeFactor) * 180 / Math.PI);
    }
}
