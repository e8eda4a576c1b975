using System;
using System.Collections.Generic;
using System.Linq;
using System.Numerics;
using Lampblack.Bitmaps;

namespace Lampblack.Tests.Bitmaps;

/// <summary>Pictures as plain arrays, worked on dot by dot: the truth that packed pictures are held to.</summary>
internal static class Grid
{
    public static bool[,] Random(Random random, int width, int height, double share)
    {
        var dots = new bool[width, height];
        for (var x = 0; x < width; x++)
        {
            for (var y = 0; y < height; y++)
            {
                dots[x, y] = random.NextDouble() < share;
            }
        }

        return dots;
    }

    public static bool[,] Of(params string[] rows)
    {
        var dots = new bool[rows[0].Length, rows.Length];
        for (var y = 0; y < rows.Length; y++)
        {
            for (var x = 0; x < rows[0].Length; x++)
            {
                dots[x, y] = rows[y][x] == '#';
            }
        }

        return dots;
    }

    public static BitRaster Pack(bool[,] dots)
    {
        var builder = new BitRasterBuilder(dots.GetLength(0), dots.GetLength(1));
        for (var x = 0; x < dots.GetLength(0); x++)
        {
            for (var y = 0; y < dots.GetLength(1); y++)
            {
                builder[x, y] = dots[x, y];
            }
        }

        return builder.ToRaster();
    }

    public static IEnumerable<string> Lines(bool[,] dots) => Enumerable.Range(0, dots.GetLength(1)).Select(y =>
        string.Concat(Enumerable.Range(0, dots.GetLength(0)).Select(x => dots[x, y] ? '#' : '.')));

    public static IEnumerable<string> Lines(BitRaster raster) => Enumerable.Range(0, raster.HeightDots).Select(y =>
        string.Concat(Enumerable.Range(0, raster.WidthDots).Select(x => raster[x, y] ? '#' : '.')));

    /// <summary>Every dot within the radius of a set one, by trying all pairs; the square of the radius is exact.</summary>
    public static bool[,] Grow(bool[,] dots, double radius)
    {
        var within = Disc(radius, Math.Max(dots.GetLength(0), dots.GetLength(1)));
        var grown = new bool[dots.GetLength(0), dots.GetLength(1)];
        for (var x = 0; x < dots.GetLength(0); x++)
        {
            for (var y = 0; y < dots.GetLength(1); y++)
            {
                if (dots[x, y])
                {
                    foreach (var (dx, dy) in within.Where(way => x + way.Dx >= 0 && x + way.Dx < dots.GetLength(0) && y + way.Dy >= 0 && y + way.Dy < dots.GetLength(1)))
                    {
                        grown[x + dx, y + dy] = true;
                    }
                }
            }
        }

        return grown;
    }

    /// <summary>Every set dot without a clear one within the radius; beyond the edges all are clear or all are set.</summary>
    public static bool[,] Shrink(bool[,] dots, double radius, bool beyond)
    {
        var within = Disc(radius, Math.Max(dots.GetLength(0), dots.GetLength(1)) + 1);
        var shrunk = new bool[dots.GetLength(0), dots.GetLength(1)];
        for (var x = 0; x < dots.GetLength(0); x++)
        {
            for (var y = 0; y < dots.GetLength(1); y++)
            {
                shrunk[x, y] = within.All(way => At(x + way.Dx, y + way.Dy));
            }
        }

        return shrunk;
        bool At(int x, int y) => x < 0 || y < 0 || x >= dots.GetLength(0) || y >= dots.GetLength(1) ? beyond : dots[x, y];
    }

    /// <summary>dx² + dy² &lt;= r² in whole numbers: a double is a whole number over a power of two.</summary>
    public static List<(int Dx, int Dy)> Disc(double radius, int most)
    {
        var bits = BitConverter.DoubleToInt64Bits(radius);
        var exponent = (int)((bits >> 52) & 0x7FF);
        BigInteger mantissa = (bits & 0xFFFFFFFFFFFFF) | (exponent == 0 ? 0 : 1L << 52);
        var power = Math.Max(exponent, 1) - 1075;
        var (square, over) = power >= 0 ? (BigInteger.Pow(mantissa << power, 2), BigInteger.One) : (mantissa * mantissa, BigInteger.One << (-2 * power));
        var reach = (int)Math.Min(most, radius + 1);
        return [.. from dx in Enumerable.Range(-reach, (2 * reach) + 1)
                   from dy in Enumerable.Range(-reach, (2 * reach) + 1)
                   where ((BigInteger)((dx * dx) + (dy * dy)) * over) <= square
                   select (dx, dy)];
    }
}
