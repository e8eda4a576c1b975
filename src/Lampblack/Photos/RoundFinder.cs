using System;
using System.Collections.Generic;
using System.Threading;
using System.Threading.Tasks;

namespace Lampblack.Photos;

/// <summary>Finds round spots, bright ones in dark or dark ones in bright, by the mean light around each dot of a smaller picture.</summary>
internal sealed class RoundFinder
{
    private const int WantedSide = 1500;
    private const int FewestDots = 40;

    private readonly byte[] _roots;
    private readonly int _width;
    private readonly int _height;
    private readonly int _square;
    private readonly byte[] _around;

    private RoundFinder(LightPlane light, CancellationToken cancellation)
    {
        _square = Math.Max(1, Math.Max(light.Width, light.Height) / WantedSide);
        (_roots, _width, _height) = light.Reduce(_square, cancellation);
        _around = Around(Math.Max(8, Math.Max(_width, _height) / 22), cancellation);
    }

    public static RoundFinder Of(LightPlane light, CancellationToken cancellation) => new(light, cancellation);

    /// <summary>Spots whose area and box go together as an ellipse's do, in pixels of the photo.</summary>
    public List<Ellipse> Find(bool bright)
    {
        var (labels, spots) = Spots(bright);
        _ = labels;
        var found = new List<Ellipse>();
        foreach (var spot in spots)
        {
            var (boxWidth, boxHeight) = (spot.Right - spot.Left + 1.0, spot.Bottom - spot.Top + 1.0);
            var fill = spot.Count / (boxWidth * boxHeight * Math.PI / 4);
            if (spot.Count < FewestDots || boxWidth > _width / 4.0 || boxHeight > _height / 4.0 || boxWidth / boxHeight is < 0.4 or > 2.5 || fill is < 0.55 or > 1.12
                || spot.Left == 0 || spot.Top == 0 || spot.Right == _width - 1 || spot.Bottom == _height - 1)
            {
                continue;
            }

            var (meanX, meanY) = (spot.SumX / spot.Count, spot.SumY / spot.Count);
            var (xx, xy, yy) = ((spot.SumXx / spot.Count) - (meanX * meanX), (spot.SumXy / spot.Count) - (meanX * meanY), (spot.SumYy / spot.Count) - (meanY * meanY));

            // A filled ellipse has a quarter of its half axes' squares as moments; its matrix is the root of four times these.
            var root = Math.Sqrt(Math.Max(0, (xx * yy) - (xy * xy)));
            var trace = Math.Sqrt(xx + yy + (2 * root));
            if (root <= 0 || trace <= 0)
            {
                continue;
            }

            var factor = 2 * _square / trace;
            found.Add(new(
                (spot.Left + spot.Right + 1) * 0.5 * _square, (spot.Top + spot.Bottom + 1) * 0.5 * _square,
                (xx + root) * factor, xy * factor, xy * factor, (yy + root) * factor));
        }

        return found;
    }

    private (int[] Labels, List<Spot> Spots) Spots(bool bright)
    {
        var labels = new int[_roots.Length];
        var spots = new List<Spot>();
        var open = new Stack<int>();
        for (var start = 0; start < _roots.Length; start++)
        {
            if (labels[start] != 0 || !IsOf(start, bright))
            {
                continue;
            }

            var spot = new Spot { Left = int.MaxValue, Top = int.MaxValue };
            spots.Add(spot);
            labels[start] = spots.Count;
            open.Push(start);
            while (open.TryPop(out var at))
            {
                var (x, y) = (at % _width, at / _width);
                spot.Add(x, y);
                Visit(at - 1, x > 0);
                Visit(at + 1, x < _width - 1);
                Visit(at - _width, y > 0);
                Visit(at + _width, y < _height - 1);
            }
        }

        return (labels, spots);

        void Visit(int at, bool isInside)
        {
            if (isInside && labels[at] == 0 && IsOf(at, bright))
            {
                labels[at] = spots.Count;
                open.Push(at);
            }
        }
    }

    private bool IsOf(int at, bool bright) => bright ? _roots[at] > _around[at] : _roots[at] < _around[at] * 0.8;

    /// <summary>The mean over a square of so many dots each way, by running sums.</summary>
    private byte[] Around(int reach, CancellationToken cancellation)
    {
        var along = new float[_roots.Length];
        var options = new ParallelOptions { CancellationToken = cancellation };
        Parallel.For(0, _height, options, row =>
        {
            var from = _roots.AsSpan(row * _width, _width);
            var to = along.AsSpan(row * _width, _width);
            var sum = 0;
            for (var x = 0; x < Math.Min(reach, _width); x++)
            {
                sum += from[x];
            }

            for (var x = 0; x < _width; x++)
            {
                sum += x + reach < _width ? from[x + reach] : 0;
                sum -= x - reach - 1 >= 0 ? from[x - reach - 1] : 0;
                to[x] = sum / (float)(Math.Min(_width - 1, x + reach) - Math.Max(0, x - reach) + 1);
            }
        });
        var means = new byte[_roots.Length];
        var sums = new double[_width];
        for (var y = -reach; y < _height; y++)
        {
            for (var x = 0; x < _width; x++)
            {
                sums[x] += y + reach < _height ? along[((y + reach) * _width) + x] : 0;
                sums[x] -= y - reach - 1 >= 0 ? along[((y - reach - 1) * _width) + x] : 0;
                if (y >= 0)
                {
                    means[(y * _width) + x] = (byte)(sums[x] / (Math.Min(_height - 1, y + reach) - Math.Max(0, y - reach) + 1));
                }
            }
        }

        return means;
    }

    private sealed class Spot
    {
        public int Count { get; private set; }

        public int Left { get; set; }

        public int Top { get; set; }

        public int Right { get; private set; }

        public int Bottom { get; private set; }

        public double SumX { get; private set; }

        public double SumY { get; private set; }

        public double SumXx { get; private set; }

        public double SumXy { get; private set; }

        public double SumYy { get; private set; }

        public void Add(int x, int y)
        {
            Count++;
            (Left, Right, Top, Bottom) = (Math.Min(Left, x), Math.Max(Right, x), Math.Min(Top, y), Math.Max(Bottom, y));
            (SumX, SumY, SumXx, SumXy, SumYy) = (SumX + x, SumY + y, SumXx + ((double)x * x), SumXy + ((double)x * y), SumYy + ((double)y * y));
        }
    }
}
