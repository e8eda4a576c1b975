using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Threading.Tasks;
using Lampblack.Bitmaps;
using Lampblack.Geometry;

namespace Lampblack.Imaging;

/// <summary>Shapes as set and clear dots: a dot is set where its middle lies inside. Whole numbers and comparisons only decide, so every machine sets the same dots.</summary>
public static class RegionDots
{
    private const int RowsAtOnce = 256;

    /// <summary>Draws a region.</summary>
    /// <param name="region">The shape; parts outside the picture are left out.</param>
    /// <param name="toDots">Where its places lie in the picture.</param>
    /// <param name="widthDots">Dots in a row; at least 1.</param>
    /// <param name="heightDots">Rows; at least 1.</param>
    /// <typeparam name="TSpace">The space of the region.</typeparam>
    public static BitRaster Of<TSpace>(Region<TSpace> region, Affine<TSpace, DotSpace> toDots, int widthDots, int heightDots)
        where TSpace : struct, ISpace
    {
        ArgumentNullException.ThrowIfNull(region);
        ArgumentNullException.ThrowIfNull(toDots);
        var into = new BitRasterBuilder(widthDots, heightDots);
        var bands = Sides(region, toDots, heightDots);
        Parallel.For(0, bands.Length, band => Fill(into, bands[band] ?? [], band * RowsAtOnce));
        return into.ToRaster();
    }

    /// <summary>The sides by the band of rows that they cross.</summary>
    private static ImmutableArray<List<Side>?> Sides<TSpace>(Region<TSpace> region, Affine<TSpace, DotSpace> toDots, int heightDots)
        where TSpace : struct, ISpace
    {
        var bands = new List<Side>?[(heightDots + RowsAtOnce - 1) / RowsAtOnce];
        foreach (var border in region.Borders())
        {
            var last = toDots.Apply(border.Points[^1]);
            foreach (var point in border.Points)
            {
                var next = toDots.Apply(point);
                var side = Side.Between(last, next, heightDots);
                last = next;
                for (var band = side.FirstRow / RowsAtOnce; side.FirstRow < side.EndRow && band <= (side.EndRow - 1) / RowsAtOnce; band++)
                {
                    (bands[band] ??= []).Add(side);
                }
            }
        }

        return [.. bands];
    }

    /// <summary>Fills a band between crossings, the first with the second, the third with the fourth.</summary>
    private static void Fill(BitRasterBuilder into, List<Side> sides, int firstRow)
    {
        var count = Math.Min(RowsAtOnce, into.HeightDots - firstRow);
        var crossings = new List<double>[count];
        foreach (var side in sides)
        {
            for (var row = Math.Max(side.FirstRow, firstRow); row < Math.Min(side.EndRow, firstRow + count); row++)
            {
                (crossings[row - firstRow] ??= []).Add(side.At(row));
            }
        }

        for (var index = 0; index < count; index++)
        {
            if (crossings[index] is not { } across)
            {
                continue;
            }

            across.Sort();
            for (var pair = 0; pair + 1 < across.Count; pair += 2)
            {
                var (start, end) = (Column(across[pair], into.WidthDots), Column(across[pair + 1], into.WidthDots));
                if (start < end)
                {
                    into.SetRun(firstRow + index, start, end);
                }
            }
        }
    }

    /// <summary>The first column whose middle lies at a place or right of it.</summary>
    private static int Column(double x, int widthDots) => (int)Math.Clamp(Math.Ceiling(x - 0.5), 0, widthDots);

    /// <summary>A side and the rows whose middles it crosses: its upper end counts, its lower one belongs to the next side.</summary>
    private readonly record struct Side(double X, double Y, double Slope, int FirstRow, int EndRow)
    {
        public static Side Between(Point<DotSpace> from, Point<DotSpace> to, int heightDots)
        {
            var (upper, lower) = from.YMm <= to.YMm ? (from, to) : (to, from);
            var first = (int)Math.Clamp(Math.Ceiling(upper.YMm - 0.5), 0, heightDots);
            var end = (int)Math.Clamp(Math.Ceiling(lower.YMm - 0.5), 0, heightDots);
            return new(upper.XMm, upper.YMm, first < end ? (lower.XMm - upper.XMm) / (lower.YMm - upper.YMm) : 0, first, end);
        }

        public double At(int row) => X + (Slope * (row + 0.5 - Y));
    }
}
