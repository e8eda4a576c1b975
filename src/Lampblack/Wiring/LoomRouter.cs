using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Wiring;

/// <summary>
/// Finds ways for wires on the back of a panel: along x and y, around bodies, emitters and cells, away from the edge, and along ways that others take already,
/// so that they can be bound to looms. The cheapest way on a grid (A*), a turn costing a little.
/// </summary>
internal sealed class LoomRouter
{
    private const double FinestMm = 2.5;

    // Finer grids take long on large panels and find no better ways.
    private const double MostCells = 16_000;
    private const double EdgeMm = 4;
    private const double ClearMm = 1;
    private const double EmitterMm = 4;

    // Tenths of what a step over a free cell costs: whole numbers, so that equal ways are equal to the last bit.
    private const int Free = 10;
    private const int Shared = 6;
    private const int OverBody = 120;
    private const int AtEdge = 200;
    private const int OverEmitter = 600;
    private const int Turn = 15;

    private static readonly (int Dx, int Dy)[] Steps = [(1, 0), (0, 1), (-1, 0), (0, -1)];

    private readonly double _stepMm;
    private readonly int _columns;
    private readonly int _rows;
    private readonly int[] _cost;
    private readonly List<Box<PanelSpace>> _bodies;
    private readonly int[] _best;
    private readonly int[] _from;

    public LoomRouter(LaidPanel laid, IReadOnlyList<Point<PanelSpace>> emitters, IReadOnlyList<Box<PanelSpace>> walled)
    {
        var (width, height) = (laid.Panel.WidthMm, laid.Panel.HeightMm);
        _stepMm = Math.Max(FinestMm, Math.Sqrt(width * height / MostCells));
        (_columns, _rows) = ((int)(width / _stepMm) + 1, (int)(height / _stepMm) + 1);
        _cost = new int[_columns * _rows];
        (_best, _from) = (new int[_cost.Length * Steps.Length], new int[_cost.Length * Steps.Length]);
        _bodies = laid.Parts.Where(part => part.Part.Body is not null).Select(part => part.Body().Bounds.Grow(ClearMm))
            .Concat(laid.Parts.Where(part => part.Part.Body is null).SelectMany(part => part.Holes).Select(hole => hole.Bounds.Grow(ClearMm))).ToList();
        var walls = walled.Select(box => box.Grow(ClearMm)).ToList();
        for (var cell = 0; cell < _cost.Length; cell++)
        {
            var at = At(cell);
            _cost[cell] = emitters.Any(emitter => emitter.DistanceMm(at) < EmitterMm) || walls.Exists(wall => wall.Contains(at)) ? OverEmitter
                : at.XMm < EdgeMm || at.YMm < EdgeMm || at.XMm > width - EdgeMm || at.YMm > height - EdgeMm ? AtEdge
                : _bodies.Exists(body => body.Contains(at)) ? OverBody
                : Free;
        }

        _bodies.AddRange(walls);
    }

    /// <summary>Whether a box is free of bodies and walls, and its middle of emitters and the edge.</summary>
    public bool IsFree(Box<PanelSpace> box) => _cost[Cell(box.Centre)] <= Free && !_bodies.Exists(body => body.Overlaps(box));

    /// <summary>The way from one place to another, its corners only; others will like to follow it.</summary>
    public ImmutableArray<Point<PanelSpace>> Way(Point<PanelSpace> from, Point<PanelSpace> to)
    {
        var cells = Cheapest(Cell(from), Cell(to));
        foreach (var cell in cells.Where(cell => _cost[cell] <= Free))
        {
            _cost[cell] = Shared;
        }

        var points = cells.Select(At).ToList();
        var way = new List<Point<PanelSpace>> { from };
        foreach (var (index, point) in points.Index())
        {
            // Straight on is no corner.
            if (index == 0 || index == points.Count - 1 || !IsStraight(points[index - 1], point, points[index + 1]))
            {
                Along(way, point);
            }
        }

        Along(way, to);
        return [.. way];
    }

