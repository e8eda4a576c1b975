using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.VectorArt;

/// <summary>
/// What a pen covers along a line, as small outlines that all turn the same way: one along each chord, one for each joint, one for each end.
/// Together, by the nonzero rule, they are the stroke (SVG 2, 13.5.8, describes it so).
/// </summary>
internal sealed class Stroker
{
    private readonly Stroke _stroke;
    private readonly Matrix _toMm;
    private readonly double _error;
    private readonly double _radius;
    private readonly double _stepRadians;
    private readonly Budget _budget;
    private readonly List<Spot[]> _outlines = [];

    private Stroker(Stroke stroke, Matrix toMm, double errorMm, Budget budget)
    {
        (_stroke, _toMm, _budget) = (stroke, toMm, budget);
        _error = errorMm / toMm.Largest;
        _radius = stroke.Width / 2;

        // The sagitta of a chord over the angle 2a is r (1 - cos a).
        _stepRadians = _radius > _error ? Math.Max(2 * Math.Acos(1 - (_error / _radius)), Math.PI / 512) : Math.PI / 4;
    }

    /// <summary>The outlines, in mm, all counter-clockwise where y points up.</summary>
    public static List<Spot[]> Outlines(IEnumerable<Trail> trails, Stroke stroke, Matrix toMm, double errorMm, Budget budget)
    {
        var stroker = new Stroker(stroke, toMm, errorMm, budget);
        foreach (var trail in trails)
        {
            stroker.Add(trail);
        }

        return stroker._outlines;
    }

    private void Add(Trail trail)
    {
        if (trail.Pieces.TrueForAll(piece => piece.IsPoint))
        {
            AddPoint(trail.Start);
        }
        else if (_stroke.Dashes.Count > 0)
        {
            foreach (var dash in Dashing.Cut(trail, _stroke, _error, _budget))
            {
                AddRun(dash, isClosed: false);
            }
        }
        else
        {
            AddRun(trail.Pieces, trail.IsClosed);
        }
    }

    /// <summary>A line without length is a disc or a square where its ends are round or square (SVG 1.1, 11.4).</summary>
    private void AddPoint(Spot at)
    {
        if (_stroke.Cap == StrokeCap.Round)
        {
            Fan(at, new(1, 0), Math.PI);
            Fan(at, new(-1, 0), Math.PI);
        }
        else if (_stroke.Cap == StrokeCap.Square)
        {
            AddStrip([at - new Spot(_radius, 0), at + new Spot(_radius, 0)], [new(1, 0)], 0, 1);
        }
    }

    private void AddRun(List<PathPiece> pieces, bool isClosed)
    {
        var stretches = pieces.Select(piece => Stretch.Of(piece, _error, _radius, _budget)).OfType<Stretch>().ToList();
        if (stretches.Count == 0)
        {
            return;
        }

        for (var index = 0; index < stretches.Count; index++)
        {
            var stretch = stretches[index];
            var ways = Enumerable.Range(1, stretch.Spots.Count - 1).Select(spot => (stretch.Spots[spot] - stretch.Spots[spot - 1]).Unit()).ToList();
            RoundJoint(stretch.Spots[0], stretch.StartWay, ways[0]);
            for (var from = 0; from < ways.Count;)
            {
                var to = EndOfStrip(stretch.Spots, ways, from);
                AddStrip(stretch.Spots, ways, from, to);
                if (to < ways.Count)
                {
                    RoundJoint(stretch.Spots[to], ways[to - 1], ways[to]);
                }

                from = to;
            }

            RoundJoint(stretch.Spots[^1], ways[^1], stretch.EndWay);
            if (index + 1 < stretches.Count || isClosed)
            {
                Joint(stretch.Spots[^1], stretch.EndWay, stretches[(index + 1) % stretches.Count].StartWay);
            }
        }

        if (!isClosed)
        {
            Cap(stretches[0].Spots[0], -1 * stretches[0].StartWay);
            Cap(stretches[^1].Spots[^1], stretches[^1].EndWay);
        }
    }

    /// <summary>
    /// How far chords make one simple outline: while they turn little altogether, so that no edge can meet another, and while no inner edge is
    /// used up by its joints, so that none folds back.
    /// </summary>
    private int EndOfStrip(List<Spot> spots, List<Spot> ways, int from)
    {
        const double mostTurning = 1.4;
        const double mostAtOnce = 0.5;
        double turned = 0;
        double used = 0;
        var to = from + 1;
        for (; to < ways.Count; to++)
        {
            var turn = Math.Abs(Turn(ways[to - 1], ways[to]));
            var joint = _radius * Math.Tan(turn / 2);
            turned += turn;
            if (turn > mostAtOnce || turned > mostTurning || used + joint >= (spots[to] - spots[to - 1]).Length || joint >= (spots[to + 1] - spots[to]).Length)
            {
                break;
            }

            used = joint;
        }

        return to;
    }

