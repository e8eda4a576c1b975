using System;
using System.Collections.Generic;

namespace Lampblack.VectorArt;

/// <summary>Elliptical arcs by their ends (SVG 1.1, implementation notes F.6).</summary>
internal static class EllipseArc
{
    /// <summary>The most that one cubic piece turns: 22.5 degrees, which it follows within a ten-millionth of the radius.</summary>
    private const double MostRadians = Math.PI / 8;

    /// <summary>Centre, radii and angles of an arc that is given by its ends (F.6.5), radii enlarged where they don't reach (F.6.6).</summary>
    public static (Spot Centre, double RadiusX, double RadiusY, double StartRadians, double SweepRadians) Centre(
        Spot from, double radiusX, double radiusY, double turnDegrees, bool isLarge, bool isSweep, Spot to)
    {
        var (sine, cosine) = Math.SinCos(turnDegrees % 360 * Math.PI / 180);
        var half = 0.5 * (from - to);
        var (x, y) = ((cosine * half.X) + (sine * half.Y), (cosine * half.Y) - (sine * half.X));
        var (rx, ry) = (Math.Abs(radiusX), Math.Abs(radiusY));
        var stretch = (x / rx * (x / rx)) + (y / ry * (y / ry));
        if (stretch > 1)
        {
            (rx, ry) = (rx * Math.Sqrt(stretch), ry * Math.Sqrt(stretch));
        }

        var (u, v) = (x / rx, y / ry);
        var root = Math.Sqrt(Math.Max(0, (1 / ((u * u) + (v * v))) - 1)) * (isLarge == isSweep ? -1 : 1);
        var (cx, cy) = (root * rx * v, -root * ry * u);
        var centre = new Spot((cosine * cx) - (sine * cy), (sine * cx) + (cosine * cy)) + (0.5 * (from + to));
        var start = Math.Atan2((y - cy) / ry, (x - cx) / rx);
        var sweep = Math.Atan2((-y - cy) / ry, (-x - cx) / rx) - start;
        sweep += isSweep ? (sweep < 0 ? 2 * Math.PI : 0) : (sweep > 0 ? -2 * Math.PI : 0);
        return (centre, rx, ry, start, sweep);
    }

    /// <summary>The arc as cubic pieces; a line where a radius is nothing, nothing where both ends are one (F.6.2).</summary>
    public static IEnumerable<PathPiece> Pieces(Spot from, double radiusX, double radiusY, double turnDegrees, bool isLarge, bool isSweep, Spot to)
    {
        if (from == to)
        {
            yield break;
        }

        if (radiusX == 0 || radiusY == 0)
        {
            yield return PathPiece.Line(from, to);
            yield break;
        }

        var arc = Centre(from, radiusX, radiusY, turnDegrees, isLarge, isSweep, to);
        var frame = Matrix.Shift(arc.Centre.X, arc.Centre.Y) * Matrix.Turn(turnDegrees) * Matrix.Scale(arc.RadiusX, arc.RadiusY);
        var count = (int)Math.Max(1, Math.Ceiling((Math.Abs(arc.SweepRadians) / MostRadians) - 1e-9));
        var step = arc.SweepRadians / count;
        var reach = 4.0 / 3 * Math.Tan(step / 4);
        var before = from;
        for (var index = 1; index <= count; index++)
        {
            var (sine, cosine) = Math.SinCos(arc.StartRadians + (step * (index - 1)));
            var (nextSine, nextCosine) = Math.SinCos(arc.StartRadians + (step * index));
            var next = index == count ? to : frame.Apply(new(nextCosine, nextSine));
            yield return new(
                false,
                before,
                frame.Apply(new(cosine - (reach * sine), sine + (reach * cosine))),
                frame.Apply(new(nextCosine + (reach * nextSine), nextSine - (reach * nextCosine))),
                next,
                index == count);
            before = next;
        }
    }
}
