using System;

namespace Lampblack.VectorArt;

/// <summary>A place (or a way) in whatever coordinates an element of the file has; y points down there.</summary>
internal readonly record struct Spot(double X, double Y)
{
    public double Length => Math.Sqrt((X * X) + (Y * Y));

    public bool IsFinite => double.IsFinite(X) && double.IsFinite(Y);

    public static Spot operator +(Spot first, Spot second) => new(first.X + second.X, first.Y + second.Y);

    public static Spot operator -(Spot first, Spot second) => new(first.X - second.X, first.Y - second.Y);

    public static Spot operator *(double times, Spot way) => new(times * way.X, times * way.Y);

    public static double Cross(Spot first, Spot second) => (first.X * second.Y) - (first.Y * second.X);

    public static double Dot(Spot first, Spot second) => (first.X * second.X) + (first.Y * second.Y);

    /// <summary>The place a share of the way along.</summary>
    public static Spot Between(Spot from, Spot to, double share) => from + (share * (to - from));

    /// <summary>The way with length 1; zero stays zero.</summary>
    public Spot Unit() => Length is > 0 and var length ? (1 / length) * this : default;
}
