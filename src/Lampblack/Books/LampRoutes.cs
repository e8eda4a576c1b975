using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Books;

/// <summary>
/// The ways of all wires of a lamp board, so that each can be followed with the eye: wires cross at right angles or not at all, and where too many would meet the rest go to a picture
/// of its own. Each is taken up and laid again once all lie, which takes out crossings that came from the order alone.
/// </summary>
internal sealed class LampRoutes
{
    private const int MostPictures = 3;
    private const int Again = 3;
    private const int MostOrders = 4;
    private const double ReachOfLeg = 1.6;
    private const double NeighboursMm = 9;

    // A way along the perforated board is as long as one on the lamp board.
    private const double AsideCost = 1;

    private readonly LampBoard _board;
    private readonly LampGrid _grid;
    private readonly LampWays _ways;
    private readonly LampSearch _search;

    private LampRoutes(LampBoard board, ImmutableArray<(Point<PanelSpace> Plus, Point<PanelSpace> Minus)> lamps)
    {
        _board = board;
        _ways = new(board);
        var closed = _ways.Fixed;
        var pitch = new LampGrid(board, LampBoardDrawing.Scale(board), [], [], default).PitchMm;
        _grid = new(board, LampBoardDrawing.Scale(board), lamps, [.. closed.Select(area => area == board.Joints ? area.Grow(pitch * 0.4) : area)], board.Joints.Grow(pitch * 1.5));
        _search = new(_grid);
    }

    /// <summary>Gives each wire its way.</summary>
    public static ImmutableArray<LampRun> Of(LampBoard board, ImmutableArray<LampRun> runs, ImmutableArray<(Point<PanelSpace> Plus, Point<PanelSpace> Minus)> lamps) =>
        new LampRoutes(board, lamps).All(runs);

    private ImmutableArray<LampRun> All(ImmutableArray<LampRun> runs)
    {
        var done = runs.ToArray();
        var open = Enumerable.Range(0, runs.Length).OrderBy(index => runs[index].LeastMm(_board.Joints.Centre)).ThenBy(index => index).ToList();
        for (var picture = 0; picture < MostPictures && open.Count > 0; picture++)
        {
            var ways = Picture([.. open.Select(index => runs[index])]);
            for (var again = 0; again < MostOrders && ways.Any(way => way.IsEmpty); again++)
            {
                // Those that found no room go first.
                List<int> order = [.. open.Where((_, at) => ways[at].IsEmpty), .. open.Where((_, at) => !ways[at].IsEmpty)];
                var others = Picture([.. order.Select(index => runs[index])]);
                if (others.Count(way => way.IsEmpty) >= ways.Count(way => way.IsEmpty))
                {
                    break;
                }

                (open, ways) = (order, others);
            }

            foreach (var (index, way) in open.Zip(ways))
            {
                done[index] = done[index] with { Way = way, Picture = picture, AsideMm = way.IsEmpty ? 0 : Aside(runs[index], way) };
            }

            open.RemoveAll(index => done[index].Way.Length > 0);
        }

        foreach (var index in open)
        {
            var run = runs[index];
            var (way, isAcross) = _ways.Of(run.From ?? Straight(run, run.To!.Value), run.To ?? Straight(run, run.From!.Value));
            done[index] = run with { Way = way, IsAcross = isAcross, Picture = MostPictures };
        }

        return [.. done];
    }

    /// <summary>The ways of some in one picture; none for those that find no room.</summary>
    private ImmutableArray<Point<PanelSpace>>[] Picture(ImmutableArray<LampRun> runs)
    {
        var ways = runs.Select(_ => ImmutableArray<Point<PanelSpace>>.Empty).ToArray();
        var direct = new bool[runs.Length];
        foreach (var (index, run) in runs.Index())
        {
            // Neighbours are joined straight: nothing comes between them.
            _search.Lay(ways);
            if (run.From is { } from && run.To is { } to && from.DistanceMm(to) < Math.Max(NeighboursMm, 4 * _grid.PitchMm) && _grid.IsClear(from, to, run) && _search.IsFree(from, to))
            {
                (ways[index], direct[index]) = ([from, to], true);
            }
        }

        var isChanged = true;
        for (var round = 0; round <= Again && isChanged; round++)
        {
            isChanged = false;
            foreach (var (index, run) in runs.Index().Where(one => !direct[one.Index]))
            {
                var kept = ways[index];
                ways[index] = [];
                _search.Lay(ways);
                ways[index] = _search.Of(run, Doors(run, run.From, run.To), Doors(run, run.To, run.From)) ?? kept;
                isChanged |= !ways[index].SequenceEqual(kept);
            }
        }

        return ways;
    }

