using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>From a panel's mm to a photo's pixels by a projective map: eight numbers, about the middles of both, in half diagonals. A lens's bend is not undone.</summary>
internal sealed class PanelPose
{
    private readonly double[] _h;
    private readonly Point<PanelSpace> _middle;
    private readonly double _halfMm;
    private readonly double _halfPx;

    private PanelPose(Box<PanelSpace> view, int widthPx, int heightPx, double[] numbers)
    {
        (View, WidthPx, HeightPx, _h) = (view, widthPx, heightPx, numbers);
        _middle = view.Centre;
        _halfMm = Math.Sqrt((view.WidthMm * view.WidthMm) + (view.HeightMm * view.HeightMm)) / 2;
        _halfPx = Math.Sqrt(((double)widthPx * widthPx) + ((double)heightPx * heightPx)) / 2;
    }

    /// <summary>The panel.</summary>
    public Box<PanelSpace> View { get; }

    public int WidthPx { get; }

    public int HeightPx { get; }

    /// <summary>The eight numbers.</summary>
    public double[] Values => _h;

    /// <summary>The panel's corners in the photo: upper left, upper right, lower right, lower left.</summary>
    public ImmutableArray<(double X, double Y)> Corners => [.. CornersOf(View).Select(Project)];

    /// <summary>How many pixels a mm has in the middle.</summary>
    public double PxPerMm => PxPerMmAt(_middle);

    /// <summary>Upper left, upper right, lower right, lower left.</summary>
    public static ImmutableArray<Point<PanelSpace>> CornersOf(Box<PanelSpace> view) =>
        [new(view.LeftMm, view.TopMm), new(view.RightMm, view.TopMm), new(view.RightMm, view.BottomMm), new(view.LeftMm, view.BottomMm)];

    /// <summary>The map that takes the panel's corners to places of the photo; null where there is none.</summary>
    public static PanelPose? Through(Box<PanelSpace> view, int widthPx, int heightPx, IReadOnlyList<(double X, double Y)> corners)
    {
        var none = new PanelPose(view, widthPx, heightPx, new double[8]);
        var (matrix, right) = (new double[8, 8], new double[8]);
        foreach (var (index, corner) in CornersOf(view).Index())
        {
            var (u, v) = none.Normal(corner);
            var (x, y) = ((corners[index].X - (widthPx / 2.0)) / none._halfPx, (corners[index].Y - (heightPx / 2.0)) / none._halfPx);
            Set(2 * index, [u, v, 1, 0, 0, 0, -x * u, -x * v], x);
            Set((2 * index) + 1, [0, 0, 0, u, v, 1, -y * u, -y * v], y);
        }

        return SmallSystem.Solve(matrix, right) is { } numbers && numbers.All(double.IsFinite) ? none.With(numbers) : null;

        void Set(int row, double[] factors, double value)
        {
            right[row] = value;
            for (var column = 0; column < 8; column++)
            {
                matrix[row, column] = factors[column];
            }
        }
    }

    /// <summary>The same panel and photo by other numbers.</summary>
    public PanelPose With(double[] numbers) => new(View, WidthPx, HeightPx, numbers);

    /// <summary>Where a place of the panel is seen.</summary>
    public (double X, double Y) Project(Point<PanelSpace> place)
    {
        var (u, v) = Normal(place);
        var w = (_h[6] * u) + (_h[7] * v) + 1;
        return ((WidthPx / 2.0) + (_halfPx * ((_h[0] * u) + (_h[1] * v) + _h[2]) / w), (HeightPx / 2.0) + (_halfPx * ((_h[3] * u) + (_h[4] * v) + _h[5]) / w));
    }

    /// <summary>How many pixels a mm has at a place, by the root of how areas change.</summary>
    public double PxPerMmAt(Point<PanelSpace> place)
    {
        var (x, y) = Project(place);
        var (right, up) = (Project(new(place.XMm + 0.5, place.YMm)), Project(new(place.XMm, place.YMm + 0.5)));
        return 2 * Math.Sqrt(Math.Abs(((right.X - x) * (up.Y - y)) - ((right.Y - y) * (up.X - x))));
    }

    /// <summary>How far a picture's light at a place changes with each number.</summary>
    /// <param name="place">The place.</param>
    /// <param name="alongX">How it changes with each pixel to the right.</param>
    /// <param name="alongY">How with each pixel down.</param>
    /// <param name="slopes">Takes eight slopes.</param>
    public void Slopes(Point<PanelSpace> place, double alongX, double alongY, Span<double> slopes)
    {
        var (u, v) = Normal(place);
        var w = (_h[6] * u) + (_h[7] * v) + 1;
        var (x, y) = (((_h[0] * u) + (_h[1] * v) + _h[2]) / w, ((_h[3] * u) + (_h[4] * v) + _h[5]) / w);
        var (byX, byY) = (alongX * _halfPx / w, alongY * _halfPx / w);
        var depth = -((byX * x) + (byY * y));
        ReadOnlySpan<double> all = [byX * u, byX * v, byX, byY * u, byY * v, byY, depth * u, depth * v];
        all.CopyTo(slopes);
    }

    /// <summary>How far apart the corners of two maps are at most, in pixels.</summary>
    public double DistancePx(PanelPose other) => Corners.Zip(other.Corners).Max(pair => Math.Sqrt(Math.Pow(pair.First.X - pair.Second.X, 2) + Math.Pow(pair.First.Y - pair.Second.Y, 2)));

    private (double U, double V) Normal(Point<PanelSpace> place) => ((place.XMm - _middle.XMm) / _halfMm, (place.YMm - _middle.YMm) / _halfMm);
}
