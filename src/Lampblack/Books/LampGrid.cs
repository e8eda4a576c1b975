using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Books;

/// <summary>
/// A lamp board's back as a grid on which wires are drawn upright and level: what stands in the way is closed, and no wire comes nearer to an emitter that is not its own than a reader
/// can tell apart. Lines of the grid are so far apart that two wires side by side are seen as two.
/// </summary>
internal sealed class LampGrid
{
    /// <summary>Four directions: right, up, left, down as seen from the front.</summary>
    public static readonly ImmutableArray<(int Dx, int Dy)> Directions = [(1, 0), (0, 1), (-1, 0), (0, -1)];

    // As they are drawn: a wire is 0.5 mm wide, a leg's dot 1.5. Common practice for wiring drawings: as much air as line, and more; no source.
    private const double DrawnPitchMm = 1.8;
    private const double DrawnClearMm = 1.5;
    private const double LeastPitchMm = 2;
    private const double EdgeMm = 2.5;

    private readonly Point<PanelSpace> _origin;
    private readonly Box<PanelSpace> _kept;
    private readonly bool[] _closed;
    private readonly List<int>[] _lamps;

    /// <summary>The grid of a board.</summary>
    /// <param name="board">The board.</param>
    /// <param name="scaleFactor">How large it is drawn.</param>
    /// <param name="lamps">Both ends of each emitter, or of what else wires end at.</param>
    /// <param name="closed">What no wire lies on.</param>
    /// <param name="kept">Where wires come together: those that only pass do so elsewhere if they can.</param>
    public LampGrid(LampBoard board, double scaleFactor, ImmutableArray<(Point<PanelSpace> Plus, Point<PanelSpace> Minus)> lamps, ImmutableArray<Box<PanelSpace>> closed, Box<PanelSpace> kept)
    {
        PitchMm = Math.Max(LeastPitchMm, DrawnPitchMm / scaleFactor);
        ClearMm = DrawnClearMm / scaleFactor;
        (Lamps, _kept) = (lamps, kept);
        var within = board.Box.Inside.Grow(-Math.Max(EdgeMm, PitchMm));
        (Columns, Rows) = (Math.Max(1, (int)(within.WidthMm / PitchMm) + 1), Math.Max(1, (int)(within.HeightMm / PitchMm) + 1));
        _origin = new(within.Centre.XMm - ((Columns - 1) * PitchMm / 2), within.Centre.YMm - ((Rows - 1) * PitchMm / 2));
        _closed = new bool[Columns * Rows];
        _lamps = new List<int>[Columns * Rows];
        foreach (var area in closed)
        {
            foreach (var node in Near(area))
            {
                _closed[node] = true;
            }
        }

        foreach (var (index, (plus, minus)) in lamps.Index())
        {
            foreach (var node in Near(Box<PanelSpace>.Between(plus, minus).Grow(ClearMm + PitchMm)))
            {
                (_lamps[node] ??= []).Add(index);
            }
        }
    }

    /// <summary>From line to line.</summary>
    public double PitchMm { get; }

    /// <summary>How near a wire comes to an emitter that it does not end at.</summary>
    public double ClearMm { get; }

    /// <summary>Upright lines.</summary>
    public int Columns { get; }

    /// <summary>Level lines.</summary>
    public int Rows { get; }

    /// <summary>What wires end at.</summary>
    public ImmutableArray<(Point<PanelSpace> Plus, Point<PanelSpace> Minus)> Lamps { get; }

    /// <summary>Where two lines meet.</summary>
    public Point<PanelSpace> At(int node) => new(_origin.XMm + (node % Columns * PitchMm), _origin.YMm + (node / Columns * PitchMm));

    /// <summary>Whether no wire may come there.</summary>
    public bool IsClosed(int node) => _closed[node];

    /// <summary>Whether the ends of other wires are so near that a wire there makes them harder to reach.</summary>
    public bool IsNearEnds(int node) => _lamps[node] is not null || _kept.Contains(At(node));

