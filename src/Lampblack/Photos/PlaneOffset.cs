using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Photos;

/// <summary>How far a colour lies off its black at one mark.</summary>
/// <param name="Letter">The colour: C, M or Y.</param>
/// <param name="Place">The mark, in front view from the sheet's lower left corner.</param>
/// <param name="RightMm">How far the colour lies to the right of where it belongs.</param>
/// <param name="UpMm">The same, upwards.</param>
/// <param name="SdMm">How well each is known.</param>
public sealed record PlaneOffset(char Letter, Point<SheetSpace> Place, double RightMm, double UpMm, double SdMm)
{
    /// <summary>What several photos of one sheet tell: of each mark the mean, weighted by how well each photo tells it.</summary>
    /// <param name="photos">What each of them tells.</param>
    public static ImmutableArray<PlaneOffset> Together(IEnumerable<ImmutableArray<PlaneOffset>> photos) =>
    [
        .. photos.SelectMany(photo => photo).GroupBy(offset => (offset.Letter, offset.Place)).Select(same =>
        {
            var weights = same.Select(offset => 1 / (offset.SdMm * offset.SdMm)).ToList();
            double Weighted(Func<PlaneOffset, double> value) => same.Zip(weights, (offset, weight) => value(offset) * weight).Sum() / weights.Sum();
            return new PlaneOffset(same.Key.Letter, same.Key.Place, Weighted(offset => offset.RightMm), Weighted(offset => offset.UpMm), Math.Sqrt(1 / weights.Sum()));
        }),
    ];
}
