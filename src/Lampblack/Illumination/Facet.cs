using System;
using System.Collections.Immutable;
using System.Runtime.CompilerServices;

namespace Lampblack.Illumination;

/// <summary>Which side of the box a facet belongs to.</summary>
internal enum BoxSide
{
    /// <summary>The mask's back, or the diffuser that lies between.</summary>
    Mask,

    /// <summary>The floor.</summary>
    Floor,

    /// <summary>The wall to the left.</summary>
    Left,

    /// <summary>The wall to the right.</summary>
    Right,

    /// <summary>The lower wall.</summary>
    Lower,

    /// <summary>The upper wall.</summary>
    Upper,
}

/// <summary>A rectangle of one side of the box, taken as equally bright all over.</summary>
/// <param name="Side">Its side.</param>
/// <param name="Centre">Its middle.</param>
/// <param name="HalfU">From its middle to the middle of one edge.</param>
/// <param name="HalfV">From its middle to the middle of the edge beside that.</param>
/// <param name="Normal">Into the box, of length 1.</param>
internal sealed record Facet(BoxSide Side, Place Centre, Place HalfU, Place HalfV, Place Normal)
{
    /// <summary>From how many of its own sizes away it may be taken for a point: errors are below a part in a thousand, and cancel.</summary>
    public const double PointSizes = 8;

    private readonly Place _a = Centre - HalfU - HalfV;
    private readonly Place _b = Centre + HalfU - HalfV;
    private readonly Place _c = Centre + HalfU + HalfV;
    private readonly Place _d = Centre - HalfU + HalfV;

    /// <summary>The middles of its four quarters, round about.</summary>
    public ImmutableArray<Place> Quarters { get; } = [Centre - (0.5 * HalfU) - (0.5 * HalfV), Centre + (0.5 * HalfU) - (0.5 * HalfV), Centre + (0.5 * HalfU) + (0.5 * HalfV), Centre - (0.5 * HalfU) + (0.5 * HalfV)];

    public double AreaMm2 { get; } = 4 * HalfU.Length * HalfV.Length;

    public double SizeMm { get; } = 2 * Math.Max(HalfU.Length, HalfV.Length);

    /// <summary>The same elsewhere.</summary>
    public Facet At(Place centre) => new(Side, centre, HalfU, HalfV, Normal);

    /// <summary>
    /// The share of all that a small surface sees evenly around it which this facet fills: the form factor from a differential area to a
    /// polygon, 1 / 2 pi times the sum of angle times (unit normal of each edge's triangle) . n (Lambert 1760).
    /// </summary>
    /// <param name="place">Where the surface lies.</param>
    /// <param name="normal">Where it looks, of length 1.</param>
    /// <param name="polygonSizes">Up to how many sizes away that formula is used; farther off the quarters are taken for points, and farther still the whole.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public double SeenFrom(Place place, Place normal, double polygonSizes)
    {
        var way = Centre - place;
        var square = way.Dot(way);
        if (square > PointSizes * PointSizes * SizeMm * SizeMm)
        {
            return PointAt(way, normal, AreaMm2);
        }

        if (square > polygonSizes * polygonSizes * SizeMm * SizeMm)
        {
            var quarterMm2 = AreaMm2 / 4;
            return PointAt(Quarters[0] - place, normal, quarterMm2) + PointAt(Quarters[1] - place, normal, quarterMm2) + PointAt(Quarters[2] - place, normal, quarterMm2) + PointAt(Quarters[3] - place, normal, quarterMm2);
        }

        var (a, b, c, d) = (_a - place, _b - place, _c - place, _d - place);
        var sum = Edge(a, b, normal) + Edge(b, c, normal) + Edge(c, d, normal) + Edge(d, a, normal);
        return Math.Abs(sum) / (2 * Math.PI);
    }

    /// <summary>What a small part of it fills that lies so far away.</summary>
    private double PointAt(Place way, Place normal, double areaMm2)
    {
        var square = way.Dot(way);
        var cosines = -way.Dot(Normal) * way.Dot(normal);
        return cosines > 0 ? cosines * areaMm2 / (Math.PI * square * square) : 0;
    }

    private static double Edge(Place from, Place to, Place normal)
    {
        var cross = from.Cross(to);
        var length = cross.Length;
        return length < 1e-12 ? 0 : Math.Atan2(length, from.Dot(to)) * cross.Dot(normal) / length;
    }
}
