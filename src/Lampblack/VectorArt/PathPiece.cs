using System;
using System.Collections.Generic;

namespace Lampblack.VectorArt;

/// <summary>A straight or curved (cubic) piece of a path.</summary>
/// <param name="IsStraight">Whether both control points mean nothing.</param>
/// <param name="From">First point.</param>
/// <param name="First">First control point.</param>
/// <param name="Second">Second control point.</param>
/// <param name="To">Last point.</param>
/// <param name="EndsCommand">Whether a command of the path ends here; arcs are several pieces, but have markers only at their ends.</param>
internal readonly record struct PathPiece(bool IsStraight, Spot From, Spot First, Spot Second, Spot To, bool EndsCommand)
{
    /// <summary>Whether it is only a point.</summary>
    public bool IsPoint => From == To && (IsStraight || (First == From && Second == From));

    /// <summary>The way it sets out, of length 1; where control points coincide, the next one tells (SVG 1.1, F.5).</summary>
    public Spot StartWay => IsStraight ? (To - From).Unit() : FirstOf(First - From, Second - From, To - From);

    /// <summary>The way it arrives, of length 1.</summary>
    public Spot EndWay => IsStraight ? (To - From).Unit() : FirstOf(To - Second, To - First, To - From);

    public static PathPiece Line(Spot from, Spot to) => new(true, from, from, to, to, true);

    public PathPiece Map(Matrix map) => new(IsStraight, map.Apply(From), map.Apply(First), map.Apply(Second), map.Apply(To), EndsCommand);

    public Spot At(double t)
    {
        if (IsStraight)
        {
            return Spot.Between(From, To, t);
        }

        var u = 1 - t;
        return (u * u * u * From) + (3 * u * u * t * First) + (3 * u * t * t * Second) + (t * t * t * To);
    }

    /// <summary>The part between two shares, by de Casteljau's halving of control polygons.</summary>
    public PathPiece Part(double from, double to)
    {
        if (IsStraight)
        {
            return Line(At(from), At(to));
        }

        var first = Spot.Between(From, First, to);
        var middle = Spot.Between(First, Second, to);
        var left = new PathPiece(false, From, first, Spot.Between(first, middle, to), At(to), EndsCommand);
        var back = from / to;
        var last = Spot.Between(left.Second, left.To, back);
        middle = Spot.Between(left.First, left.Second, back);
        return left with { From = At(from), First = Spot.Between(middle, last, back), Second = last };
    }

    /// <summary>Chords needed to miss the curve by at most an error: |B''| is at most 6 times the larger second difference, and n chords miss by |B''| / (8 n^2).</summary>
    public int Chords(double error)
    {
        if (IsStraight)
        {
            return 1;
        }

        var bend = Math.Max((From - (2 * First) + Second).Length, (First - (2 * Second) + To).Length);
        return (int)Math.Clamp(Math.Ceiling(Math.Sqrt(bend * 0.75 / error)), 1, 1000);
    }

    /// <summary>All turning of the control polygon, in radians: at least that of the curve.</summary>
    public double Turning()
    {
        if (IsStraight)
        {
            return 0;
        }

        double sum = 0;
        Spot before = default;
        foreach (var way in (ReadOnlySpan<Spot>)[First - From, Second - First, To - Second])
        {
            if (way.Length > 0)
            {
                sum += before.Length > 0 ? Math.Abs(Math.Atan2(Spot.Cross(before, way), Spot.Dot(before, way))) : 0;
                before = way;
            }
        }

        return sum;
    }

    private static Spot FirstOf(Spot first, Spot second, Spot third) =>
        first.Length > 0 ? first.Unit() : second.Length > 0 ? second.Unit() : third.Unit();
}

/// <summary>A run of pieces, each beginning where the one before ended.</summary>
/// <param name="Start">Its first point.</param>
/// <param name="Pieces">The pieces; a closed one's last piece ends at the start. None where only a point was named.</param>
/// <param name="IsClosed">Whether it was closed on purpose.</param>
internal sealed record Trail(Spot Start, List<PathPiece> Pieces, bool IsClosed);
