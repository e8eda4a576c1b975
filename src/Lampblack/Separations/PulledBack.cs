using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Separations;

/// <summary>
/// Openings in black, made wider by as much as toner will close them again, so that they come out as drawn. Where the black between two of them is so narrow that it
/// would vanish from the page, it is pulled back less: it comes out wider than drawn.
/// </summary>
/// <param name="Open">The openings as they are sent to the printer.</param>
/// <param name="Narrow">The strokes of black that are pulled back less.</param>
internal sealed record PulledBack(Region<PanelSpace> Open, ImmutableArray<Region<PanelSpace>> Narrow)
{
    /// <summary>No stroke of black is made narrower than this on the page: two dots and a half at 600 to the inch. Ours, to be judged on a printed sheet.</summary>
    public const double LeastStrokeMm = 0.1;

    /// <summary>In steps of a quarter of the growth: what is left is less than printers hold.</summary>
    private const int Steps = 4;

    // Black that tapers to a corner is no stroke: it comes to an end as it always does.
    private const double LeastLengthMm = 1;

    // What closing rounds off in corners is narrower than this, and no stroke either.
    private const double LeastSpeckMm = LeastStrokeMm / 4;

    /// <summary>As it is drawn.</summary>
    /// <param name="open">What is open.</param>
    public static PulledBack Nowhere(Region<PanelSpace> open) => new(open, []);

    /// <summary>The openings as they must be sent.</summary>
    /// <param name="open">The openings as they are drawn.</param>
    /// <param name="byMm">By how much toner grows at each edge.</param>
    public static PulledBack Of(Region<PanelSpace> open, double byMm)
    {
        if (byMm <= 0 || open.IsEmpty)
        {
            return Nowhere(open);
        }

        var wide = open.Grow(byMm);
        var narrow = Between(open, byMm + (LeastStrokeMm / 2));
        if (narrow.IsEmpty)
        {
            return new(wide, []);
        }

        // A stroke keeps what the least of the pulls that leaves enough of it leaves; narrower ones come again in the next round, and are pulled less.
        var near = Near(open, narrow, byMm + LeastStrokeMm);
        var kept = ImmutableArray.CreateBuilder<Region<PanelSpace>>();
        for (var step = Steps - 1; step >= 0; step--)
        {
            var strokes = step == Steps - 1 ? narrow : Between(near, (byMm * (step + 1) / Steps) + (LeastStrokeMm / 2));
            if (strokes.IsEmpty)
            {
                break;
            }

            kept.Add(WithoutSpecks(step == 0 ? strokes : strokes.Except(near.Grow(byMm * step / Steps))));
        }

        return new(wide.Except(Region<PanelSpace>.Union(kept)), [.. narrow.Pieces.Where(piece => piece.PerimeterMm >= 2 * LeastLengthMm)]);
    }

    /// <summary>The openings beside narrow strokes: the others need not be looked at again.</summary>
    private static Region<PanelSpace> Near(Region<PanelSpace> open, Region<PanelSpace> narrow, double reachMm)
    {
        var index = new RegionIndex<PanelSpace>(narrow.Pieces);
        return Region<PanelSpace>.Union(open.Pieces.Where(piece => !index.Near(piece.Bounds.Grow(reachMm)).IsEmpty));
    }

    /// <summary>Where a disc does not fit in between what is open.</summary>
    private static Region<PanelSpace> Between(Region<PanelSpace> open, double radiusMm) => WithoutSpecks(open.Grow(radiusMm).Grow(-radiusMm).Except(open));

    private static Region<PanelSpace> WithoutSpecks(Region<PanelSpace> region) => region.Grow(-LeastSpeckMm / 2).Grow(LeastSpeckMm / 2);
}
