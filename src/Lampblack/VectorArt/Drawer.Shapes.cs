using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.VectorArt;

/// <content>Paths and basic shapes.</content>
internal sealed partial class Drawer
{
    private void DrawShape(SvgElement element, Frame frame, List<Node> into)
    {
        var (trails, fault) = ShapeTrails.Of(element, frame.Style, frame.Viewport, budget);
        if (fault is not null)
        {
            TellValue(element, fault);
        }

        if (trails.Count == 0 || frame.Style.Get("visibility") is "hidden" or "collapse")
        {
            return;
        }

        var painted = new Painted(element, frame, trails, BoxOf(trails));
        var order = (frame.Style.Get("paint-order") ?? "normal").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        foreach (var part in order.Concat(["fill", "stroke", "markers"]).Where(part => part is "fill" or "stroke" or "markers").Distinct())
        {
            switch (part)
            {
                case "fill" when element.Name != "line":
                    Fill(painted, into);
                    break;
                case "stroke":
                    StrokeLine(painted, into);
                    break;
                case "markers":
                    DrawMarkers(painted, into);
                    break;
            }
        }
    }

    private void Fill(Painted shape, List<Node> into)
    {
        var style = shape.Frame.Style;
        if (PaintOf(shape, style.Get("fill") ?? "black", style.Share("fill-opacity")) is { } paint)
        {
            var rule = style.Get("fill-rule") == "evenodd" ? FillRule.EvenOdd : FillRule.NonZero;
            Put(shape, Outlines.Fill(shape.Trails, shape.Frame.Map, rule, budget), paint, into);
        }
    }

    private void StrokeLine(Painted shape, List<Node> into)
    {
        var style = shape.Frame.Style;
        var text = style.Get("stroke") ?? "none";
        if (text == "none" || StrokeOf(shape.Element, shape.Frame) is not { } stroke || PaintOf(shape, text, style.Share("stroke-opacity")) is not { } paint)
        {
            return;
        }

        Put(shape, StrokeRegion(shape, stroke), paint, into);
    }

    private Region<ItemSpace> StrokeRegion(Painted shape, Stroke stroke)
    {
        if (shape.Frame.Style.Get("vector-effect") == "non-scaling-stroke")
        {
            // The pen is held over the finished shape: its width is one of the outermost coordinates.
            var map = _outermost.Inverse() * shape.Frame.Map;
            return Outlines.Stroke(
                shape.Trails.Select(trail => new Trail(map.Apply(trail.Start), trail.Pieces.ConvertAll(piece => piece.Map(map)), trail.IsClosed)), stroke, _outermost, budget);
        }

        return Outlines.Stroke(shape.Trails, stroke, shape.Frame.Map, budget);
    }

    /// <summary>The pen; null where there is none.</summary>
    private Stroke? StrokeOf(SvgElement element, Frame frame)
    {
        var style = frame.Style;
        var width = style.Length("stroke-width", 1, frame.Viewport.Diagonal);
        if (!(width > 0))
        {
            return null;
        }

        var limit = NumberReader.Single(style.Get("stroke-miterlimit")) ?? 4;
        return new(
            width,
            style.Get("stroke-linecap") switch { "round" => StrokeCap.Round, "square" => StrokeCap.Square, _ => StrokeCap.Butt },
            style.Get("stroke-linejoin") switch { "round" => StrokeJoin.Round, "bevel" => StrokeJoin.Bevel, _ => StrokeJoin.Miter },
            limit < 1 ? 4 : limit,
            DashesOf(element, frame),
            style.Length("stroke-dashoffset", 0, frame.Viewport.Diagonal));
    }

    private List<double> DashesOf(SvgElement element, Frame frame)
    {
        if (frame.Style.Get("stroke-dasharray") is not { } text || text == "none")
        {
            return [];
        }

        var dashes = text.Split([',', ' ', '\t', '\r', '\n'], StringSplitOptions.RemoveEmptyEntries)
            .Select(word => Lengths.Read(word, frame.Style.FontSize, frame.Viewport.Diagonal)).ToList();
        if (dashes.Exists(dash => dash is null or < 0))
        {
            TellValue(element, $"stroke-dasharray={Findings.Shown.Quoted(text)}");
            return [];
        }

        // An odd number of lengths is taken twice; all zero is a whole line.
        var lengths = dashes.ConvertAll(dash => dash!.Value);
        return lengths.Sum() is > 0 and < 1e9 ? lengths.Count % 2 == 0 ? lengths : [.. lengths, .. lengths] : [];
    }

    private void Put(Painted shape, Region<ItemSpace> region, Paint paint, List<Node> into)
    {
        var seen = shape.Frame.Clip is { } clip ? region.Intersect(clip) : region;
        if (!seen.IsEmpty)
        {
            // Where the drawing's own edge alone cuts it, what was meant is known: a hole is cut whole or not at all.
            var isCut = _page is not null && ReferenceEquals(shape.Frame.Clip, _page) && !_page.Bounds.Contains(region.Bounds);
            into.Add(new FillNode(shape.Element, seen, paint) { Uncut = isCut ? region : null });
        }
    }

    /// <summary>The box around trails in their own coordinates; curves are looked at in 32 places, and their ends.</summary>
    private static (Spot From, Spot To) BoxOf(List<Trail> trails)
    {
        var (left, top, right, bottom) = (double.PositiveInfinity, double.PositiveInfinity, double.NegativeInfinity, double.NegativeInfinity);
        foreach (var trail in trails)
        {
            Reach(trail.Start);
            foreach (var piece in trail.Pieces)
            {
                Reach(piece.To);
                for (var index = 1; index < 32 && !piece.IsStraight; index++)
                {
                    Reach(piece.At(index / 32.0));
                }
            }
        }

        return (new(left, top), new(right, bottom));

        void Reach(Spot spot)
        {
            (left, top) = (Math.Min(left, spot.X), Math.Min(top, spot.Y));
            (right, bottom) = (Math.Max(right, spot.X), Math.Max(bottom, spot.Y));
        }
    }

    /// <summary>A shape that is being painted.</summary>
    /// <param name="Element">Its element.</param>
    /// <param name="Frame">Where it is drawn.</param>
    /// <param name="Trails">Its lines.</param>
    /// <param name="Box">What objectBoundingBox means.</param>
    private sealed record Painted(SvgElement Element, Frame Frame, List<Trail> Trails, (Spot From, Spot To) Box);
}
