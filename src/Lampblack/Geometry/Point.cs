using System;

namespace Lampblack.Geometry;

/// <summary>A place in one space. Two points can be subtracted, not added.</summary>
/// <typeparam name="TSpace">The space it is in.</typeparam>
/// <param name="XMm">To the right, in mm.</param>
/// <param name="YMm">Upwards, in mm.</param>
public readonly record struct Point<TSpace>(double XMm, double YMm)
    where TSpace : struct, ISpace
{
    /// <summary>The way from <paramref name="start"/> to <paramref name="end"/>.</summary>
    public static Vector<TSpace> operator -(Point<TSpace> end, Point<TSpace> start) =>
        new(end.XMm - start.XMm, end.YMm - start.YMm);

    /// <summary>The point moved by <paramref name="way"/>.</summary>
    public static Point<TSpace> operator +(Point<TSpace> point, Vector<TSpace> way) =>
        new(point.XMm + way.DxMm, point.YMm + way.DyMm);

    /// <summary>Distance to the nearest place of a straight side, in mm.</summary>
    /// <param name="from">One end of the side.</param>
    /// <param name="to">The other; it may be the same.</param>
    public double DistanceMm(Point<TSpace> from, Point<TSpace> to)
    {
        var (dx, dy) = (to.XMm - from.XMm, to.YMm - from.YMm);
        var square = (dx * dx) + (dy * dy);
        var share = square > 0 ? Math.Clamp((((XMm - from.XMm) * dx) + ((YMm - from.YMm) * dy)) / square, 0, 1) : 0;
        return DistanceMm(new(from.XMm + (share * dx), from.YMm + (share * dy)));
    }

    /// <summary>Straight distance to another point, in mm.</summary>
    public double DistanceMm(Point<TSpace> other) => (this - other).LengthMm;

    /// <summary>The point at <paramref name="radiusMm"/> from here, <paramref name="degrees"/> counter-clockwise from the x axis.</summary>
    public Point<TSpace> Polar(double radiusMm, double degrees)
    {
        var radians = degrees * Math.PI / 180;
        return new(XMm + (radiusMm * Math.Cos(radians)), YMm + (radiusMm * Math.Sin(radians)));
    }
}

/// <summary>A displacement in one space.</summary>
/// <typeparam name="TSpace">The space it is in.</typeparam>
/// <param name="DxMm">To the right, in mm.</param>
/// <param name="DyMm">Upwards, in mm.</param>
public readonly record struct Vector<TSpace>(double DxMm, double DyMm)
    where TSpace : struct, ISpace
{
    /// <summary>Length in mm.</summary>
    public double LengthMm => Math.Sqrt((DxMm * DxMm) + (DyMm * DyMm));

    /// <summary>The sum of two displacements.</summary>
    public static Vector<TSpace> operator +(Vector<TSpace> first, Vector<TSpace> second) =>
        new(first.DxMm + second.DxMm, first.DyMm + second.DyMm);

    /// <summary>The displacement made <paramref name="factor"/> times as long.</summary>
    public static Vector<TSpace> operator *(double factor, Vector<TSpace> way) =>
        new(factor * way.DxMm, factor * way.DyMm);
}
