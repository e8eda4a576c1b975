using System;

namespace Lampblack.Geometry;

/// <summary>
/// A map between two spaces that keeps straight lines straight:
/// x' = Xx x + Xy y + XMm, y' = Yx x + Yy y + YMm. Positive turns are counter-clockwise, as y points up.
/// </summary>
/// <typeparam name="TFrom">The space of what is given.</typeparam>
/// <typeparam name="TTo">The space of what comes out.</typeparam>
/// <param name="Xx">Share of x in x'.</param>
/// <param name="Xy">Share of y in x'.</param>
/// <param name="XMm">Shift of x', in mm.</param>
/// <param name="Yx">Share of x in y'.</param>
/// <param name="Yy">Share of y in y'.</param>
/// <param name="YMm">Shift of y', in mm.</param>
public sealed record Affine<TFrom, TTo>(double Xx, double Xy, double XMm, double Yx, double Yy, double YMm)
    where TFrom : struct, ISpace
    where TTo : struct, ISpace
{
    /// <summary>The map that changes no number, only the space.</summary>
    public static Affine<TFrom, TTo> Identity { get; } = new(1, 0, 0, 0, 1, 0);

    /// <summary>How areas change; negative where the map mirrors.</summary>
    public double Determinant => (Xx * Yy) - (Xy * Yx);

    /// <summary>A shift.</summary>
    public static Affine<TFrom, TTo> Shift(double xMm, double yMm) => new(1, 0, xMm, 0, 1, yMm);

    /// <summary>A turn about the origin, counter-clockwise; exact for multiples of 90 degrees.</summary>
    public static Affine<TFrom, TTo> Turn(double degrees)
    {
        var (sine, cosine) = SineAndCosine(degrees);
        return new(cosine, -sine, 0, sine, cosine, 0);
    }

    /// <summary>A change of size about the origin.</summary>
    public static Affine<TFrom, TTo> Scale(double xFactor, double yFactor) => new(xFactor, 0, 0, 0, yFactor, 0);

    /// <summary>Where a point goes.</summary>
    public Point<TTo> Apply(Point<TFrom> point) => new(
        (Xx * point.XMm) + (Xy * point.YMm) + XMm,
        (Yx * point.XMm) + (Yy * point.YMm) + YMm);

    /// <summary>This map, then another.</summary>
    public Affine<TFrom, TNext> Then<TNext>(Affine<TTo, TNext> next)
        where TNext : struct, ISpace
    {
        ArgumentNullException.ThrowIfNull(next);
        return new(
            (next.Xx * Xx) + (next.Xy * Yx),
            (next.Xx * Xy) + (next.Xy * Yy),
            (next.Xx * XMm) + (next.Xy * YMm) + next.XMm,
            (next.Yx * Xx) + (next.Yy * Yx),
            (next.Yx * Xy) + (next.Yy * Yy),
            (next.Yx * XMm) + (next.Yy * YMm) + next.YMm);
    }

    /// <summary>The map back.</summary>
    /// <exception cref="InvalidOperationException">The map flattens everything to a line, so there is no way back.</exception>
    public Affine<TTo, TFrom> Inverse()
    {
        var determinant = Determinant;
        if (Math.Abs(determinant) < 1e-12)
        {
            throw new InvalidOperationException("a map that flattens areas to nothing has no inverse");
        }

        return new(
            Yy / determinant,
            -Xy / determinant,
            ((Xy * YMm) - (Yy * XMm)) / determinant,
            -Yx / determinant,
            Xx / determinant,
            ((Yx * XMm) - (Xx * YMm)) / determinant);
    }

    private static (double Sine, double Cosine) SineAndCosine(double degrees)
    {
        var turn = degrees % 360;
        return (turn < 0 ? turn + 360 : turn) switch
        {
            0 => (0, 1),
            90 => (1, 0),
            180 => (0, -1),
            270 => (-1, 0),
            _ => (Math.Sin(turn * Math.PI / 180), Math.Cos(turn * Math.PI / 180)),
        };
    }
}
