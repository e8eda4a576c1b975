using System;

namespace Lampblack.Tests.Illumination;

/// <summary>
/// A box lit by following single rays of light, for the tests: it knows nothing of facets and form factors. Walls throw back evenly in all directions
/// (cosine-distributed); upright boxes that hang from z = 0 swallow what meets them. Its own generator, so that a seed gives the same result everywhere.
/// </summary>
internal sealed class PathTracer(double width, double height, double depth, double wall, double floor, double mask, (double Left, double Bottom, double Right, double Top, double Depth)[] bodies, ulong seed)
{
    private ulong _state = seed;

    /// <summary>Share of all light that arrives in each cell of the mask, counted every time it arrives; and the sum of all arrivals on any side.</summary>
    public (double[,] Cells, double Arrivals) Run(double x, double y, int rays, int columns, int rows)
    {
        var cells = new double[columns, rows];
        double arrivals = 0;
        for (var ray = 0; ray < rays; ray++)
        {
            var (px, py, pz) = (x, y, depth);
            var (dx, dy, dz) = Cosine(0, 0, -1);
            while (true)
            {
                var (distance, nx, ny, nz) = Wall(px, py, pz, dx, dy, dz);
                if (Meets(px, py, pz, dx, dy, dz, distance))
                {
                    break;
                }

                (px, py, pz) = (px + (distance * dx), py + (distance * dy), pz + (distance * dz));
                arrivals++;
                if (nz > 0)
                {
                    cells[Math.Clamp((int)(px / width * columns), 0, columns - 1), Math.Clamp((int)(py / height * rows), 0, rows - 1)]++;
                }

                if (Next() >= (nz > 0 ? mask : nz < 0 ? floor : wall))
                {
                    break;
                }

                (dx, dy, dz) = Cosine(nx, ny, nz);
            }
        }

        for (var column = 0; column < columns; column++)
        {
            for (var row = 0; row < rows; row++)
            {
                cells[column, row] /= rays;
            }
        }

        return (cells, arrivals / rays);
    }

    private (double Distance, double Nx, double Ny, double Nz) Wall(double px, double py, double pz, double dx, double dy, double dz)
    {
        var best = (Distance: double.PositiveInfinity, 0.0, 0.0, 0.0);
        Try(dx, px, width, 1, 0, 0);
        Try(dy, py, height, 0, 1, 0);
        Try(dz, pz, depth, 0, 0, 1);
        return best;

        void Try(double d, double p, double size, double nx, double ny, double nz)
        {
            var distance = d > 0 ? (size - p) / d : d < 0 ? -p / d : double.PositiveInfinity;
            if (distance < best.Distance)
            {
                var sign = d > 0 ? -1 : 1;
                best = (Math.Max(0, distance), sign * nx, sign * ny, sign * nz);
            }
        }
    }

    private bool Meets(double px, double py, double pz, double dx, double dy, double dz, double farthest)
    {
        foreach (var body in bodies)
        {
            var (near, far) = (0.0, farthest);
            Slab(px, dx, body.Left, body.Right);
            Slab(py, dy, body.Bottom, body.Top);
            Slab(pz, dz, 0, body.Depth);
            if (far - near > 1e-9)
            {
                return true;
            }

            void Slab(double p, double d, double low, double high)
            {
                if (d == 0)
                {
                    far = p > low && p < high ? far : -1;
                    return;
                }

                var (first, second) = ((low - p) / d, (high - p) / d);
                near = Math.Max(near, Math.Min(first, second));
                far = Math.Min(far, Math.Max(first, second));
            }
        }

        return false;
    }

    /// <summary>A direction about a normal along one axis.</summary>
    private (double X, double Y, double Z) Cosine(double nx, double ny, double nz)
    {
        var (radius, angle) = (Math.Sqrt(Next()), 2 * Math.PI * Next());
        var (a, b, c) = (radius * Math.Cos(angle), radius * Math.Sin(angle), Math.Sqrt(Math.Max(0, 1 - (radius * radius))));
        return nx != 0 ? (nx * c, a, b) : ny != 0 ? (a, ny * c, b) : (a, b, nz * c);
    }

    /// <summary>SplitMix64 (Steele, Lea, Flood 2014).</summary>
    private double Next()
    {
        _state += 0x9E3779B97F4A7C15;
        var z = _state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return ((z ^ (z >> 31)) >> 11) * (1.0 / (1UL << 53));
    }
}
