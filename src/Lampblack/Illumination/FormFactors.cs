using System;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;

namespace Lampblack.Illumination;

/// <summary>Of every facet the share that another sees of it, past the bodies.</summary>
/// <remarks>
/// Two facets exchange the same area times share both ways, and in a closed box what a facet sees adds up to 1: both hold exactly here, as rounding and
/// the few places looked from would else make light or lose it, bounce after bounce.
/// </remarks>
internal static class FormFactors
{
    /// <summary>Nearer than so many sizes a facet is looked at from four places instead of its middle.</summary>
    private const double NearSizes = 3;

    /// <summary>Farther than so many sizes what hides two facets from each other is looked at along fewer ways: over 404 x 281 mm with 400 bodies that changed no legend's light by more than 0.3 %.</summary>
    private const double FarSizes = 8;

    private const int Balancings = 12;

    /// <summary>Where two facets are joined by rays to see what is hidden: each quarter of one with a quarter of the other, and once more crosswise; from afar two quarters, straight across.</summary>
    private static readonly ImmutableArray<(double U, double V)> Quarters = [(-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)];

    /// <summary>For every facet the shares of all.</summary>
    public static float[][] Of(ImmutableArray<Facet> facets, Shadows shadows, CancellationToken cancellation)
    {
        var count = facets.Length;
        var exchange = ParallelEnumerable.Range(0, count).AsOrdered().WithCancellation(cancellation).Select(index => Exchanged(facets, index)).ToArray();
        for (var one = 0; one < count; one++)
        {
            for (var other = one + 1; other < count; other++)
            {
                exchange[one][other] = exchange[other][one] = (exchange[one][other] + exchange[other][one]) / 2;
            }
        }

        Balance(facets, exchange, cancellation);
        if (!shadows.IsEmpty)
        {
            var hidden = ParallelEnumerable.Range(0, count).AsOrdered().WithCancellation(cancellation).Select(index => Open(facets, index, shadows)).ToArray();
            for (var one = 0; one < count; one++)
            {
                for (var other = one + 1; other < count; other++)
                {
                    exchange[one][other] *= hidden[one][other - one - 1];
                    exchange[other][one] = exchange[one][other];
                }
            }
        }

        for (var index = 0; index < count; index++)
        {
            var area = (float)facets[index].AreaMm2;
            for (var other = 0; other < count; other++)
            {
                exchange[index][other] /= area;
            }
        }

        return exchange;
    }

    /// <summary>Of every facet but the mask's, which come first, the share that a small place of the mask sees of it.</summary>
    public static float[] FromMask(ImmutableArray<Facet> facets, int maskFacets, ImmutableArray<FacetBlock> blocks, Place place, Shadows shadows)
    {
        var shares = new float[facets.Length - maskFacets];
        float sum = 0;
        for (var other = 0; other < shares.Length; other++)
        {
            shares[other] = (float)facets[maskFacets + other].SeenFrom(place, new(0, 0, 1));
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
        if ((facet.Centre - place).Length > NearSizes * facet.SizeMm)
        {
            return shadows.Block(place, facet.Centre) ? 0 : 1;
        }

        var open = 0;
        foreach (var quarter in Quarters)
        {
            open += shadows.Block(place, On(facet, quarter)) ? 0 : 1;
        }

        return open / 4f;
    }

    private static Place On(Facet facet, (double U, double V) at) => facet.Centre + (at.U * facet.HalfU) + (at.V * facet.HalfV);

    /// <summary>Area times share, nothing in between.</summary>
    private static float[] Exchanged(ImmutableArray<Facet> facets, int index)
    {
        var facet = facets[index];
        var exchanged = new float[facets.Length];
        for (var other = 0; other < exchanged.Length; other++)
        {
            var seen = facets[other];
            if (seen.Side == facet.Side)
            {
                continue;
            }

            var share = (seen.Centre - facet.Centre).Length < NearSizes * Math.Max(seen.SizeMm, facet.SizeMm)
                ? Quarters.Average(at => seen.SeenFrom(On(facet, at), facet.Normal))
                : seen.SeenFrom(facet.Centre, facet.Normal);
            exchanged[other] = (float)(facet.AreaMm2 * share);
        }

        return exchanged;
    }

    /// <summary>Makes each facet's sum its area without taking the symmetry away (Sinkhorn and Knopp 1967, for a symmetric matrix): each gets a factor, which stands for its row and its column.</summary>
    private static void Balance(ImmutableArray<Facet> facets, float[][] exchange, CancellationToken cancellation)
    {
        var factors = new float[exchange.Length];
        Array.Fill(factors, 1);
        for (var round = 0; round < Balancings; round++)
        {
            var before = factors;
            factors = [.. ParallelEnumerable.Range(0, exchange.Length).AsOrdered().WithCancellation(cancellation)
                .Select(index => (float)(before[index] * Math.Sqrt(facets[index].AreaMm2 / (before[index] * LightProduct.Of(exchange[index], before)))))];
        }

        ParallelEnumerable.Range(0, exchange.Length).WithCancellation(cancellation).ForAll(one =>
        {
            var row = exchange[one];
            for (var other = 0; other < row.Length; other++)
            {
                row[other] *= factors[one] * factors[other];
            }
        });
    }

    /// <summary>Which share of the rays between a facet and each later one is free.</summary>
    private static float[] Open(ImmutableArray<Facet> facets, int index, Shadows shadows)
    {
        var open = new float[facets.Length - index - 1];
        var facet = facets[index];
        for (var place = 0; place < open.Length; place++)
        {
            var other = facets[index + 1 + place];
            if (other.Side == facet.Side)
            {
                continue;
            }

            // From afar the four ways beside each other say nearly the same, and there are many such pairs.
            var isFar = (other.Centre - facet.Centre).Length > FarSizes * Math.Max(facet.SizeMm, other.SizeMm);
            var (free, looks) = (0, 0);
            for (var quarter = 0; quarter < 4; quarter += isFar ? 2 : 1)
            {
                free += shadows.Block(On(facet, Quarters[quarter]), On(other, Quarters[quarter])) ? 0 : 1;
                looks++;
                if (!isFar)
                {
                    free += shadows.Block(On(facet, Quarters[quarter]), On(other, Quarters[(quarter + 2) % 4])) ? 0 : 1;
                    looks++;
                }
            }

            open[place] = (float)free / looks;
        }

        return open;
    }
}
