using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Geometry;
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

    private LightContours(double[] xs, double[] ys, double[,] factors) => (_xs, _ys, _factors) = (xs, ys, factors);

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

        return new(xs, ys, factors);
    }

    /// <summary>Where the light is more than so many times the mean; between places that were looked up it changes evenly.</summary>
    public Region<PanelSpace> MoreThan(double factor)
    {
        var pieces = new List<Region<PanelSpace>>();
        for (var row = 0; row + 1 < _ys.Length; row++)
        {
            // Squares that are in as a whole are joined along their row.
            var from = 0;
            for (var column = 0; column + 1 < _xs.Length; column++)
            {
                var corners = Corners(column, row);
                if (corners.All(corner => corner.Factor > factor))
                {
                    continue;
                }

                Add(from, column);
                from = column + 1;
                if (corners.Any(corner => corner.Factor > factor))
                {
                    pieces.Add(Region<PanelSpace>.FromCorners([.. Cut(corners, factor)]));
                }
            }

            Add(from, _xs.Length - 1);

            void Add(int first, int end)
            {
                if (end > first)
                {
                    pieces.Add(Region<PanelSpace>.Rectangle(new(_xs[first], _ys[row], _xs[end] - _xs[first], _ys[row + 1] - _ys[row])));
                }
            }
        }

        return Region<PanelSpace>.Union(pieces.Where(piece => !piece.IsEmpty));
    }

    private static int Count(double lengthMm, double stepMm) => Math.Max(1, (int)Math.Round(lengthMm / stepMm, MidpointRounding.AwayFromZero));

    private static double[] Along(double from, double lengthMm, int count) =>
        [from, .. Enumerable.Range(0, count).Select(index => from + ((index + 0.5) * lengthMm / count)), from + lengthMm];

    private (Point<PanelSpace> At, double Factor)[] Corners(int column, int row) =>
    [
        (new(_xs[column], _ys[row]), _factors[column, row]),
        (new(_xs[column + 1], _ys[row]), _factors[column + 1, row]),
        (new(_xs[column + 1], _ys[row + 1]), _factors[column + 1, row + 1]),
        (new(_xs[column], _ys[row + 1]), _factors[column, row + 1]),
    ];

    /// <summary>What of a square is in: its corners that are, and where its sides are crossed.</summary>
    private static IEnumerable<Point<PanelSpace>> Cut((Point<PanelSpace> At, double Factor)[] corners, double factor)
    {
        for (var index = 0; index < corners.Length; index++)
        {
            var (here, next) = (corners[index], corners[(index + 1) % corners.Length]);
            if (here.Factor > factor)
            {
                yield return here.At;
            }

            if (here.Factor > factor != next.Factor > factor)
            {
                // Always from the left or from below, so that both squares that share a side cross it in the same place.
                var (low, high) = here.At.XMm + here.At.YMm < next.At.XMm + next.At.YMm ? (here, next) : (next, here);
                yield return low.At + ((factor - low.Factor) / (high.Factor - low.Factor) * (high.At - low.At));
            }
        }
    }
}
