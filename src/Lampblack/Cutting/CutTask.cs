using System.Collections.Immutable;

namespace Lampblack.Cutting;

/// <summary>A rectangle that is wanted, and how many of it at most.</summary>
/// <param name="Id">Its name.</param>
/// <param name="WidthMm">Its width.</param>
/// <param name="HeightMm">Its height.</param>
/// <param name="Count">How many are wanted at most.</param>
public sealed record CutPiece(string Id, double WidthMm, double HeightMm, int Count)
{
    /// <summary>What one of it is worth; null for its area in mm².</summary>
    public decimal? Value { get; init; }
}

/// <summary>Plates of one size.</summary>
/// <param name="Id">Their name.</param>
/// <param name="WidthMm">Their width.</param>
/// <param name="HeightMm">Their height.</param>
public sealed record CutStock(string Id, double WidthMm, double HeightMm)
{
    /// <summary>How many there are; null for as many as are needed.</summary>
    public int? Count { get; init; }

    /// <summary>The price of one, in the maker's own currency.</summary>
    public decimal Price { get; init; }

    /// <summary>Whether it has a grain, so that nothing may be turned on it.</summary>
    public bool HasGrain { get; init; }
}

/// <summary>How cuts are made.</summary>
/// <param name="KerfMm">What a cut eats; 0 for snapping.</param>
/// <param name="NarrowestMm">The narrowest strip that a cut may leave on either side; 0 for any.</param>
/// <param name="Rotate">Whether pieces may be turned by a quarter.</param>
public sealed record CutRules(double KerfMm, double NarrowestMm, bool Rotate);

/// <summary>What is to be cut from what. Every length counts to 0.01 mm.</summary>
/// <param name="Pieces">The pieces; each has an id of its own.</param>
/// <param name="Stocks">The plates.</param>
/// <param name="Rules">The rules.</param>
/// <param name="MostPlates">How many plates may be used; null for as many as are needed.</param>
public sealed record CutTask(ImmutableArray<CutPiece> Pieces, ImmutableArray<CutStock> Stocks, CutRules Rules, int? MostPlates = null);
