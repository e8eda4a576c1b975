using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;

namespace Lampblack.Geometry;

/// <summary>Tells which of many regions may lie at a place without asking each of them, so that checks of all against all stay quick.</summary>
/// <typeparam name="TSpace">The space of the regions.</typeparam>
public sealed class RegionIndex<TSpace>
    where TSpace : struct, ISpace
{
    private readonly STRtree<int> _tree = new();

    /// <summary>An index of these regions; empty ones are never near anything.</summary>
    /// <param name="regions">The regions; they are told by their place in this order.</param>
    public RegionIndex(IEnumerable<Region<TSpace>> regions)
    {
        ArgumentNullException.ThrowIfNull(regions);
        foreach (var (place, region) in regions.Index().Where(pair => !pair.Item.IsEmpty))
        {
            _tree.Insert(EnvelopeOf(region.Bounds), place);
        }

        // Built at once: building on the first question would not be safe from several threads.
        _tree.Build();
    }

    /// <summary>The places, rising, of all regions whose bounds meet a box, touching ones included.</summary>
    /// <param name="box">The box.</param>
    public ImmutableArray<int> Near(Box<TSpace> box) => [.. _tree.Query(EnvelopeOf(box)).Order()];

    private static Envelope EnvelopeOf(Box<TSpace> box) => new(box.LeftMm, box.RightMm, box.BottomMm, box.TopMm);
}
