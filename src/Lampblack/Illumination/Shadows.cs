using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Illumination;

/// <summary>
/// Whether one place of the box sees another past the bodies. As bodies stand upright from the mask (depth 0) inwards, a ray can only meet one
/// on the stretch that is no deeper than the body; there it is cut with the footprint's edges.
/// </summary>
internal sealed class Shadows
{
    private const double Grazing = 1e-9;
    private const int FewBodies = 6;
    private const int CellsAcross = 32;

    private readonly ImmutableArray<Prism> _prisms;
    private readonly double _deepestMm;
    private readonly double _left;
    private readonly double _bottom;
    private readonly double _cell;
    private readonly int _columns;
    private readonly int _rows;
    private readonly int[][] _cells = [];

    public Shadows(IEnumerable<OpaqueBody> bodies)
    {
        _prisms = [.. bodies.Where(body => body.Corners.Length > 2 && body.DepthMm > 0).Select(body => new Prism(body))];
        _deepestMm = _prisms.IsEmpty ? 0 : _prisms.Max(prism => prism.DepthMm);
        if (_prisms.Length <= FewBodies)
        {
            return;
        }

        (_left, _bottom) = (_prisms.Min(prism => prism.Left), _prisms.Min(prism => prism.Bottom));
        var (width, height) = (_prisms.Max(prism => prism.Right) - _left, _prisms.Max(prism => prism.Top) - _bottom);
        _cell = Math.Max(width, height) / CellsAcross;
        (_columns, _rows) = ((int)(width / _cell) + 1, (int)(height / _cell) + 1);
        var lists = new List<int>[_columns * _rows];
        foreach (var (index, prism) in _prisms.Index())
        {
            for (var row = Row(prism.Bottom); row <= Row(prism.Top); row++)
            {
                for (var column = Column(prism.Left); column <= Column(prism.Right); column++)
                {
                    (lists[(row * _columns) + column] ??= []).Add(index);
                }
            }
        }

        _cells = [.. lists.Select(list => list?.ToArray() ?? [])];
    }

    /// <summary>Whether nothing stands anywhere.</summary>
    public bool IsEmpty => _prisms.IsEmpty;

    /// <summary>Whether a body stands between two places.</summary>
    public bool Block(Place from, Place to)
    {
        if (_prisms.IsEmpty)
        {
            return false;
        }

        // The stretch within reach of the deepest body, as shares of the way.
        var (start, end) = Reach(from.Z, to.Z, _deepestMm);
        if (end - start <= Grazing)
        {
            return false;
        }

        if (_cells.Length == 0)
        {
            var ray = new Ray(from, to);
            foreach (var prism in _prisms)
            {
                if (prism.Blocks(ray))
                {
                    return true;
                }
            }

            return false;
        }

        return Walk(from, to, start, end);
    }

    /// <summary>Goes from cell to cell along the way (Amanatides and Woo 1987).</summary>
    private bool Walk(Place from, Place to, double start, double end)
    {
        var ray = new Ray(from, to);
        var (dx, dy) = (ray.Dx, ray.Dy);
        var (x, y) = (from.X + (start * dx), from.Y + (start * dy));
        var (column, row) = ((int)Math.Floor((x - _left) / _cell), (int)Math.Floor((y - _bottom) / _cell));
        var (stepX, stepY) = (Math.Sign(dx), Math.Sign(dy));
        var deltaX = stepX == 0 ? double.PositiveInfinity : _cell / Math.Abs(dx);
        var deltaY = stepY == 0 ? double.PositiveInfinity : _cell / Math.Abs(dy);
        var nextX = stepX == 0 ? double.PositiveInfinity : start + ((_left + ((column + (stepX > 0 ? 1 : 0)) * _cell) - x) / dx);
        var nextY = stepY == 0 ? double.PositiveInfinity : start + ((_bottom + ((row + (stepY > 0 ? 1 : 0)) * _cell) - y) / dy);
        while (true)
        {
            if (column >= 0 && column < _columns && row >= 0 && row < _rows)
            {
                foreach (var index in _cells[(row * _columns) + column])
                {
                    if (_prisms[index].Blocks(ray))
                    {
                        return true;
                    }
                }
            }

            if (Math.Min(nextX, nextY) > end)
            {
                return false;
            }

            if (nextX < nextY)
            {
                (column, nextX) = (column + stepX, nextX + deltaX);
            }
            else
            {
                (row, nextY) = (row + stepY, nextY + deltaY);
            }
        }
    }

