using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Books;

/// <summary>
/// The cheapest way of a wire over the grid of a lamp board (C. Y. Lee, IRE Transactions on Electronic Computers EC-10 (1961) 346-365, with costs and an estimate of what is left as
/// in P. E. Hart, N. J. Nilsson and B. Raphael, IEEE Transactions on Systems Science and Cybernetics 4 (1968) 100-107): it may cross another wire at right angles, but never runs along it, and never bends or ends on it.
/// </summary>
/// <param name="grid">The grid.</param>
internal sealed class LampSearch(LampGrid grid)
{
    // In steps of the grid: few bends, fewer crossings, and room beside other wires for their numbers.
    private const double BendCost = 3;
    private const double CrossingCost = 9;
    private const double BesideCost = 0.7;
    private const double NearEndsCost = 1.2;

    // A piece that lies on no line of the grid keeps so much of a step from all others: more than half the way across one of its squares.
    private const double NearShare = 0.71;

    [Flags]
    private enum Use : byte
    {
        None = 0,
        Level = 1,
        Upright = 2,
        Whole = 4,
    }

    private readonly Use[] _used = new Use[grid.Columns * grid.Rows];
    private readonly List<(Point<PanelSpace> From, Point<PanelSpace> To)> _pieces = [];
    private readonly double[] _cost = new double[grid.Columns * grid.Rows * 4];
    private readonly int[] _before = new int[grid.Columns * grid.Rows * 4];

    /// <summary>Where a wire may begin or end: a place of the grid, the end itself, and what it costs to take it.</summary>
    public sealed record Door(int Node, Point<PanelSpace> End, double Cost);

    /// <summary>Forgets all wires but those.</summary>
    public void Lay(IEnumerable<ImmutableArray<Point<PanelSpace>>> ways)
    {
        Array.Clear(_used);
        _pieces.Clear();
        foreach (var way in ways)
        {
            foreach (var (from, to) in way.Zip(way.Skip(1)))
            {
                Lay(from, to);
            }

            foreach (var corner in way)
            {
                // Where a wire bends or ends no other passes.
                foreach (var node in grid.Near(Box<PanelSpace>.Around(corner, 0.02, 0.02)))
                {
                    _used[node] |= Use.Whole;
                }
            }
        }
    }

    /// <summary>Whether a straight piece keeps off all wires that lie, but for those that are joined to it where it begins.</summary>
    public bool IsFree(Point<PanelSpace> from, Point<PanelSpace> to) => _pieces.TrueForAll(piece => piece.From == from || piece.To == from || LampGrid.Apart(piece.From, piece.To, from, to) > grid.PitchMm * NearShare);

    /// <summary>A way between two sets of doors; null where there is none.</summary>
    public ImmutableArray<Point<PanelSpace>>? Of(LampRun run, IReadOnlyList<Door> starts, IReadOnlyList<Door> ends)
    {
        if (ends.Count == 0)
        {
            return null;
        }

        var block = grid.Block([.. ends.Select(door => door.Node)]);
        Array.Fill(_cost, double.PositiveInfinity);
        var (queue, order, goals) = (new PriorityQueue<int, (double, int)>(), 0, ends.GroupBy(door => door.Node).ToDictionary(group => group.Key, group => group.MinBy(door => door.Cost)!));
        var origins = new Dictionary<int, Door>();
        foreach (var door in starts.Where(door => _used[door.Node] == Use.None))
        {
            for (var direction = 0; direction < 4; direction++)
            {
                var turn = Turn(door.End, grid.At(door.Node), direction);
                if (turn >= 0 && door.Cost + turn < _cost[(door.Node * 4) + direction])
                {
                    (_cost[(door.Node * 4) + direction], _before[(door.Node * 4) + direction], origins[(door.Node * 4) + direction]) = (door.Cost + turn, -1, door);
                    queue.Enqueue((door.Node * 4) + direction, (door.Cost + turn + grid.Steps(door.Node, block), order++));
                }
            }
        }

        var (best, last, least) = ((Door?)null, -1, double.PositiveInfinity);
        while (queue.TryDequeue(out var state, out var reached) && reached.Item1 < least)
        {
            var (node, direction) = (state / 4, state % 4);
            var far = _cost[state];
            if (reached.Item1 > far + grid.Steps(node, block) + 1e-9)
            {
                continue;
            }

            if (_used[node] == Use.None && goals.TryGetValue(node, out var goal) && Turn(goal.End, grid.At(node), (direction + 2) % 4) is >= 0 and var turned && far + goal.Cost + turned < least)
            {
                (best, last, least) = (goal, state, far + goal.Cost + turned);
            }

            for (var way = 0; way < 4; way++)
            {
                if (way == (direction + 2) % 4 || (way != direction && _used[node] != Use.None))
                {
                    continue;
                }

                var next = grid.Next(node, way);
                if (next < 0 || grid.IsClosed(next) || (_used[next] & (Use.Whole | (way % 2 == 0 ? Use.Level : Use.Upright))) != 0 || !grid.IsClear(node, grid.At(node), grid.At(next), run))
                {
                    continue;
                }

                var cost = far + 1 + (way == direction ? 0 : BendCost) + (_used[next] == Use.None ? 0 : CrossingCost) + Crowd(next, way);
                if (cost < _cost[(next * 4) + way])
                {
                    (_cost[(next * 4) + way], _before[(next * 4) + way]) = (cost, state);
                    queue.Enqueue((next * 4) + way, (cost + grid.Steps(next, block), order++));
                }
            }
        }

        return best is null ? null : Corners(best, last, origins);
    }

