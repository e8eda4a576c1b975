using System;

namespace Lampblack.VectorArt;

/// <summary>x' = A x + C y + E, y' = B x + D y + F: the order in which SVG writes them (SVG 1.1, 7.4).</summary>
internal readonly record struct Matrix(double A, double B, double C, double D, double E, double F)
{
    public static Matrix Identity { get; } = new(1, 0, 0, 1, 0, 0);

    public double Determinant => (A * D) - (B * C);

    public bool IsFinite =>
        double.IsFinite(A) && double.IsFinite(B) && double.IsFinite(C) && double.IsFinite(D) && double.IsFinite(E) && double.IsFinite(F);

    /// <summary>Whether some area is left of an area: enough to draw with.</summary>
    public bool KeepsAreas => IsFinite && Math.Abs(Determinant) > 1e-12 * Largest * Largest && Largest > 1e-12;

    /// <summary>How many times as long the most stretched way gets (the larger singular value).</summary>
    public double Largest
    {
        get
        {
            var sum = (A * A) + (B * B) + (C * C) + (D * D);
            var difference = Math.Sqrt(Math.Pow((A * A) + (B * B) - (C * C) - (D * D), 2) + (4 * Math.Pow((A * C) + (B * D), 2)));
            return Math.Sqrt((sum + difference) / 2);
        }
    }

    public static Matrix Shift(double x, double y) => new(1, 0, 0, 1, x, y);

    public static Matrix Scale(double x, double y) => new(x, 0, 0, y, 0, 0);

    public static Matrix Turn(double degrees)
    {
        var (sine, cosine) = (degrees % 360) switch
        {
            0 => (0.0, 1.0),
            90 or -270 => (1, 0),
            180 or -180 => (0, -1),
            270 or -90 => (-1, 0),
            _ => Math.SinCos(degrees * Math.PI / 180),
        };
        return new(cosine, sine, -sine, cosine, 0, 0);
    }

    /// <summary>The map that does <paramref name="inner"/> first, as a transform inside another one.</summary>
    public static Matrix operator *(Matrix outer, Matrix inner) => new(
        (outer.A * inner.A) + (outer.C * inner.B),
        (outer.B * inner.A) + (outer.D * inner.B),
        (outer.A * inner.C) + (outer.C * inner.D),
        (outer.B * inner.C) + (outer.D * inner.D),
        (outer.A * inner.E) + (outer.C * inner.F) + outer.E,
        (outer.B * inner.E) + (outer.D * inner.F) + outer.F);

    public Spot Apply(Spot spot) => new((A * spot.X) + (C * spot.Y) + E, (B * spot.X) + (D * spot.Y) + F);

    /// <summary>Where a way goes; shifts do not matter.</summary>
    public Spot ApplyToWay(Spot way) => new((A * way.X) + (C * way.Y), (B * way.X) + (D * way.Y));

    /// <summary>The way back; only where <see cref="KeepsAreas"/>.</summary>
    public Matrix Inverse()
    {
        var determinant = Determinant;
        return new(
            D / determinant,
            -B / determinant,
            -C / determinant,
            A / determinant,
            ((C * F) - (D * E)) / determinant,
            ((B * E) - (A * F)) / determinant);
    }
}
