using System;
using System.Collections.Immutable;
using Lampblack.Artwork;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Lighting;

/// <summary>A legend, or a stretch of a long rule or a large dial, that is to shine: what is judged as one.</summary>
/// <param name="Origin">The item.</param>
/// <param name="Words">What it says, or what kind of mark it is.</param>
/// <param name="Box">Where it is.</param>
/// <param name="Places">Where its light is looked up.</param>
/// <param name="CandelaPerM2PerLuxFactor">Its luminance for each lux behind the mask: plate, paper, ink.</param>
internal sealed record LitPiece(Origin Origin, string Words, Box<PanelSpace> Box, ImmutableArray<LitPlace> Places, double CandelaPerM2PerLuxFactor)
{
    /// <summary>The whole mark that it is a stretch of; null where that is a picture.</summary>
    public Region<PanelSpace>? Mark { get; init; }

    /// <summary>The picture that it is a part of; null for marks.</summary>
    public DotMark? Picture { get; init; }
}

/// <summary>A place that stands for a stretch of a mark around it.</summary>
/// <param name="At">The place: the middle of the stretch.</param>
/// <param name="Weight">How much it counts beside the piece's other places: the stretch's outlines in mm, or a picture's area.</param>
internal readonly record struct LitPlace(Point<PanelSpace> At, double Weight);

/// <summary>A piece in its light.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Lux">What reaches the mask behind it, in the mean over its places.</param>
internal sealed record LitLegend(LitPiece Piece, double Lux)
{
    /// <summary>Of all pieces that are lit together the largest share that each owes to one emitter, looked up when it is first asked for; null where that is not known.</summary>
    public Lazy<ImmutableArray<double>>? OneShares { get; init; }

    /// <summary>Which of these is this one's.</summary>
    public int Index { get; init; }

    /// <summary>The largest share of its light that comes from one emitter; 0 where that is not known.</summary>
    public double OneShare => OneShares is { } shares ? shares.Value[Index] : 0;

    /// <summary>What the eye sees in front.</summary>
    public double CandelaPerM2 => Lux * Piece.CandelaPerM2PerLuxFactor;
}
