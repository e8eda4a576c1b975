using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Artwork;

/// <summary>Shapes of rules.</summary>
internal static class RuleShape
{
    public static Region<PanelSpace> Of(PlacedRule placed)
    {
        var rule = placed.Rule;
        var shift = placed.Shift;
        var line = rule.Form switch
        {
            LineForm form => Line(Points(form.PointsMm, shift), form.CornerMm, rule.WidthMm, form.RoundEnds),
            ArcForm form => Arc(form, shift, rule.WidthMm),
            FrameForm form => Frame(form, shift, rule.WidthMm),
            BracketForm form => Bracket(form, shift, rule.WidthMm),
            ArrowForm form => Arrow(form, shift, rule.WidthMm),
            _ => Region<PanelSpace>.Empty,
        };
        return placed.Gap is { } gap ? line.Except(Region<PanelSpace>.Rectangle(gap)) : line;
    }

    private static ImmutableArray<Point<PanelSpace>> Points(ImmutableArray<(double XMm, double YMm)> points, Vector<PanelSpace> shift) =>
        [.. points.Select(point => new Point<PanelSpace>(point.XMm, point.YMm) + shift)];

    private static Region<PanelSpace> Line(ImmutableArray<Point<PanelSpace>> points, double cornerMm, double widthMm, bool round)
    {
        var closed = points.Length > 3 && points[0] == points[^1];
        var path = cornerMm > 0 ? Rounded(points, cornerMm) : points;
        return Region<PanelSpace>.Stroke(
            closed && cornerMm <= 0 ? new(path.RemoveAt(path.Length - 1), Closed: true) : new(path, Closed: false),
            widthMm,
            round ? LineEnd.Round : LineEnd.Flat);
    }

    private static Region<PanelSpace> Arc(ArcForm form, Vector<PanelSpace> shift, double widthMm)
    {
        var centre = new Point<PanelSpace>(form.XMm, form.YMm) + shift;
        var inner = Math.Max(0, form.RadiusMm - (widthMm / 2));
        return DialShape.Band(centre, new(form.FromDegrees, form.ToDegrees, inner, form.RadiusMm + (widthMm / 2), null!));
    }

    private static Region<PanelSpace> Frame(FrameForm form, Vector<PanelSpace> shift, double widthMm)
    {
        var middle = new Box<PanelSpace>(form.LeftMm + shift.DxMm, form.BottomMm + shift.DyMm, form.WidthMm, form.HeightMm);
        var outer = Region<PanelSpace>.RoundedRectangle(middle.Grow(widthMm / 2), form.CornerMm > 0 ? form.CornerMm + (widthMm / 2) : 0);
        var inner = Region<PanelSpace>.RoundedRectangle(middle.Grow(-widthMm / 2), Math.Max(0, form.CornerMm - (widthMm / 2)));
        return outer.Except(inner);
    }

    private static Region<PanelSpace> Bracket(BracketForm form, Vector<PanelSpace> shift, double widthMm)
    {
        var from = new Point<PanelSpace>(form.FromXMm, form.FromYMm) + shift;
        var to = new Point<PanelSpace>(form.ToXMm, form.ToYMm) + shift;
        var way = to - from;
        if (!(way.LengthMm > 0))
        {
            return Region<PanelSpace>.Empty;
        }

        var side = form.DepthMm / way.LengthMm * new Vector<PanelSpace>(way.DyMm, -way.DxMm);
        return Region<PanelSpace>.Stroke(new([from + side, from, to, to + side], Closed: false), widthMm, LineEnd.Flat);
    }

    private static Region<PanelSpace> Arrow(ArrowForm form, Vector<PanelSpace> shift, double widthMm)
    {
        var points = Points(form.PointsMm, shift).ToList();
        var pieces = new List<Region<PanelSpace>>();
        AddHead(points, form.HeadMm, widthMm, pieces);
        if (form.BothEnds)
        {
            points.Reverse();
            AddHead(points, form.HeadMm, widthMm, pieces);
        }

        pieces.Add(Region<PanelSpace>.Stroke(new([.. points], Closed: false), widthMm, LineEnd.Flat));
        return Region<PanelSpace>.Union(pieces);
    }

    /// <summary>Adds a head at the last point and shortens the line to the head's base.</summary>
    private static void AddHead(List<Point<PanelSpace>> points, double headMm, double widthMm, List<Region<PanelSpace>> pieces)
    {
        var tip = points[^1];
        var way = tip - points[^2];
        if (!(way.LengthMm > 0))
        {
            return;
        }

        // Two thirds as wide as long, and never narrower than twice the line: the shape of a drawn arrow.
        var half = Math.Max(headMm / 3, widthMm);
        var along = 1 / way.LengthMm * way;
        var across = new Vector<PanelSpace>(-along.DyMm, along.DxMm);
        var foot = tip + (-headMm * along);
        pieces.Add(Region<PanelSpace>.FromCorners([tip, foot + (half * across), foot + (-half * across)]));

        // The line ends a little inside the head, so that no gap can open between them.
        points[^1] = tip + (-Math.Min(headMm * 0.9, way.LengthMm) * along);
    }

    private static ImmutableArray<Point<PanelSpace>> Rounded(ImmutableArray<Point<PanelSpace>> points, double cornerMm)
    {
        var path = ImmutableArray.CreateBuilder<Point<PanelSpace>>();
        path.Add(points[0]);
        for (var index = 1; index < points.Length - 1; index++)
        {
            AddBend(path, points[index - 1], points[index], points[index + 1], cornerMm);
        }

        path.Add(points[^1]);
        return path.ToImmutable();
    }

    private static void AddBend(
        ImmutableArray<Point<PanelSpace>>.Builder path, Point<PanelSpace> before, Point<PanelSpace> bend, Point<PanelSpace> after, double cornerMm)
    {
        var back = before - bend;
        var on = after - bend;
        var cosine = ((back.DxMm * on.DxMm) + (back.DyMm * on.DyMm)) / (back.LengthMm * on.LengthMm);
        if (!(Math.Abs(cosine) < 1 - 1e-9))
        {
            path.Add(bend);
            return;
        }

        // A circle of radius r touches both sides of a bend of angle a at r / tan(a / 2) from it; it must fit on half of each side.
        var halfAngle = Math.Acos(cosine) / 2;
        var tangent = Math.Min(cornerMm / Math.Tan(halfAngle), Math.Min(back.LengthMm, on.LengthMm) / 2);
        var radius = tangent * Math.Tan(halfAngle);
        var start = bend + (tangent / back.LengthMm * back);
        var end = bend + (tangent / on.LengthMm * on);
        var bisector = (1 / back.LengthMm * back) + (1 / on.LengthMm * on);
        var centre = bend + (radius / Math.Sin(halfAngle) / bisector.LengthMm * bisector);
        var from = Math.Atan2(start.YMm - centre.YMm, start.XMm - centre.XMm) * 180 / Math.PI;
        var to = Math.Atan2(end.YMm - centre.YMm, end.XMm - centre.XMm) * 180 / Math.PI;
        var sweep = to - from;
        sweep = sweep > 180 ? sweep - 360 : sweep < -180 ? sweep + 360 : sweep;
        path.AddRange(Outline<PanelSpace>.Arc(centre, radius, from, from + sweep).Points);
    }
}
