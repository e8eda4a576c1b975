using System;

namespace Lampblack.Bitmaps;

/// <content>Spread and choke by exact discs.</content>
public sealed partial class BitRaster
{
    /// <summary>Sets every dot that has a set one within dx² + dy² &lt;= r², measured from middle to middle. Beyond the edges everything is clear.</summary>
    /// <param name="radiusDots">The radius, in any fraction of a dot; 0 changes nothing.</param>
    /// <param name="cores">How many cores work on it; 0 for all.</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is not a number from 0 up, or the cores are negative.</exception>
    public BitRaster Grow(double radiusDots, int cores = 0)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(cores);
        var disc = Disc.OfRadius(radiusDots, Math.Max(WidthDots, HeightDots));
        return disc.HalfChords is [0] ? this : new DiscSpread(this, disc).Spread(cores);
    }

    /// <summary>Keeps only dots all of whose neighbours within the radius are set: what <see cref="Grow"/> does to the clear dots.</summary>
    /// <param name="radiusDots">The radius, in any fraction of a dot; 0 changes nothing.</param>
    /// <param name="beyond">What counts as being beyond the edges.</param>
    /// <param name="cores">How many cores work on it; 0 for all.</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is not a number from 0 up, or the cores are negative.</exception>
    public BitRaster Shrink(double radiusDots, BeyondEdge beyond, int cores = 0)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(cores);
        var inside = Complement().Grow(radiusDots, cores).Complement();
        return beyond == BeyondEdge.Set ? inside : inside.WithoutFrame((int)Math.Min(radiusDots, Math.Max(WidthDots, HeightDots)));
    }

    /// <summary>The picture with all dots clear that are nearer to an edge than a number of dots: the nearest dot beyond is straight across it.</summary>
    private BitRaster WithoutFrame(int dots)
    {
        var result = new BitRasterBuilder(WidthDots, HeightDots);
        for (var row = dots; row < HeightDots - dots; row++)
        {
            var to = result.Row(row);
            Row(row).CopyTo(to);
            BitRuns.Write(to, 0, Math.Min(dots, WidthDots), set: false);
            BitRuns.Write(to, Math.Max(0, WidthDots - dots), WidthDots, set: false);
        }

        return result.ToRaster();
    }
}

/// <summary>What lies beyond the edges of a picture.</summary>
public enum BeyondEdge
{
    /// <summary>Nothing: shapes that reach an edge are shrunk from there too.</summary>
    Clear,

    /// <summary>More of the same: shapes that reach an edge go on beyond it and are not shrunk from there.</summary>
    Set,
}
