using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>
/// A panel as it ought to look and a photo of it, both softened alike. Roots of the light are compared, so that one bright legend does not outweigh the others;
/// exposure and glow are free.
/// </summary>
internal sealed class PanelLevel
{
    private const int Unknowns = 10;
    private const int MostRounds = 15;

    private readonly List<(Point<PanelSpace> Place, double Wanted)> _places = [];
    private readonly SoftPicture _seen;
    private readonly double _dark;

    /// <summary>Softens both.</summary>
    /// <param name="picture">How the panel ought to look.</param>
    /// <param name="photo">The photo's light.</param>
    /// <param name="dark">The photo's light where nothing shines.</param>
    /// <param name="softMm">Standard deviation of the softening.</param>
    /// <param name="pxPerMm">The photo's scale.</param>
    public PanelLevel(LitPicture picture, SoftPicture photo, double dark, double softMm, double pxPerMm)
    {
        _dark = dark;
        _seen = photo.Soft(softMm * pxPerMm);
        var wanted = picture.Light.Soft(softMm / picture.MmPerDot);
        var (view, step) = (picture.View, softMm / 1.3);
        var (columns, rows) = ((int)(view.WidthMm / step), (int)(view.HeightMm / step));
        for (var row = 0; row < rows; row++)
        {
            for (var column = 0; column < columns; column++)
            {
                var place = new Point<PanelSpace>(view.LeftMm + ((column + 0.5) * view.WidthMm / columns), view.BottomMm + ((row + 0.5) * view.HeightMm / rows));
                var (x, y) = picture.Dot(place);
                if (picture.Tells(place) && wanted.At(x, y) is var light && double.IsFinite(light))
                {
                    _places.Add((place, Math.Sqrt(light)));
                }
            }
        }
    }

    /// <summary>How alike they are under a map: the correlation of the roots, 1 for the same.</summary>
    public double Correlation(PanelPose pose)
    {
        double sumA = 0, sumB = 0, sumAa = 0, sumBb = 0, sumAb = 0;
        foreach (var (place, wanted) in _places)
        {
            var (x, y) = pose.Project(place);
            var seen = Root(x, y);
            sumA += wanted;
            sumB += seen;
            sumAa += wanted * wanted;
            sumBb += seen * seen;
            sumAb += wanted * seen;
        }

        var count = _places.Count;
        var spread = ((count * sumAa) - (sumA * sumA)) * ((count * sumBb) - (sumB * sumB));
        return spread > 0 ? ((count * sumAb) - (sumA * sumB)) / Math.Sqrt(spread) : 0;
    }

    /// <summary>Raises the correlation step by step (damped least squares over the map's numbers, exposure and glow).</summary>
    public (PanelPose Pose, double Correlation) Refine(PanelPose start)
    {
        var (pose, best, damping) = (start, Correlation(start), 1e-3);
        for (var round = 0; round < MostRounds; round++)
        {
            var (matrix, right) = Equations(pose);
            var gain = 0.0;
            for (var attempt = 0; attempt < 6; attempt++)
            {
                var damped = (double[,])matrix.Clone();
                for (var index = 0; index < Unknowns - 2; index++)
                {
                    damped[index, index] *= 1 + damping;
                }

                if (SmallSystem.Solve(damped, right) is { } change)
                {
                    var next = pose.With([.. pose.Values.Select((value, index) => value + change[index])]);
                    var correlation = Correlation(next);
                    if (correlation > best)
                    {
                        (gain, pose, best, damping) = (correlation - best, next, correlation, damping / 5);
                        break;
                    }
                }

                damping *= 8;
            }

            if (gain < 1e-6)
            {
                break;
            }
        }

        return (pose, best);
    }

    private double Root(double x, double y) => _seen.At(x, y) is var light && light > _dark ? Math.Sqrt(light - _dark) : 0;

    private (double[,] Matrix, double[] Right) Equations(PanelPose pose)
    {
        var (matrix, right) = (new double[Unknowns, Unknowns], new double[Unknowns]);
        var apart = (double)_seen.DotSize;
        Span<double> row = stackalloc double[Unknowns];
        foreach (var (place, wanted) in _places)
        {
            var (x, y) = pose.Project(place);
            pose.Slopes(place, (Root(x - apart, y) - Root(x + apart, y)) / (2 * apart), (Root(x, y - apart) - Root(x, y + apart)) / (2 * apart), row);
            (row[^2], row[^1]) = (wanted, 1);
            var seen = Root(x, y);
            for (var i = 0; i < Unknowns; i++)
            {
                right[i] += row[i] * seen;
                for (var j = 0; j <= i; j++)
                {
                    matrix[i, j] += row[i] * row[j];
                }
            }
        }

        for (var i = 0; i < Unknowns; i++)
        {
            for (var j = i + 1; j < Unknowns; j++)
            {
                matrix[i, j] = matrix[j, i];
            }
        }

        return (matrix, right);
    }
}
