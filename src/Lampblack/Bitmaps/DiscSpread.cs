using System;
using System.Threading.Tasks;

namespace Lampblack.Bitmaps;

/// <summary>Sets every dot that has a set one within a disc around it.</summary>
/// <remarks>
/// A disc is a stack of horizontal runs, shorter from row to row outwards. A longer run is a shorter one widened, so the rows are joined from the longest chord to
/// the shortest, and what is joined so far is widened by the difference each time: no row is widened more than once for all longer chords, and nothing is kept but
/// the row in the making. Dots beyond the picture's edges count as clear.
/// </remarks>
internal sealed class DiscSpread(BitRaster source, Disc disc)
{
    /// <summary>Rows that a core takes at a time.</summary>
    private const int BandRows = 64;

    private readonly ulong[] _clear = new ulong[source.Stride];

    /// <param name="cores">How many cores work on it; 0 for all.</param>
    public BitRaster Spread(int cores)
    {
        var result = new BitRasterBuilder(source.WidthDots, source.HeightDots);
        var bands = (source.HeightDots + BandRows - 1) / BandRows;
        if (cores == 1)
        {
            Rows(result.Filling, 0, source.HeightDots);
        }
        else
        {
            Parallel.For(0, bands, new ParallelOptions { MaxDegreeOfParallelism = cores == 0 ? -1 : cores }, band =>
                Rows(result.Filling, band * BandRows, Math.Min(source.HeightDots, (band + 1) * BandRows)));
        }

        return result.ToRaster();
    }

    private void Rows(ulong[] result, int first, int end)
    {
        var work = new WideRow(source.Stride);
        for (var row = first; row < end; row++)
        {
            Row(work, row);
            work.Dots.CopyTo(result.AsSpan(row * source.Stride));
        }
    }

    private void Row(WideRow work, int row)
    {
        var chords = disc.HalfChords;
        work.Start(Above(row, 0), Below(row, 0));
        for (var distance = 1; distance < chords.Length; distance++)
        {
            work.Widen(chords[distance - 1] - chords[distance], Above(row, distance), Below(row, distance));
        }

        work.Widen(chords[^1], _clear, _clear);
        if (disc.Corner != 0)
        {
            work.Double(disc.Corner);
        }
    }

    private ReadOnlySpan<ulong> Above(int row, int distance) => RowOrClear(row - distance - (disc.Corner < 0 ? 1 : 0));

    private ReadOnlySpan<ulong> Below(int row, int distance) => RowOrClear(row + distance + (disc.Corner > 0 ? 1 : 0));

    private ReadOnlySpan<ulong> RowOrClear(int row) =>
        row < 0 || row >= source.HeightDots ? _clear : source.Words.Slice(row * source.Stride, source.Stride);
}
