using System;
using System.Runtime.CompilerServices;
using System.Threading.Tasks;
using Lampblack.Bitmaps;

namespace Lampblack.PictureArt;

/// <summary>
/// Asks each neighbourhood of a picture where it would put the border by itself, and finds the dots where that differs from the border of the whole:
/// shadows and glare of scans and photographs.
/// </summary>
internal sealed class LocalLight
{
    private const int Steps = 32;
    private const double LeastContrast = 24;
    private const double LeastSeparability = 0.8;
    private const double LeastMinority = 0.005;

    private readonly GainPlane _plane;
    private readonly GainHistogram.Valley _valley;
    private readonly int _tile;
    private readonly int _columns;
    private readonly int _rows;
    private readonly int[] _counts;

    private LocalLight(GainPlane plane, GainHistogram.Valley valley)
    {
        (_plane, _valley) = (plane, valley);
        _tile = Math.Clamp(Math.Min(plane.Width, plane.Height) / 16, 16, 64);
        (_columns, _rows) = ((plane.Width + _tile - 1) / _tile, (plane.Height + _tile - 1) / _tile);
        _counts = new int[_columns * _rows * Steps];
    }

    /// <summary>The dots that belong to the other side by their neighbourhood's light.</summary>
    public static BitRaster Differing(GainPlane plane, GainHistogram.Valley valley)
    {
        var local = new LocalLight(plane, valley);
        Parallel.For(0, local._rows, local.Count);
        var whole = new double[Steps];
        for (var index = 0; index < local._counts.Length; index++)
        {
            whole[index % Steps] += local._counts[index];
        }

        var bits = new BitRasterBuilder(plane.Width, plane.Height);
        Parallel.For(0, local._rows, row =>
        {
            for (var column = 0; column < local._columns; column++)
            {
                if (local.Border(column, row, whole) is { } border)
                {
                    local.Mark(column, row, border, bits);
                }
            }
        });
        return bits.ToRaster();
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Count(int tileRow)
    {
        for (var row = tileRow * _tile; row < Math.Min((tileRow + 1) * _tile, _plane.Height); row++)
        {
            var gains = _plane.Row(row);
            for (var column = 0; column < _columns; column++)
            {
                var counts = _counts.AsSpan(((tileRow * _columns) + column) * Steps, Steps);
                foreach (var gain in gains[(column * _tile)..Math.Min((column + 1) * _tile, gains.Length)])
                {
                    counts[gain >> 3]++;
                }
            }
        }
    }

    /// <summary>The border of a tile and its eight neighbours, where there is a clear one that is far from that of the whole.</summary>
    private int? Border(int column, int row, double[] whole)
    {
        Span<double> around = stackalloc double[Steps];
        around.Clear();
        for (var y = Math.Max(0, row - 1); y <= Math.Min(_rows - 1, row + 1); y++)
        {
            for (var x = Math.Max(0, column - 1); x <= Math.Min(_columns - 1, column + 1); x++)
            {
                var counts = _counts.AsSpan(((y * _columns) + x) * Steps, Steps);
                for (var step = 0; step < Steps; step++)
                {
                    around[step] += counts[step];
                }
            }
        }

        var parts = Otsu.Of(around);
        var minority = Math.Min(parts.HighShare, 1 - parts.HighShare);
        if (parts.Separability < LeastSeparability || (parts.High - parts.Low) * 8 < LeastContrast || minority < LeastMinority)
        {
            return null;
        }

        var border = (int)(((parts.Low + parts.High) * 4) + 4);
        if (Math.Abs(border - _valley.Threshold) <= 0.25 * (_valley.Lit - _valley.Field))
        {
            return null;
        }

        // A flat light grey beside white, in a drawing, is no shadow: it occurs as one sharp peak.
        return border > _valley.Threshold && IsPeak(parts.Low, whole) ? null : border;
    }

    private static bool IsPeak(double step, double[] whole)
    {
        var middle = (int)(step + 0.5);
        var (near, around) = (0.0, 0.0);
        for (var index = Math.Max(0, middle - 5); index <= Math.Min(Steps - 1, middle + 5); index++)
        {
            around += whole[index];
            near += Math.Abs(index - middle) <= 1 ? whole[index] : 0;
        }

        return near > 0.7 * around;
    }

    private void Mark(int column, int row, int border, BitRasterBuilder bits)
    {
        var (from, to) = (Math.Min(border, _valley.Threshold), Math.Max(border, _valley.Threshold) - 1);
        for (var y = row * _tile; y < Math.Min((row + 1) * _tile, _plane.Height); y++)
        {
            var gains = _plane.Row(y);
            var words = bits.Row(y);
            for (var x = column * _tile; x < Math.Min((column + 1) * _tile, _plane.Width); x++)
            {
                if (gains[x] >= from && gains[x] <= to)
                {
                    words[x / 64] |= 1UL << (x % 64);
                }
            }
        }
    }
}
