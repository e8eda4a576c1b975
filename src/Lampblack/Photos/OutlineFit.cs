using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Numerics;

namespace Lampblack.Photos;

/// <summary>Fits an ellipse to a round edge, and says whether it is one.</summary>
internal static class OutlineFit
{
    private const int Rays = 48;

    /// <summary>The ellipse through the edge's points; null where there is no round edge.</summary>
    /// <param name="light">The photo.</param>
    /// <param name="guess">About where it is.</param>
    /// <param name="bright">Whether it is bright inside.</param>
    public static Ellipse? Refine(LightPlane light, Ellipse guess, bool bright)
    {
        for (var round = 0; round < 2; round++)
        {
            var points = Edge(light, guess, bright);
            if (points.Count < Rays * 3 / 4 || Fit(guess, points) is not { } better)
            {
                return null;
            }

            guess = better;
        }

        return guess;
    }

    private static List<(double U, double V)> Edge(LightPlane light, Ellipse guess, bool bright)
    {
        const double From = 0.72;
        const double To = 1.22;
        var points = new List<(double, double)>();
        var steps = Math.Clamp((int)(guess.Size * (To - From) * 2), 8, 200);
        var profile = new double[steps + 1];
        for (var ray = 0; ray < Rays; ray++)
        {
            var (sine, cosine) = Math.SinCos(ray * 2 * Math.PI / Rays);
            for (var step = 0; step <= steps; step++)
            {
                var r = From + ((To - From) * step / steps);
                var (x, y) = guess.At(r * cosine, r * sine);
                profile[step] = light.At(x, y);
            }

            if (profile.Any(double.IsNaN))
            {
                continue;
            }

            var (inside, outside) = (bright ? profile.Take(steps / 2).Max() : profile.Take(steps / 2).Min(), bright ? profile.Skip(steps / 2).Min() : profile.Skip(steps / 2).Max());
            if (bright ? inside < 1.5 * outside : outside < 1.5 * inside)
            {
                continue;
            }

            var half = (inside + outside) / 2;
            for (var step = 0; step < steps; step++)
            {
                if (bright ? profile[step] >= half && profile[step + 1] < half : profile[step] <= half && profile[step + 1] > half)
                {
                    var r = From + ((To - From) * (step + ((profile[step] - half) / (profile[step] - profile[step + 1]))) / steps);
                    points.Add((r * cosine, r * sine));
                    break;
                }
            }
        }

        return points;
    }

    /// <summary>In the guess's frame the edge is nearly the unit circle: a conic u^2 A + uv B + v^2 C + uD + vE = 1.</summary>
    private static Ellipse? Fit(Ellipse guess, List<(double U, double V)> points)
    {
        var normal = new double[5, 5];
        var right = new double[5];
        foreach (var (u, v) in points)
        {
            double[] row = [u * u, u * v, v * v, u, v];
            for (var i = 0; i < 5; i++)
            {
                right[i] += row[i];
                for (var j = 0; j < 5; j++)
                {
                    normal[i, j] += row[i] * row[j];
                }
            }
        }

        if (SmallSystem.Solve(normal, right) is not [var a, var b, var c, var d, var e])
        {
            return null;
        }

        var det = (4 * a * c) - (b * b);
        if (det <= 0 || a <= 0)
        {
            return null;
        }

        var (x, y) = (((b * e) - (2 * c * d)) / det, ((b * d) - (2 * a * e)) / det);
        var size = 1 + (a * x * x) + (b * x * y) + (c * y * y);

        // Q = [[a, b/2], [b/2, c]] / size; the ellipse's matrix is the root of its inverse.
        var (qa, qb, qc) = (a / size, b / 2 / size, c / size);
        var q = (qa * qc) - (qb * qb);
        if (q <= 0)
        {
            return null;
        }

        var (ia, ib, ic) = (qc / q, -qb / q, qa / q);
        var root = Math.Sqrt((ia * ic) - (ib * ib));
        var trace = Math.Sqrt(ia + ic + (2 * root));
        var (ma, mb, mc) = ((ia + root) / trace, ib / trace, (ic + root) / trace);

        // Round: points lie within some hundredths of it.
        var off = points.Average(point =>
        {
            var (du, dv) = (point.U - x, point.V - y);
            return Math.Abs(Math.Sqrt((qa * du * du) + (2 * qb * du * dv) + (qc * dv * dv)) - 1);
        });
        if (off > 0.06 || ma is < 0.5 or > 1.6 || mc is < 0.5 or > 1.6 || Math.Abs(x) > 0.4 || Math.Abs(y) > 0.4)
        {
            return null;
        }

        var (cx, cy) = guess.At(x, y);
        return new(
            cx, cy,
            (guess.Ax * ma) + (guess.Bx * mb), (guess.Ay * ma) + (guess.By * mb),
            (guess.Ax * mb) + (guess.Bx * mc), (guess.Ay * mb) + (guess.By * mc));
    }
}