    private List<LampSearch.Door> Doors(LampRun run, Point<PanelSpace>? end, Point<PanelSpace>? other) => end is { } leg ? Legs(run, leg) : Ports(run, other!.Value);

    /// <summary>Places of the grid round a leg that a short straight piece leads to.</summary>
    private List<LampSearch.Door> Legs(LampRun run, Point<PanelSpace> leg) =>
    [
        .. _grid.Near(Box<PanelSpace>.Around(leg, 2 * ReachOfLeg * _grid.PitchMm, 2 * ReachOfLeg * _grid.PitchMm))
            .Where(node => !_grid.IsClosed(node) && _grid.IsClear(leg, _grid.At(node), run) && _search.IsFree(leg, _grid.At(node)))
            .Select(node => new LampSearch.Door(node, leg, leg.DistanceMm(_grid.At(node)) / _grid.PitchMm)),
    ];

    /// <summary>Places along the perforated board's long edges: best at its own column.</summary>
    private List<LampSearch.Door> Ports(LampRun run, Point<PanelSpace> other)
    {
        var (area, doors) = (_board.Joints, new List<LampSearch.Door>());
        var isLevel = area.WidthMm >= area.HeightMm;
        var best = Best(run);
        foreach (var node in _grid.Near(area.Grow(1.6 * _grid.PitchMm)))
        {
            var at = _grid.At(node);
            var (along, across, from, to, low, high) = isLevel ? (at.XMm, at.YMm, area.LeftMm, area.RightMm, area.BottomMm, area.TopMm) : (at.YMm, at.XMm, area.BottomMm, area.TopMm, area.LeftMm, area.RightMm);
            var off = across > high ? across - high : low - across;
            if (along < from + 1 || along > to - 1 || off < _grid.PitchMm * 0.45 || off >= _grid.PitchMm * 1.5 || _grid.IsClosed(node))
            {
                continue;
            }

            var edge = across > high ? high : low;
            var end = isLevel ? new Point<PanelSpace>(along, edge) : new(edge, along);
            if (_grid.IsClear(node, end, at, run) && _search.IsFree(end, at))
            {
                doors.Add(new(node, end, ((AsideCost * Math.Abs(along - best)) + off) / _grid.PitchMm));
            }
        }

        return doors.Count > 0 ? doors : [.. _grid.Near(Box<PanelSpace>.Around(Straight(run, other), 3 * _grid.PitchMm, 3 * _grid.PitchMm)).Where(node => !_grid.IsClosed(node)).Select(node => new LampSearch.Door(node, Straight(run, other), 1))];
    }

    /// <summary>Along the strip from right to left as seen from the front: from behind that reads from left to right.</summary>
    private double Best(LampRun run) => _board.Joints is var area && area.WidthMm >= area.HeightMm ? area.RightMm - (run.Share * area.WidthMm) : area.TopMm - (run.Share * area.HeightMm);

    /// <summary>How far a wire goes on along the perforated board to its own place there.</summary>
    private double Aside(LampRun run, ImmutableArray<Point<PanelSpace>> way) => (run.From, run.To) switch
    {
        (null, _) => Math.Abs((_board.Joints.WidthMm >= _board.Joints.HeightMm ? way[0].XMm : way[0].YMm) - Best(run)),
        (_, null) => Math.Abs((_board.Joints.WidthMm >= _board.Joints.HeightMm ? way[^1].XMm : way[^1].YMm) - Best(run)),
        _ => 0,
    };

    private Point<PanelSpace> Straight(LampRun run, Point<PanelSpace> from) => _board.Joints is var area && area.WidthMm >= area.HeightMm
        ? new(Best(run), from.YMm > area.Centre.YMm ? area.TopMm : area.BottomMm)
        : new(from.XMm > area.Centre.XMm ? area.RightMm : area.LeftMm, Best(run));
}
