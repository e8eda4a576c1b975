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
            AddChord(at - new Spot(_radius, 0), at + new Spot(_radius, 0));
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
            var before = stretch.StartWay;
            for (var spot = 1; spot < stretch.Spots.Count; spot++)
            {
                var way = (stretch.Spots[spot] - stretch.Spots[spot - 1]).Unit();
                RoundJoint(stretch.Spots[spot - 1], before, way);
                AddChord(stretch.Spots[spot - 1], stretch.Spots[spot]);
                before = way;
            }

            RoundJoint(stretch.Spots[^1], before, stretch.EndWay);
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

    private void AddChord(Spot from, Spot to)
    {
        // The middles are corners too: what is put against an end then shares its sides to the last step of the grid.
        var edge = _radius * Right((to - from).Unit());
        Put([from - edge, from, from + edge, to + edge, to, to - edge]);
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
        var turn = Math.Atan2(Spot.Cross(before, after), Spot.Dot(before, after));
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
            var (sine, cosine) = Math.SinCos(radians * index / steps);
            slice[index + 1] = at + (_radius * new Spot((start.X * cosine) - (start.Y * sine), (start.X * sine) + (start.Y * cosine)));
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

    /// <summary>A quarter turn by which a way to the right gets a way down, in coordinates where y points up.</summary>
    private static Spot Right(Spot way) => new(way.Y, -way.X);
}
