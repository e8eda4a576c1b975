using System;
using System.Collections.Immutable;
using Lampblack.Geometry;

namespace Lampblack.Books;

/// <summary>A wire of a lamp board that needs its way.</summary>
/// <param name="From">Its end at an emitter; null for one at the perforated board.</param>
/// <param name="To">The same.</param>
/// <param name="Share">Where it would best come to the perforated board, as a share of the board's length.</param>
internal sealed record LampRun(Point<PanelSpace>? From, Point<PanelSpace>? To, double Share)
{
    /// <summary>Its way once it has one.</summary>
    public ImmutableArray<Point<PanelSpace>> Way { get; init; } = [];

    /// <summary>Which of the board's pictures shows it, from 0.</summary>
    public int Picture { get; init; }

    /// <summary>How far it goes on along the perforated board beyond its way.</summary>
    public double AsideMm { get; init; }

    /// <summary>Whether it had to go across what stands there.</summary>
    public bool IsAcross { get; init; }

    /// <summary>The other end of an emitter that this wire ends at; null where it does not end there.</summary>
    public Point<PanelSpace>? Own(Point<PanelSpace> plus, Point<PanelSpace> minus) => Ends(plus) ? minus : Ends(minus) ? plus : null;

    /// <summary>How long it is at least.</summary>
    public double LeastMm(Point<PanelSpace> board) => Math.Abs((From ?? board).XMm - (To ?? board).XMm) + Math.Abs((From ?? board).YMm - (To ?? board).YMm);

    private bool Ends(Point<PanelSpace> at) => From == at || To == at;
}