    private int Column(double x) => Math.Clamp((int)((x - _left) / _cell), 0, _columns - 1);

    private int Row(double y) => Math.Clamp((int)((y - _bottom) / _cell), 0, _rows - 1);

    private static (double Start, double End) Reach(double fromZ, double toZ, double depth) => (fromZ <= depth, toZ <= depth) switch
    {
        (true, true) => (0, 1),
        (true, false) => (0, (depth - fromZ) / (toZ - fromZ)),
        (false, true) => ((depth - fromZ) / (toZ - fromZ), 1),
        _ => (1, 0),
    };

    /// <summary>A way with what is asked of it again and again.</summary>
    private readonly struct Ray(Place from, Place to)
    {
        public readonly Place From = from;
        public readonly double ToZ = to.Z;
        public readonly double Dx = to.X - from.X;
        public readonly double Dy = to.Y - from.Y;
        public readonly double PerDx = 1 / (to.X - from.X);
        public readonly double PerDy = 1 / (to.Y - from.Y);
    }

    private sealed class Prism
    {
        private readonly (double NormalX, double NormalY, double Limit)[] _edges;

        // Most bodies lie square to the panel: there each pair of edges is one division, and that is done once for a ray.
        private readonly bool _isSquare;

        public Prism(OpaqueBody body)
        {
            var corners = body.Corners;
            var area = corners.Select((corner, index) => (corner, next: corners[(index + 1) % corners.Length])).Sum(edge => (edge.corner.XMm * edge.next.YMm) - (edge.next.XMm * edge.corner.YMm));
            var turn = area > 0 ? 1 : -1;
            _edges = [.. corners.Select((corner, index) =>
            {
                var next = corners[(index + 1) % corners.Length];
                var (x, y) = (turn * (next.YMm - corner.YMm), -turn * (next.XMm - corner.XMm));
                return (x, y, (x * corner.XMm) + (y * corner.YMm));
            })];
            (Left, Right) = (corners.Min(corner => corner.XMm), corners.Max(corner => corner.XMm));
            (Bottom, Top) = (corners.Min(corner => corner.YMm), corners.Max(corner => corner.YMm));
            DepthMm = body.DepthMm;
            _isSquare = corners.Length == 4 && corners.All(corner => (corner.XMm == Left || corner.XMm == Right) && (corner.YMm == Bottom || corner.YMm == Top));
        }

        public double DepthMm { get; }

        public double Left { get; }

        public double Right { get; }

        public double Bottom { get; }

        public double Top { get; }

        public bool Blocks(in Ray ray)
        {
            var (start, end) = Reach(ray.From.Z, ray.ToZ, DepthMm);
            return end - start > Grazing && (_isSquare ? BlocksSquare(ray, start, end) : BlocksAny(ray, start, end));
        }

        private bool BlocksSquare(in Ray ray, double start, double end) =>
            Within(ray.From.X, ray.Dx, ray.PerDx, Left, Right, ref start, ref end) && Within(ray.From.Y, ray.Dy, ray.PerDy, Bottom, Top, ref start, ref end);

        private static bool Within(double from, double way, double perWay, double low, double high, ref double start, ref double end)
        {
            if (way == 0)
            {
                return from > low && from < high;
            }

            var (first, second) = ((low - from) * perWay, (high - from) * perWay);
            start = Math.Max(start, Math.Min(first, second));
            end = Math.Min(end, Math.Max(first, second));
            return end - start > Grazing;
        }

        private bool BlocksAny(in Ray ray, double start, double end)
        {
            foreach (var (normalX, normalY, limit) in _edges)
            {
                var outside = (normalX * ray.From.X) + (normalY * ray.From.Y) - limit;
                var along = (normalX * ray.Dx) + (normalY * ray.Dy);
                if (along == 0)
                {
                    if (outside >= 0)
                    {
                        return false;
                    }
                }
                else if (along > 0)
                {
                    end = Math.Min(end, -outside / along);
                }
                else
                {
                    start = Math.Max(start, -outside / along);
                }

                if (end - start <= Grazing)
                {
                    return false;
                }
            }

            return true;
        }
    }
}