    /// <summary>The outline along chords: their right edges forwards, their left edges back.</summary>
    private void AddStrip(List<Spot> spots, List<Spot> ways, int from, int to)
    {
        var right = new List<Spot> { spots[from] + (_radius * Right(ways[from])) };
        var left = new List<Spot> { spots[from] - (_radius * Right(ways[from])) };
        for (var at = from + 1; at < to; at++)
        {
            var (before, after) = (Right(ways[at - 1]), Right(ways[at]));
            var turn = Turn(ways[at - 1], ways[at]);
            var corner = _radius / (1 + Spot.Dot(before, after)) * (before + after);
            var (outer, inner, side) = turn > 0 ? (right, left, 1) : (left, right, -1);
            inner.Add(spots[at] - (side * corner));
            if (Math.Abs(turn) <= _stepRadians)
            {
                outer.Add(spots[at] + (side * corner));
                continue;
            }

            var steps = (int)Math.Ceiling(Math.Abs(turn) / _stepRadians);
            for (var index = 0; index <= steps; index++)
            {
                outer.Add(spots[at] + (side * _radius * Turned(before, turn * index / steps)));
            }
        }

        // The middles of both ends are corners too: what is put against them then shares its sides to the last step of the grid.
        var edge = _radius * Right(ways[to - 1]);
        left.Reverse();
        Put([spots[from], .. right, spots[to] + edge, spots[to], spots[to] - edge, .. left]);
    }

    private void Cap(Spot at, Spot way)
    {
        var edge = _radius * Right(way);
        switch (_stroke.Cap)
        {
            case StrokeCap.Round:
                Fan(at, Right(way), Math.PI);
                break;
            case StrokeCap.Square:
                Put([at, at + edge, at + edge + (_radius * way), at - edge + (_radius * way), at - edge]);
                break;
        }
    }

    private void Joint(Spot at, Spot before, Spot after)
    {
        if (_stroke.Join == StrokeJoin.Round)
        {
            RoundJoint(at, before, after);
            return;
        }

        // The outer edge lies right of both ways where the line turns to the left, and left of them otherwise.
        var turn = Spot.Cross(before, after);
        var side = turn > 0 ? 1 : -1;
        var (first, second) = (side * Right(before), side * Right(after));
        var cosine = Spot.Dot(before, after);
        if (Math.Abs(turn) < 1e-9 && cosine > 0)
        {
            return;
        }

        // A mitre is as long as the width over the cosine of half the turn: 1 / cos(turn / 2) = sqrt(2 / (1 + cos turn)).
        if (_stroke.Join == StrokeJoin.Miter && 2 <= _stroke.MiterLimit * _stroke.MiterLimit * (1 + cosine) && 1 + cosine > 1e-9)
        {
            Put([at, at + (_radius * first), at + (_radius / (1 + cosine) * (first + second)), at + (_radius * second)]);
        }
        else
        {
            Put([at, at + (_radius * first), at + (_radius * second)]);
        }
    }

    private void RoundJoint(Spot at, Spot before, Spot after)
    {
        var turn = Turn(before, after);
        if (Math.Abs(turn) > 1e-9)
        {
            Fan(at, turn > 0 ? Right(before) : -1 * Right(before), turn);
        }
    }

    /// <summary>A slice of a disc that begins at a way and turns by an angle.</summary>
    private void Fan(Spot at, Spot start, double radians)
    {
        var steps = (int)Math.Ceiling(Math.Abs(radians) / _stepRadians);
        var slice = new Spot[steps + 2];
        slice[0] = at;
        for (var index = 0; index <= steps; index++)
        {
            slice[index + 1] = at + (_radius * Turned(start, radians * index / steps));
        }

        Put(slice);
    }

    private void Put(Spot[] outline)
    {
        _budget.Spend(outline.Length);
        double twice = 0;
        for (var index = 0; index < outline.Length; index++)
        {
            outline[index] = _toMm.Apply(outline[index]);
        }

        for (var index = 0; index < outline.Length; index++)
        {
            twice += Spot.Cross(outline[index] - outline[0], outline[(index + 1) % outline.Length] - outline[0]);
        }

        if (twice < 0)
        {
            Array.Reverse(outline);
        }

        _outlines.Add(outline);
    }

    /// <summary>The angle from one way to another, in radians.</summary>
    private static double Turn(Spot before, Spot after) => Math.Atan2(Spot.Cross(before, after), Spot.Dot(before, after));

    private static Spot Turned(Spot way, double radians)
    {
        var (sine, cosine) = Math.SinCos(radians);
        return new((way.X * cosine) - (way.Y * sine), (way.X * sine) + (way.Y * cosine));
    }

    /// <summary>A quarter turn by which a way to the right gets a way down, in coordinates where y points up.</summary>
    private static Spot Right(Spot way) => new(way.Y, -way.X);
}
