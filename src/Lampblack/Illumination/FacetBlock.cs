using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Illumination;

/// <summary>Up to three by three facets of one side that lie together. From afar, bodies hide all of them or none: one look at their middle is enough.</summary>
/// <param name="Facets">Their numbers.</param>
/// <param name="Centre">The middle of the middle one.</param>
/// <param name="FarMm">From here on they are looked at together.</param>
internal sealed record FacetBlock(ImmutableArray<int> Facets, Place Centre, double FarMm)
{
    private const int Across = 3;

    /// <summary>So many sizes of a facet away, what a whole block adds to a place is a few parts in a hundred of its light.</summary>
    private const double FarSizes = 8;

    /// <summary>All facets but those of the mask.</summary>
    public static ImmutableArray<FacetBlock> Of(ImmutableArray<Facet> facets) =>
    [
        .. facets.Index()
            .Where(facet => facet.Item.Side != BoxSide.Mask)
            .GroupBy(facet => (facet.Item.Side, Along(facet.Item, facet.Item.HalfU), Along(facet.Item, facet.Item.HalfV)))
            .Select(block => new FacetBlock(
                [.. block.Select(facet => facet.Index)],
                block.ElementAt(block.Count() / 2).Item.Centre,
                FarSizes * block.Max(facet => facet.Item.SizeMm))),
    ];

    private static int Along(Facet facet, Place half) => (int)Math.Floor(facet.Centre.Dot(half) / half.Dot(half) / 2 / Across);
}
