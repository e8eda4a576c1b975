using System.Collections.Immutable;

namespace Lampblack.Cutting;

/// <summary>A rectangle on a plate, its place measured from the plate's lower left corner.</summary>
/// <param name="XMm">From the left edge.</param>
/// <param name="YMm">From the lower edge.</param>
/// <param name="WidthMm">Its width.</param>
/// <param name="HeightMm">Its height.</param>
public sealed record CutBox(double XMm, double YMm, double WidthMm, double HeightMm);

/// <summary>A piece in its place.</summary>
/// <param name="Id">Which piece it is.</param>
/// <param name="Box">Where it lies.</param>
/// <param name="IsTurned">Whether it lies turned by a quarter.</param>
public sealed record PlacedPiece(string Id, CutBox Box, bool IsTurned);

/// <summary>One cut, from edge to edge of the rectangle in hand.</summary>
/// <param name="InHand">What is cut: the plate, or what an earlier cut left.</param>
/// <param name="IsUpright">Whether it runs from the lower edge to the upper one; else from left to right.</param>
/// <param name="AtMm">How far its near side lies from the left edge of what is in hand, or from its lower edge.</param>
public sealed record EdgeCut(CutBox InHand, bool IsUpright, double AtMm);

/// <summary>One plate and all that is cut from it.</summary>
/// <param name="Stock">Which plate.</param>
/// <param name="Pieces">The pieces, in the order in which they come off.</param>
/// <param name="Cuts">The cuts, in the order in which they are made.</param>
/// <param name="Offcuts">What is left over.</param>
public sealed record CutPlate(CutStock Stock, ImmutableArray<PlacedPiece> Pieces, ImmutableArray<EdgeCut> Cuts, ImmutableArray<CutBox> Offcuts);

/// <summary>What was found, and how well it is known to be the best.</summary>
/// <param name="Plates">The plates, the fullest first.</param>
/// <param name="Value">What all pieces together are worth.</param>
/// <param name="Bound">No plan is worth more.</param>
/// <param name="PlatesBound">No plan of this value takes fewer plates.</param>
/// <param name="IsProven">Whether no plan is worth more, none of this value takes fewer plates, and none of so many costs less.</param>
/// <param name="IsStopped">Whether the search was stopped before it was through.</param>
/// <param name="Left">How many of each piece are not cut, by id, in the order of the task; empty where all are.</param>
public sealed record CutPlan(
    ImmutableArray<CutPlate> Plates,
    decimal Value,
    decimal Bound,
    int PlatesBound,
    bool IsProven,
    bool IsStopped,
    ImmutableArray<(string Id, int Count)> Left)
{
    /// <summary>How many steps the search took.</summary>
    public long Steps { get; init; }
}
