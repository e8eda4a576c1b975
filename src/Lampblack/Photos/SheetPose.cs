using System;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>
/// From a photo's pixels to the sheet's mm and back: the lens is straightened about its middle by 1 + k1 r^2 + k2 r^4 + k3 r^6 (r in half diagonals), then a homography follows.
/// The lens model of D. C. Brown, Photogrammetric Engineering 37 (1971) 855-866, radial part, from seen to straight.
/// </summary>
internal sealed class SheetPose
{
    private const double UnitMm = 100;

    private readonly double[] _p;
    private readonly double[,] _back;
    private readonly double _midX;
    private readonly double _midY;
    private readonly double _half;

    /// <summary>Eight numbers of the homography from straightened pixels to the sheet, the lens's middle, and k1 to k3.</summary>
    public SheetPose(double[] numbers, int widthPx, int heightPx)
    {
        _p = numbers;
        (WidthPx, HeightPx) = (widthPx, heightPx);
        (_midX, _midY) = (widthPx / 2.0, heightPx / 2.0);
        _half = Math.Sqrt((_midX * _midX) + (_midY * _midY));
        _back = SmallSystem.Invert(new[,] { { _p[0], _p[1], _p[2] }, { _p[3], _p[4], _p[5] }, { _p[6], _p[7], 1 } }) ?? new double[3, 3];
    }

    public int WidthPx { get; }

    public int HeightPx { get; }

    public double[] Values => _p;

    /// <summary>The homography from the sheet (mm) to straightened pixels about the lens's middle, in half diagonals.</summary>
    public double[,] ToStraight
    {
        get
        {
            var h = new double[3, 3];
            for (var column = 0; column < 3; column++)
            {
                var factor = column < 2 ? 1 / UnitMm : 1;
                h[0, column] = (_back[0, column] - (_p[8] * _back[2, column])) * factor;
                h[1, column] = (_back[1, column] - (_p[9] * _back[2, column])) * factor;
                h[2, column] = _back[2, column] * factor;
            }

            return h;
        }
    }

    /// <summary>The same pose for a sheet whose mm are so many times as large.</summary>
    public SheetPose Times(double factor) => new([.. _p.Select((number, index) => index < 6 ? number * factor : number)], WidthPx, HeightPx);

    /// <summary>Half the photo's diagonal, in pixels.</summary>
    public double HalfPx => _half;

    /// <summary>Whether the photo shows the sheet mirrored, that is, from behind. Its y goes downwards, so that the front has a negative determinant.</summary>
    public bool IsFromBehind
    {
        get
        {
            var a = Unproject(_midX, _midY);
            return Cross(Unproject(_midX + 1, _midY) - a, Unproject(_midX, _midY + 1) - a) > 0;
        }
    }

    public (double U, double V) Normal(double x, double y) => ((x - _midX) / _half, (y - _midY) / _half);

    public Point<SheetSpace> Unproject(double x, double y)
    {
        var (u, v) = Straight((x - _midX) / _half, (y - _midY) / _half);
        var w = (_p[6] * u) + (_p[7] * v) + 1;
        return new(((_p[0] * u) + (_p[1] * v) + _p[2]) / w * UnitMm, ((_p[3] * u) + (_p[4] * v) + _p[5]) / w * UnitMm);
    }

    public (double X, double Y) Project(Point<SheetSpace> place)
    {
        var (x, y) = (place.XMm / UnitMm, place.YMm / UnitMm);
        var w = (_back[2, 0] * x) + (_back[2, 1] * y) + _back[2, 2];
        var (u, v) = ((((_back[0, 0] * x) + (_back[0, 1] * y) + _back[0, 2]) / w) - _p[8], (((_back[1, 0] * x) + (_back[1, 1] * y) + _back[1, 2]) / w) - _p[9]);
        var straight = Math.Sqrt((u * u) + (v * v));
        var seen = straight;
        for (var step = 0; step < 8 && straight > 0; step++)
        {
            var square = seen * seen;
            var change = ((seen * (1 + (square * (_p[10] + (square * (_p[11] + (square * _p[12]))))))) - straight) / (1 + (square * ((3 * _p[10]) + (square * ((5 * _p[11]) + (7 * square * _p[12]))))));
            seen -= change;
            if (Math.Abs(change) < 1e-10)
            {
                break;
            }
        }

        var factor = straight > 0 ? seen / straight : 1;
        return (_midX + (((u * factor) + _p[8]) * _half), _midY + (((v * factor) + _p[9]) * _half));
    }

    /// <summary>How many pixels a mm has at a place, by the square root of how areas change.</summary>
    public double PxPerMm(Point<SheetSpace> place)
    {
        var (x, y) = Project(place);
        var right = Project(new(place.XMm + 0.5, place.YMm));
        var up = Project(new(place.XMm, place.YMm + 0.5));
        return 2 * Math.Sqrt(Math.Abs(((right.X - x) * (up.Y - y)) - ((right.Y - y) * (up.X - x))));
    }

    private (double U, double V) Straight(double u, double v)
    {
        var (du, dv) = (u - _p[8], v - _p[9]);
        var square = (du * du) + (dv * dv);
        var factor = 1 + (square * (_p[10] + (square * (_p[11] + (square * _p[12])))));
        return (_p[8] + (du * factor), _p[9] + (dv * factor));
    }

    private static double Cross(Vector<SheetSpace> first, Vector<SheetSpace> second) => (first.DxMm * second.DyMm) - (first.DyMm * second.DxMm);
}