    /// <summary>What a bend at a door costs; less than 0 for one that would turn back.</summary>
    private static double Turn(Point<PanelSpace> end, Point<PanelSpace> node, int direction)
    {
        var (dx, dy) = (node.XMm - end.XMm, node.YMm - end.YMm);
        var along = (dx * LampGrid.Directions[direction].Dx) + (dy * LampGrid.Directions[direction].Dy);
        return along < -1e-6 ? -1 : Math.Abs(Math.Sqrt((dx * dx) + (dy * dy)) - along) < 1e-6 ? 0 : BendCost / 2;
    }

    private double Crowd(int node, int way)
    {
        var mine = way % 2 == 0 ? Use.Level | Use.Whole : Use.Upright | Use.Whole;
        var beside = 0.0;
        for (var side = 1; side < 4; side += 2)
        {
            var next = grid.Next(node, (way + side) % 4);
            beside += next >= 0 && (_used[next] & mine) != 0 ? BesideCost : 0;
        }

        return beside + (grid.IsNearEnds(node) ? NearEndsCost : 0);
    }

    private ImmutableArray<Point<PanelSpace>> Corners(Door goal, int last, Dictionary<int, Door> origins)
    {
        var way = new List<Point<PanelSpace>> { goal.End };
        var state = last;
        while (state >= 0)
        {
            Add(way, grid.At(state / 4));
            if (_before[state] < 0)
            {
                Add(way, origins[state].End);
            }

            state = _before[state];
        }

        way.Reverse();
        return [.. way];
    }

    /// <summary>A corner; one on a straight line is left out.</summary>
    private static void Add(List<Point<PanelSpace>> way, Point<PanelSpace> next)
    {
        if (way[^1].DistanceMm(next) < 1e-6)
        {
            return;
        }

        if (way.Count > 1 && way[^1].DistanceMm(way[^2], next) < 1e-6)
        {
            way.RemoveAt(way.Count - 1);
        }

        way.Add(next);
    }

    private void Lay(Point<PanelSpace> from, Point<PanelSpace> to)
    {
        _pieces.Add((from, to));
        var (isLevel, isUpright) = (Math.Abs(from.YMm - to.YMm) < 1e-6, Math.Abs(from.XMm - to.XMm) < 1e-6);
        foreach (var node in grid.Near(Box<PanelSpace>.Between(from, to).Grow(grid.PitchMm)))
        {
            var far = grid.At(node).DistanceMm(from, to);
            if (far < 1e-6 && (isLevel || isUpright))
            {
                _used[node] |= isLevel ? Use.Level : Use.Upright;
            }
            else if (far < grid.PitchMm * NearShare && (!(isLevel || isUpright) || !IsOnGrid(from, to, isLevel)))
            {
                // A slanting piece, or one that is not on a line of the grid, is never crossed.
                _used[node] |= Use.Whole;
            }
        }
    }

    private bool IsOnGrid(Point<PanelSpace> from, Point<PanelSpace> to, bool isLevel)
    {
        var off = isLevel ? (from.YMm - grid.At(0).YMm) / grid.PitchMm : (from.XMm - grid.At(0).XMm) / grid.PitchMm;
        return Math.Abs(off - Math.Round(off, MidpointRounding.AwayFromZero)) < 1e-6 && from != to;
    }
}
