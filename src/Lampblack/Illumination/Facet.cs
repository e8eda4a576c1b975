using System;

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
    private const double FarAwaySizes = 8;

    private readonly Place _a = Centre - HalfU - HalfV;
    private readonly Place _b = Centre + HalfU - HalfV;
    private readonly Place _c = Centre + HalfU + HalfV;
    private readonly Place _d = Centre - HalfU + HalfV;

    public double AreaMm2 { get; } = 4 * HalfU.Length * HalfV.Length;

    public double SizeMm { get; } = 2 * Math.Max(HalfU.Length, HalfV.Length);

    /// <summary>
    /// The share of all that a small surface sees evenly around it which this facet fills: the form factor from a differential area to a
    /// polygon, 1 / 2 pi times the sum of angle times (unit normal of each edge's triangle) . n (Lambert 1760).
    /// </summary>
    /// <param name="place">Where the surface lies.</param>
    /// <param name="normal">Where it looks, of length 1.</param>
    public double SeenFrom(Place place, Place normal)
    {
        var way = Centre - place;
        var square = way.Dot(way);
        if (square > FarAwaySizes * FarAwaySizes * SizeMm * SizeMm)
        {
            var cosines = -way.Dot(Normal) * way.Dot(normal);
            return cosines > 0 ? cosines * AreaMm2 / (Math.PI * square * square) : 0;
        }

        var (a, b, c, d) = (_a - place, _b - place, _c - place, _d - place);
        var sum = Edge(a, b, normal) + Edge(b, c, normal) + Edge(c, d, normal) + Edge(d, a, normal);
        return Math.Abs(sum) / (2 * Math.PI);
    }

    private static double Edge(Place from, Place to, Place normal)
    {
        var cross = from.Cross(to);
        var length = cross.Length;
        return length < 1e-12 ? 0 : Math.Atan2(length, from.Dot(to)) * cross.Dot(normal) / length;
    }
}
