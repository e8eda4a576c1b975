namespace Lampblack.Illumination;

/// <summary>How closely facets are looked at; distances are in sizes of the larger facet.</summary>
/// <param name="PolygonSizes">Nearer than this a facet's outline is what counts; from there on its four quarters, each as a point, up to where it is a point itself.</param>
/// <param name="CrosswiseSizes">Nearer than this what hides two facets from each other is looked at from each quarter of one to a quarter of the other, and once more crosswise; from there on straight across only.</param>
/// <param name="MiddleSizes">Farther than this it is looked at from middle to middle.</param>
/// <param name="IsDimMaskCoarse">Whether a mask that throws back little is lit by fewer ways.</param>
internal sealed record Looks(double PolygonSizes, double CrosswiseSizes, double MiddleSizes, bool IsDimMaskCoarse)
{
    /// <summary>A box of more facets than this is a large one: all it may have, as it is cut no finer. The examples' have fewer.</summary>
    private const int ManyFacets = 1200;

    /// <summary>Where there are few facets each counts.</summary>
    private static readonly Looks Close = new(Facet.PointSizes, FormFactors.HalfSizes, double.PositiveInfinity, false);

    /// <summary>Where there are many, what one way says is a small part of all: over 280 x 400 mm with 400 bodies and 200 emitters that moved half of the legends by less than 0.05 %, one of twenty by more than 0.17 %, and none by more than 0.45 % (2026-11-29).</summary>
    private static readonly Looks Coarse = new(4, 4, 16, true);

    /// <summary>The looks that a box of so many facets needs.</summary>
    public static Looks For(int facets) => facets > ManyFacets ? Coarse : Close;
}
