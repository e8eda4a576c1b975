using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using NetTopologySuite.Geometries;

namespace Lampblack.Geometry;

/// <content>What is made once of many regions that differ in their places only.</content>
public sealed partial class Region<TSpace>
{
    /// <summary>Makes something of each region, once for all that are alike, and brings it to each one's place.</summary>
    /// <param name="regions">The regions; of empty ones nothing is made.</param>
    /// <param name="make">What is made; it may depend on a region's form, not on its place.</param>
    /// <returns>What was made of each, in the same order.</returns>
    public static IEnumerable<Region<TSpace>> OfAlike(IEnumerable<Region<TSpace>> regions, Func<Region<TSpace>, Region<TSpace>> make)
    {
        ArgumentNullException.ThrowIfNull(regions);
        ArgumentNullException.ThrowIfNull(make);
        var known = new Dictionary<Form, ImmutableArray<Polygon>>();
        foreach (var region in regions)
        {
            if (region.IsEmpty)
            {
                yield return Empty;
                continue;
            }

            var form = new Form(region.Shape);
            if (!known.TryGetValue(form, out var made))
            {
                known.Add(form, made = [.. make(Of([.. form.Pieces()])).Polygons()]);
            }

            yield return Of([.. form.Placed(made)]);
        }
    }
}
