using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Books;

/// <summary>
/// Ways of wires on a lamp board's back: straight where nothing is in the way, else the shortest way round what carries the board and its screws, what is cut off,
/// the strip of perforated board, other emitters' legs, and the other leg of an emitter that the wire ends at.
/// </summary>
internal sealed class LampWays
{
    /// <summary>How far a wire keeps from what carries the board: a washer of 7 mm on a strip of 8 mm has room then, too. From memory.</summary>
    public const double ClearMm = 2;

    // Beyond an emitter's round body of 5 mm: a wire that comes to the farther leg is seen to pass the nearer one.
    private const double PastLegMm = 3.2;
    private const double BesideLegMm = 1.4;
    private const double HalfEmitterMm = 2.7;
    private const double EdgeMm = 1;
    private const int MostRounds = 16;

    private readonly ImmutableArray<Box<PanelSpace>> _fixed;
    private readonly ImmutableArray<(BookLamp Lamp, Box<PanelSpace> Area)> _lamps;
    private readonly Box<PanelSpace> _within;

    /// <summary>What stands on a board.</summary>
    public LampWays(LampBoard board)
    {
        _within = board.Box.Inside.Grow(-EdgeMm);
        _fixed =
        [
            .. board.Rests.Select(rest => rest.Area.Grow(ClearMm)),
            .. board.Blocks.Select(block => block.Grow(Layout.ScrewBlock.PastMm + EdgeMm)),
            .. board.Notch is { } notch ? [notch.Area.Grow(EdgeMm)] : ImmutableArray<Box<PanelSpace>>.Empty,
            .. board.Stand == JointsStand.Glued && !board.Channels.IsEmpty ? [board.Joints] : ImmutableArray<Box<PanelSpace>>.Empty,
        ];
        _lamps = [.. board.Channels.Where(channel => channel.IsSingles).SelectMany(channel => channel.Pieces).SelectMany(piece => piece).OrderBy(lamp => lamp.Number)
            .Select(lamp => (lamp, Around(new(lamp.XMm, lamp.YMm), HalfEmitterMm + LampBoard.LegMm - BesideLegMm, HalfEmitterMm)))];
    }

    /// <summary>What stands on the board and stays there: no wire lies on it.</summary>
    public ImmutableArray<Box<PanelSpace>> Fixed => _fixed;

    /// <summary>The corners of a wire's way, both ends included, and whether it had to go across what stands there.</summary>
    public (ImmutableArray<Point<PanelSpace>> Way, bool IsAcross) Of(Point<PanelSpace> from, Point<PanelSpace> to)
    {
        // The other leg of an emitter where it begins or ends stands in the way, the emitter itself does not.
        var all = _fixed.ToList();
        foreach (var (lamp, area) in _lamps)
        {
            var (plus, minus) = (LampBoard.Plus(lamp), LampBoard.Minus(lamp));
            var other = from == plus || to == plus ? minus : from == minus || to == minus ? plus : (Point<PanelSpace>?)null;
            all.Add(other is { } leg ? Around(leg, BesideLegMm, PastLegMm) : area);
        }

        all.RemoveAll(area => Holds(area, from) || Holds(area, to));
        var (met, way) = (new List<Box<PanelSpace>>(), ImmutableArray.Create(from, to));
        for (var round = 0; round < MostRounds; round++)
        {
            var more = all.FindAll(area => !met.Contains(area) && way.Zip(way.Skip(1)).Any(side => Crosses(area, side.First, side.Second)));
            if (more.Count == 0)
            {
                break;
            }

            met.AddRange(more);
            if (Shortest(from, to, met) is not { } around)
            {
                break;
            }

            way = around;
        }

        // What an end lies in was left out of the search: it is crossed all the same.
        var isAcross = all.Union(_fixed).Any(area => way.Zip(way.Skip(1)).Any(side => Crosses(area, side.First, side.Second)));
        return (way, isAcross);
    }

    /// <summary>The shortest way from corner to corner of what was met (E. W. Dijkstra, Numerische Mathematik 1 (1959) 269-271); null where there is none.</summary>
    private ImmutableArray<Point<PanelSpace>>? Shortest(Point<PanelSpace> from, Point<PanelSpace> to, List<Box<PanelSpace>> met)
    {
        List<Point<PanelSpace>> points =
        [
            from, to,
            .. met.SelectMany(area => new Point<PanelSpace>[] { new(area.LeftMm, area.BottomMm), new(area.RightMm, area.BottomMm), new(area.RightMm, area.TopMm), new(area.LeftMm, area.TopMm) })
                .Where(point => _within.Contains(point) && !met.Exists(area => Holds(area, point))),
        ];
        var (far, before, open) = (points.ConvertAll(_ => double.PositiveInfinity), new int[points.Count], Enumerable.Range(0, points.Count).ToHashSet());
        far[0] = 0;
        while (open.Count > 0)
        {
            var at = open.MinBy(index => (far[index], index));
            if (at == 1 || double.IsPositiveInfinity(far[at]))
            {
                break;
            }

            open.Remove(at);
            foreach (var next in open.Order().ToList())
            {
                var length = far[at] + points[at].DistanceMm(points[next]);
                if (length < far[next] - 1e-9 && !met.Exists(area => Crosses(area, points[at], points[next])))
                {
                    (far[next], before[next]) = (length, at);
                }
            }
        }

        if (double.IsPositiveInfinity(far[1]))
        {
            return null;
        }

        var way = new List<Point<PanelSpace>> { to };
        for (var at = 1; at != 0; at = before[at])
        {
            way.Add(points[before[at]]);
        }

        way.Reverse();
        return [.. way];
    }

    private static Box<PanelSpace> Around(Point<PanelSpace> at, double acrossMm, double upMm) => Box<PanelSpace>.Around(at, 2 * acrossMm, 2 * upMm);

    private static bool Holds(Box<PanelSpace> area, Point<PanelSpace> point) => area.Grow(-1e-6).Contains(point);

    private static bool Crosses(Box<PanelSpace> area, Point<PanelSpace> from, Point<PanelSpace> to) => area.Grow(-1e-6).InsideShare(from, to) > 1e-9;
}