    /// <summary>Length of a way.</summary>
    public static double LengthMm(ImmutableArray<Point<PanelSpace>> way) => way.Zip(way.Skip(1), (one, next) => one.DistanceMm(next)).Sum();

    /// <summary>The next corner, reached along x and y.</summary>
    private static void Along(List<Point<PanelSpace>> way, Point<PanelSpace> to)
    {
        var last = way[^1];
        if (Math.Abs(last.XMm - to.XMm) > 1e-6 && Math.Abs(last.YMm - to.YMm) > 1e-6)
        {
            way.Add(new(to.XMm, last.YMm));
        }

        if (way[^1].DistanceMm(to) > 1e-6)
        {
            way.Add(to);
        }
    }

    private static bool IsStraight(Point<PanelSpace> one, Point<PanelSpace> two, Point<PanelSpace> three) =>
        (Math.Abs(one.XMm - two.XMm) < 1e-6 && Math.Abs(two.XMm - three.XMm) < 1e-6) || (Math.Abs(one.YMm - two.YMm) < 1e-6 && Math.Abs(two.YMm - three.YMm) < 1e-6);

    private List<int> Cheapest(int start, int end)
    {
        // Each cell is looked at once for every direction that it can be reached in.
        var (best, from) = (_best, _from);
        Array.Fill(best, int.MaxValue);
        var open = new PriorityQueue<int, long>();
        var (endX, endY) = (end % _columns, end / _columns);
        for (var direction = 0; direction < Steps.Length; direction++)
        {
            Put((start * Steps.Length) + direction, 0, -1, start % _columns, start / _columns, direction);
        }

        var last = -1;
        while (open.TryDequeue(out var state, out var estimate))
        {
            var (cell, heading) = (state / Steps.Length, state % Steps.Length);
            if (cell == end)
            {
                last = state;
                break;
            }

            var (cellX, cellY) = (cell % _columns, cell / _columns);
            if (estimate >> 32 > best[state] + Ahead(cellX, cellY, heading))
            {
                continue;
            }

            for (var direction = 0; direction < Steps.Length; direction++)
            {
                var (x, y) = (cellX + Steps[direction].Dx, cellY + Steps[direction].Dy);
                if (x >= 0 && y >= 0 && x < _columns && y < _rows)
                {
                    var next = (y * _columns) + x;
                    Put((next * Steps.Length) + direction, best[state] + _cost[next] + (direction == heading ? 0 : Turn), state, x, y, direction);
                }
            }
        }

        var cells = new List<int>();
        for (; last >= 0; last = from[last])
        {
            if (cells.Count == 0 || cells[^1] != last / Steps.Length)
            {
                cells.Add(last / Steps.Length);
            }
        }

        cells.Reverse();
        return cells;

        void Put(int state, int cost, int before, int x, int y, int heading)
        {
            if (cost < best[state])
            {
                (best[state], from[state]) = (cost, before);

                // Of equal estimates the lower state comes first.
                open.Enqueue(state, ((long)(cost + Ahead(x, y, heading)) << 32) | (uint)state);
            }
        }

        // No way costs less: every step at the least price, and a turn wherever one can't be done without.
        int Ahead(int x, int y, int heading)
        {
            var (awayX, awayY) = (endX - x, endY - y);
            var ways = (awayX == 0 ? 0 : 1) + (awayY == 0 ? 0 : 1);
            var isUseful = (Steps[heading].Dx * awayX) + (Steps[heading].Dy * awayY) > 0;
            return (Shared * (Math.Abs(awayX) + Math.Abs(awayY))) + (Turn * (isUseful ? ways - 1 : ways));
        }
    }

    private int Cell(Point<PanelSpace> at) =>
        (Math.Clamp((int)Math.Round(at.YMm / _stepMm, MidpointRounding.AwayFromZero), 0, _rows - 1) * _columns) + Math.Clamp((int)Math.Round(at.XMm / _stepMm, MidpointRounding.AwayFromZero), 0, _columns - 1);

    private Point<PanelSpace> At(int cell) => new(cell % _columns * _stepMm, cell / _columns * _stepMm);
}
