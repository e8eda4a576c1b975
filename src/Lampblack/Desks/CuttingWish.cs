using System.Collections.Immutable;
using Lampblack.Findings;

namespace Lampblack.Desks;

/// <summary>How plates are cut.</summary>
public enum CuttingWay
{
    /// <summary>Scored and snapped.</summary>
    Snap,

    /// <summary>Sawn.</summary>
    Saw,
}

/// <summary>Plates that the maker has or can buy.</summary>
/// <param name="Id">Their name.</param>
/// <param name="WidthMm">Their width.</param>
/// <param name="HeightMm">Their height.</param>
/// <param name="Span">Where they are written.</param>
public sealed record PlateStock(string Id, double WidthMm, double HeightMm, SourceSpan Span)
{
    /// <summary>Their thickness; null for that of the desk's stack.</summary>
    public double? ThicknessMm { get; init; }

    /// <summary>How many there are; null for as many as are needed.</summary>
    public int? Count { get; init; }

    /// <summary>What one costs, in the maker's own currency; 0 where it is at hand.</summary>
    public decimal Price { get; init; }

    /// <summary>Whether they have a grain: panels stand upright on them.</summary>
    public bool HasGrain { get; init; }
}

/// <summary>How the maker wants panels cut, as written.</summary>
public sealed record CuttingWish
{
    /// <summary>A desk that says nothing of it.</summary>
    public static CuttingWish Unsaid { get; } = new();

    /// <summary>Where it is written; null where nothing is said.</summary>
    public SourceSpan? Span { get; init; }

    /// <summary>How; null where the thickness decides.</summary>
    public CuttingWay? Way { get; init; }

    /// <summary>Where that is written.</summary>
    public SourceSpan? WaySpan { get; init; }

    /// <summary>What a cut eats; null for the usual of the way.</summary>
    public double? KerfMm { get; init; }

    /// <summary>How much larger each panel is cut on every side, to be filed down to its line.</summary>
    public double TrimMm { get; init; }

    /// <summary>The narrowest strip that a cut may leave; null for the usual of the way.</summary>
    public double? NarrowestMm { get; init; }

    /// <summary>Extra copies of panels without an entry in <see cref="SparesOf"/>.</summary>
    public int Spares { get; init; }

    /// <summary>Extra copies by panel.</summary>
    public ImmutableSortedDictionary<string, int> SparesOf { get; init; } = ImmutableSortedDictionary<string, int>.Empty;

    /// <summary>The plates; empty where none are listed.</summary>
    public ImmutableArray<PlateStock> Stocks { get; init; } = [];
}
