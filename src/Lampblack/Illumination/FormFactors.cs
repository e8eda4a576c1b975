using System;
using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using System.Threading;
using System.Threading.Tasks;

namespace Lampblack.Illumination;

/// <summary>Of every facet the share that another sees of it, past the bodies.</summary>
/// <remarks>
/// Two facets exchange the same area times share both ways, and in a closed box what a facet sees adds up to 1: both hold exactly here, as rounding and
/// the few places looked from would else make light or lose it, bounce after bounce.
/// </remarks>
internal static class FormFactors
{
    /// <summary>Farther than so many sizes what hides two facets from each other is looked at from two quarters instead of four: over 404 x 281 mm with 400 bodies that changed no legend's light by more than 0.3 %.</summary>
    public const double HalfSizes = 8;

    private const int Balancings = 12;

    /// <summary>For every facet the shares of all.</summary>
    public static float[][] Of(ImmutableArray<Facet> facets, Shadows shadows, Looks looks, CancellationToken cancellation)
    {
        var count = facets.Length;
        var exchange = new float[count][];
        var between = new FacetExchange(facets, looks);
        var shared = new ParallelOptions { CancellationToken = cancellation };
        Parallel.For(0, count, shared, index => exchange[index] = between.Row(index));
        Balance(facets, exchange, cancellation);
        if (!shadows.IsEmpty)
        {
            Parallel.For(0, count, shared, index => Hide(facets, index, shadows, looks, exchange));
        }

        Parallel.For(0, count, shared, index =>
        {
            var (row, areaMm2) = (exchange[index], (float)facets[index].AreaMm2);
            for (var other = 0; other < row.Length; other++)
            {
                row[other] /= areaMm2;
            }
        });
        return exchange;
    }

    /// <summary>Of every facet but the mask's, which come first, the share that a small place of the mask sees of it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static float[] FromMask(ImmutableArray<Facet> facets, int maskFacets, ImmutableArray<FacetBlock> blocks, Place place, Shadows shadows, Looks looks)
    {
        var shares = new float[facets.Length - maskFacets];
        float sum = 0;
        for (var other = 0; other < shares.Length; other++)
        {
            shares[other] = (float)facets[maskFacets + other].SeenFrom(place, new(0, 0, 1), looks.PolygonSizes);
            sum += shares[other];
        }

        foreach (var block in blocks)
        {
            float? together = shadows.IsEmpty ? 1 : (block.Centre - place).Length > block.FarMm ? (shadows.Block(place, block.Centre) ? 0 : 1) : null;
            foreach (var other in block.Facets)
            {
                shares[other - maskFacets] *= (together ?? OpenTo(facets[other], place, shadows)) / sum;
            }
        }

        return shares;
    }

    private static float OpenTo(Facet facet, Place place, Shadows shadows)
    {
        if ((facet.Centre - place).Length > FacetExchange.NearSizes * facet.SizeMm)
        {
            return shadows.Block(place, facet.Centre) ? 0 : 1;
        }

        var open = 0;
        foreach (var quarter in facet.Quarters)
        {
            open += shadows.Block(place, quarter) ? 0 : 1;
        }

        return open / 4f;
    }

    /// <summary>Makes each facet's sum its area without taking the symmetry away (Sinkhorn and Knopp 1967, for a symmetric matrix): each gets a factor, which stands for its row and its column.</summary>
    private static void Balance(ImmutableArray<Facet> facets, float[][] exchange, CancellationToken cancellation)
    {
        var shared = new ParallelOptions { CancellationToken = cancellation };
        var (factors, before) = (new float[exchange.Length], new float[exchange.Length]);
        Array.Fill(factors, 1);
        for (var round = 0; round < Balancings; round++)
        {
            (factors, before) = (before, factors);
            Parallel.For(0, exchange.Length, shared, index =>
                factors[index] = (float)(before[index] * Math.Sqrt(facets[index].AreaMm2 / (before[index] * LightProduct.Of(exchange[index], before)))));
        }

        Parallel.For(0, exchange.Length, shared, one =>
        {
            var row = exchange[one];
            for (var other = 0; other < row.Length; other++)
            {
                row[other] *= factors[one] * factors[other];
            }
        });
    }

    /// <summary>Takes away what bodies hide of a facet and each later one, of both rows.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Hide(ImmutableArray<Facet> facets, int index, Shadows shadows, Looks looks, float[][] exchange)
    {
        var (facet, row) = (facets[index], exchange[index]);
        for (var other = index + 1; other < row.Length; other++)
        {
            if (facets[other].Side != facet.Side)
            {
                row[other] *= OpenShare(facet, facets[other], shadows, looks);
                exchange[other][index] = row[other];
            }
        }
    }

    /// <summary>Which share of the rays between two facets is free. From afar the ways beside each other say nearly the same, and there are many such pairs.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static float OpenShare(Facet facet, Facet other, Shadows shadows, Looks looks)
    {
        var sizes = (other.Centre - facet.Centre).Length / Math.Max(facet.SizeMm, other.SizeMm);
        if (sizes > looks.MiddleSizes)
        {
            return shadows.Block(facet.Centre, other.Centre) ? 0 : 1;
        }

        var (free, ways) = (0, 0);
        for (var quarter = 0; quarter < 4; quarter += sizes > HalfSizes ? 2 : 1)
        {
            free += shadows.Block(facet.Quarters[quarter], other.Quarters[quarter]) ? 0 : 1;
            ways++;
            if (sizes <= looks.CrosswiseSizes)
            {
                free += shadows.Block(facet.Quarters[quarter], other.Quarters[(quarter + 2) % 4]) ? 0 : 1;
                ways++;
            }
        }

        return (float)free / ways;
    }
}
