using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Geometry;
using Lampblack.Imaging;
using Lampblack.Lighting;

namespace Lampblack.Jobs;

/// <summary>Light behind the mask all over a panel, as so many times its mean over the legends; and where it is at least so much.</summary>
internal sealed class LightContours
{
    /// <summary>From one place that is looked up to the next.</summary>
    private const double StepMm = 4;

    /// <summary>More places than this take longer than a drawing may.</summary>
    private const int MostPlaces = 12_000;

    // The outermost places stand on the walls, with the light of those beside them.
    private readonly double[] _xs;
    private readonly double[] _ys;
    private readonly double[,] _factors;

    private LightContours(double[] xs, double[] ys, double[,] factors, double meanLux) => (_xs, _ys, _factors, MeanLux) = (xs, ys, factors, meanLux);

    /// <summary>The mean over the legends.</summary>
    public double MeanLux { get; }

    /// <summary>The same for pictures.</summary>
    public LightMap Map
    {
        get
        {
            var (columns, rows) = (_xs.Length - 2, _ys.Length - 2);
            var view = new Box<PanelSpace>(_xs[1], _ys[1], _xs[columns] - _xs[1], _ys[rows] - _ys[1]);
            return new(view, columns, rows, [.. from row in Enumerable.Range(1, rows) from column in Enumerable.Range(1, columns) select (float)_factors[column, row]]);
        }
    }

    /// <summary>Where lines are drawn: half, the mean, twice, and the geometric means between.</summary>
    public static ImmutableArray<double> Steps { get; } = [0.5, 0.7, 1, 1.4, 2];

    /// <summary>Looks the light up; null where the common light has no emitters.</summary>
    /// <param name="panel">The panel.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static LightContours? Of(PanelLighting panel, CancellationToken cancellation)
    {
        if (panel.Emitters.IsEmpty)
        {
            return null;
        }

        var inside = panel.Light.Box.Inside;
        var step = Math.Max(StepMm, Math.Sqrt(inside.WidthMm * inside.HeightMm / MostPlaces));
        var (columns, rows) = (Count(inside.WidthMm, step), Count(inside.HeightMm, step));
        var (xs, ys) = (Along(inside.LeftMm, inside.WidthMm, columns), Along(inside.BottomMm, inside.HeightMm, rows));
        ImmutableArray<Point<PanelSpace>> places = [.. from row in Enumerable.Range(1, rows) from column in Enumerable.Range(1, columns) select new Point<PanelSpace>(xs[column], ys[row])];
        var lux = panel.Light.Lux(panel.Emitters, places, cancellation);
        var mean = panel.HasGeneral ? panel.Legends.Average(legend => legend.Lux) : lux.Average();
        var factors = new double[columns + 2, rows + 2];
        for (var column = 0; column < columns + 2; column++)
        {
            for (var row = 0; row < rows + 2; row++)
            {
                factors[column, row] = mean > 0 ? lux[((Math.Clamp(row, 1, rows) - 1) * columns) + Math.Clamp(column, 1, columns) - 1] / mean : 0;
            }
        }

        return new(xs, ys, factors, mean);
    }

    /// <summary>Where the light is more than so many times the mean; between places that were looked up it changes evenly.</summary>
    public Region<PanelSpace> MoreThan(double factor)
    {
        // Every square gives stretches of the border, the inside to their left, from one of its crossed sides to another; end to end they make rings.
        // A ring of squares without width around all closes the border where the panel ends.
        var stretches = new Dictionary<Side, Side>();
        for (var row = -1; row < _ys.Length; row++)
        {
            for (var column = -1; column < _xs.Length; column++)
            {
                AddStretches(column, row, factor, stretches);
            }
        }

        var rings = new List<Outline<PanelSpace>>();
        while (stretches.Count > 0)
        {
            var points = ImmutableArray.CreateBuilder<Point<PanelSpace>>();
            var side = stretches.Keys.First();
            while (stretches.Remove(side, out var next))
            {
                points.Add(Crossed(side, factor));
                side = next;
            }

            rings.Add(new(points.ToImmutable(), true));
        }

        return Region<PanelSpace>.FromOutlines(rings);
    }

    private void AddStretches(int column, int row, double factor, Dictionary<Side, Side> stretches)
    {
        Node[] corners = [new(column, row), new(column + 1, row), new(column + 1, row + 1), new(column, row + 1)];
        bool[] isIn = [.. corners.Select(corner => FactorAt(corner) > factor)];
        for (var index = 0; index < 4; index++)
        {
            if (!isIn[index] || isIn[(index + 1) % 4])
            {
                continue;
            }

            // Out through this side; in again through the next one that leads in.
            var back = Enumerable.Range(index + 1, 3).First(next => !isIn[next % 4] && isIn[(next + 1) % 4]);
            stretches.Add(Side.Of(corners[index], corners[(index + 1) % 4]), Side.Of(corners[back % 4], corners[(back + 1) % 4]));
        }
    }

    /// <summary>Where a side is crossed.</summary>
    private Point<PanelSpace> Crossed(Side side, double factor)
    {
        var (low, high) = (FactorAt(side.Low), FactorAt(side.High));
        var (from, to) = (At(side.Low), At(side.High));
        return from + ((factor - low) / (high - low) * (to - from));
    }

    private Point<PanelSpace> At(Node node) => new(_xs[Math.Clamp(node.Column, 0, _xs.Length - 1)], _ys[Math.Clamp(node.Row, 0, _ys.Length - 1)]);

    private double FactorAt(Node node) =>
        node.Column < 0 || node.Row < 0 || node.Column >= _xs.Length || node.Row >= _ys.Length ? 0 : _factors[node.Column, node.Row];

    private static int Count(double lengthMm, double stepMm) => Math.Max(2, (int)Math.Round(lengthMm / stepMm, MidpointRounding.AwayFromZero));

    private static double[] Along(double from, double lengthMm, int count) =>
        [from, .. Enumerable.Range(0, count).Select(index => from + ((index + 0.5) * lengthMm / count)), from + lengthMm];

    private readonly record struct Node(int Column, int Row);

    /// <summary>A side of a square, always from the left or from below, so that both squares that share it mean the same.</summary>
    private readonly record struct Side(Node Low, Node High)
    {
        public static Side Of(Node first, Node second) => first.Column + first.Row < second.Column + second.Row ? new(first, second) : new(second, first);
    }
}