    /// <summary>The next place in a direction; -1 beyond the edge.</summary>
    public int Next(int node, int direction)
    {
        var (column, row) = ((node % Columns) + Directions[direction].Dx, (node / Columns) + Directions[direction].Dy);
        return column < 0 || row < 0 || column >= Columns || row >= Rows ? -1 : (row * Columns) + column;
    }

    /// <summary>How many steps a place is away from a block of others at least.</summary>
    public int Steps(int node, (int Left, int Right, int Bottom, int Top) block)
    {
        var (column, row) = (node % Columns, node / Columns);
        return Math.Max(0, Math.Max(block.Left - column, column - block.Right)) + Math.Max(0, Math.Max(block.Bottom - row, row - block.Top));
    }

    /// <summary>The block that holds some places.</summary>
    public (int Left, int Right, int Bottom, int Top) Block(IReadOnlyCollection<int> nodes) =>
        (nodes.Min(node => node % Columns), nodes.Max(node => node % Columns), nodes.Min(node => node / Columns), nodes.Max(node => node / Columns));

    /// <summary>The places within an area.</summary>
    public IEnumerable<int> Near(Box<PanelSpace> area)
    {
        var (left, right) = (Math.Max(0, (int)Math.Ceiling((area.LeftMm - _origin.XMm) / PitchMm)), Math.Min(Columns - 1, (int)Math.Floor((area.RightMm - _origin.XMm) / PitchMm)));
        var (bottom, top) = (Math.Max(0, (int)Math.Ceiling((area.BottomMm - _origin.YMm) / PitchMm)), Math.Min(Rows - 1, (int)Math.Floor((area.TopMm - _origin.YMm) / PitchMm)));
        for (var row = bottom; row <= top; row++)
        {
            for (var column = left; column <= right; column++)
            {
                yield return (row * Columns) + column;
            }
        }
    }

    /// <summary>Whether a piece of a wire keeps off all emitters, and off the other end of those that it ends at.</summary>
    public bool IsClear(int node, Point<PanelSpace> from, Point<PanelSpace> to, LampRun run)
    {
        if (_lamps[node] is not { } near)
        {
            return true;
        }

        foreach (var index in near)
        {
            if (!IsClear(Lamps[index], from, to, run))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Whether a straight piece keeps off everything that stands on the board.</summary>
    public bool IsClear(Point<PanelSpace> from, Point<PanelSpace> to, LampRun run) =>
        Near(Box<PanelSpace>.Between(from, to).Grow(PitchMm)).All(node => !_closed[node] || At(node).DistanceMm(from, to) > PitchMm / 2)
        && Lamps.All(lamp => IsClear(lamp, from, to, run));

    private bool IsClear((Point<PanelSpace> Plus, Point<PanelSpace> Minus) lamp, Point<PanelSpace> from, Point<PanelSpace> to, LampRun run) =>
        (run.Own(lamp.Plus, lamp.Minus) is { } other ? lamp.Plus == lamp.Minus ? double.PositiveInfinity : other.DistanceMm(from, to) : Apart(lamp.Plus, lamp.Minus, from, to)) >= ClearMm;

    /// <summary>How far two pieces are apart; 0 where they cross.</summary>
    public static double Apart(Point<PanelSpace> a, Point<PanelSpace> b, Point<PanelSpace> c, Point<PanelSpace> d)
    {
        static double Side(Point<PanelSpace> p, Point<PanelSpace> q, Point<PanelSpace> r) => ((q.XMm - p.XMm) * (r.YMm - p.YMm)) - ((q.YMm - p.YMm) * (r.XMm - p.XMm));
        return (Side(a, b, c) * Side(a, b, d) < 0 && Side(c, d, a) * Side(c, d, b) < 0)
            ? 0
            : Math.Min(Math.Min(a.DistanceMm(c, d), b.DistanceMm(c, d)), Math.Min(c.DistanceMm(a, b), d.DistanceMm(a, b)));
    }
}
