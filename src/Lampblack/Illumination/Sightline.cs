using System;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Lanes = System.Runtime.Intrinsics.Vector256<double>;

namespace Lampblack.Illumination;

/// <summary>A way from one place of the box to another, with what is asked of it again and again; places on it are shares of its length.</summary>
internal readonly struct Sightline
{
    /// <summary>What touches a body on a shorter share of the way than this only grazes it.</summary>
    public const double Grazing = 1e-9;

    /// <summary>Less than this to a side, and the way doesn't move to that side.</summary>
    private const double StraightMm = 1e-12;

    private readonly Place _to;
    private readonly double _perX;
    private readonly double _perY;

    public Sightline(Place from, Place to)
    {
        From = from;
        _to = to;
        (X, Y) = (to.X - from.X, to.Y - from.Y);
        (_perX, _perY) = (1 / X, 1 / Y);
    }

    public Place From { get; }

    public double X { get; }

    public double Y { get; }

    /// <summary>The stretch that is no deeper than so many mm; none where the end isn't beyond the start.</summary>
    public (double Start, double End) Reach(double depthMm) => (From.Z <= depthMm, _to.Z <= depthMm) switch
    {
        (true, true) => Math.Min(From.Z, _to.Z) < depthMm ? (0, 1) : (1, 0),
        (true, false) => (0, (depthMm - From.Z) / (_to.Z - From.Z)),
        (false, true) => ((depthMm - From.Z) / (_to.Z - From.Z), 1),
        _ => (1, 0),
    };

    /// <summary>Which of four boxes it goes through, bit by bit.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public uint Through(in FourBoxes boxes)
    {
        var (start, end) = (Lanes.Zero, Lanes.One);
        var z = _to.Z - From.Z;
        if (z > 0)
        {
            end = Vector256.MinNative(end, (boxes.DepthMm - Vector256.Create(From.Z)) / Vector256.Create(z));
        }
        else if (z < 0)
        {
            start = Vector256.MaxNative(start, (boxes.DepthMm - Vector256.Create(From.Z)) / Vector256.Create(z));
        }
        else
        {
            start = Vector256.ConditionalSelect(Vector256.LessThan(Vector256.Create(From.Z), boxes.DepthMm), start, end);
        }

        Within(From.X, X, _perX, boxes.LeftMm, boxes.RightMm, ref start, ref end);
        Within(From.Y, Y, _perY, boxes.BottomMm, boxes.TopMm, ref start, ref end);
        return Vector256.GreaterThan(end - start, Vector256.Create(Grazing)).ExtractMostSignificantBits();
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Within(double from, double way, double perWay, Lanes low, Lanes high, ref Lanes start, ref Lanes end)
    {
        var place = Vector256.Create(from);
        if (Math.Abs(way) < StraightMm)
        {
            end = Vector256.ConditionalSelect(Vector256.GreaterThan(place, low) & Vector256.LessThan(place, high), end, start);
            return;
        }

        var per = Vector256.Create(perWay);
        var (first, second) = ((low - place) * per, (high - place) * per);
        start = Vector256.MaxNative(start, Vector256.MinNative(first, second));
        end = Vector256.MinNative(end, Vector256.MaxNative(first, second));
    }
}
