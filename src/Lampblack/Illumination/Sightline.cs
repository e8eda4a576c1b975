using System;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Lanes = System.Runtime.Intrinsics.Vector256<float>;

namespace Lampblack.Illumination;

/// <summary>A way from one place of the box to another, with what is asked of it again and again; places on it are shares of its length.</summary>
internal readonly struct Sightline
{
    /// <summary>What touches a body on a shorter share of the way than this only grazes it.</summary>
    public const double Grazing = 1e-9;

    /// <summary>A way that moves less than this is tried with boxes as if it moved so much, which is far less than they are larger than bodies.</summary>
    private const float LeastMm = 1e-9f;

    private readonly Place _to;
    private readonly float _startX;
    private readonly float _startY;
    private readonly float _startZ;
    private readonly float _perX;
    private readonly float _perY;
    private readonly float _perZ;
    private readonly bool _isInwards;

    public Sightline(Place from, Place to)
    {
        From = from;
        _to = to;
        (X, Y) = (to.X - from.X, to.Y - from.Y);
        (_startX, _startY, _startZ) = ((float)from.X, (float)from.Y, (float)from.Z);
        (_perX, _perY, _perZ) = (Per(X), Per(Y), Per(to.Z - from.Z));
        _isInwards = to.Z >= from.Z;
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

    /// <summary>Which of eight boxes it may go through, bit by bit; those that it goes through are among them.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public uint Near(in EightBoxes boxes)
    {
        var (start, end) = (Lanes.Zero, Lanes.One);
        var deep = (boxes.DepthMm - Vector256.Create(_startZ)) * _perZ;
        if (_isInwards)
        {
            end = Vector256.MinNative(end, deep);
        }
        else
        {
            start = Vector256.MaxNative(start, deep);
        }

        var (x, y) = (Vector256.Create(_startX), Vector256.Create(_startY));
        var (left, right) = ((boxes.LeftMm - x) * _perX, (boxes.RightMm - x) * _perX);
        var (bottom, top) = ((boxes.BottomMm - y) * _perY, (boxes.TopMm - y) * _perY);
        start = Vector256.MaxNative(start, Vector256.MaxNative(Vector256.MinNative(left, right), Vector256.MinNative(bottom, top)));
        end = Vector256.MinNative(end, Vector256.MinNative(Vector256.MaxNative(left, right), Vector256.MaxNative(bottom, top)));
        return Vector256.LessThanOrEqual(start, end).ExtractMostSignificantBits();
    }

    private static float Per(double way) => 1 / (Math.Abs(way) < LeastMm ? (way < 0 ? -LeastMm : LeastMm) : (float)way);
}
