using System.Collections.Generic;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.VectorArt;

/// <content>Clip paths and masks.</content>
internal sealed partial class Drawer
{
    /// <summary>The frame with less seen, where the element has a clip path.</summary>
    private Frame ClipOf(SvgElement element, Frame frame)
    {
        if (frame.Style.Get("clip-path") is not { } text || text == "none")
        {
            return frame;
        }

        if (UrlText.Read(text) is not { } url)
        {
            log.Add(Finding.Warn("svg-left-out", $"{element.Shown} is clipped by {Shown.Quoted(text)}, which can't be done; it is drawn whole.", "Clip it with a path in the drawing program.", element.Place), "clip " + text);
            return frame;
        }

        return Find(url.Target, element, "a clip path") is { Name: "clipPath" } clip ? frame.Within(ClipRegion(clip, element, frame)) : frame;
    }

    private Region<ItemSpace> ClipRegion(SvgElement clip, SvgElement element, Frame frame)
    {
        budget.SpendElement(10);
        var seen = new List<Region<ItemSpace>>();
        var style = StyleWhereItStands(clip);
        var map = frame.Map * TransformOf(clip, style);
        if (clip["clipPathUnits"] == "objectBoundingBox")
        {
            if (UserBox(element, frame) is not { } box)
            {
                return Region<ItemSpace>.Empty;
            }

            map *= new Matrix(box.To.X - box.From.X, 0, 0, box.To.Y - box.From.Y, box.From.X, box.From.Y);
        }

        var inner = (frame with { Map = map, Style = style, Clip = null }).Deeper();
        if (!map.KeepsAreas || !Open(clip, element, () =>
        {
            foreach (var child in clip.Children)
            {
                ClipShape(child, inner, seen);
            }
        }))
        {
            return Region<ItemSpace>.Empty;
        }

        var region = Region<ItemSpace>.Union(seen);

        // A clip path may be clipped itself.
        return ClipOf(clip, inner with { Map = frame.Map * TransformOf(clip, style) }).Clip is { } more ? region.Intersect(more) : region;
    }

    private void ClipShape(SvgElement element, Frame frame, List<Region<ItemSpace>> into)
    {
        if (element.Name is not ("use" or "text") && !ShapeTrails.IsShape(element.Name))
        {
            return;
        }

        budget.SpendElement();
        var style = new Style(frame.Style, sheet.Declared(element));
        if (style.Get("display") == "none")
        {
            return;
        }

        var own = frame.Deeper() with { Map = frame.Map * TransformOf(element, style), Style = style };
        var clipped = ClipOf(element, own);
        if (!own.Map.KeepsAreas)
        {
            return;
        }

        if (element.Name == "use")
        {
            if (element["href"] is { } href && Find(href, element, "a part") is { } target)
            {
                var inner = clipped with { Map = own.Map * Matrix.Shift(Size(element, own, "x", own.Viewport.Width) ?? 0, Size(element, own, "y", own.Viewport.Height) ?? 0) };
                Open(target, element, () => ClipShape(target, inner, into));
            }

            return;
        }

        if (style.Get("visibility") is "hidden" or "collapse")
        {
            return;
        }

        var region = element.Name == "text"
            ? TextRegion(element, own)
            : Outlines.Fill(
                ShapeTrails.Of(element, style, own.Viewport, budget).Trails, own.Map, style.Get("clip-rule") == "evenodd" ? FillRule.EvenOdd : FillRule.NonZero, budget);
        into.Add(clipped.Clip is { } clip ? region.Intersect(clip) : region);
    }

    /// <summary>The mask of an element, and whether it has one: a mask that shows nothing is none, but it hides all.</summary>
    private (Mask? Mask, bool IsMasked) MaskOf(SvgElement element, Frame frame)
    {
        if (frame.Style.Get("mask") is not { } text || text == "none" || UrlText.Read(text) is not { } url
            || Find(url.Target, element, "a mask") is not { Name: "mask" } mask)
        {
            return (null, false);
        }

        budget.SpendElement(10);
        var style = StyleWhereItStands(mask);
        var isBoxed = mask["maskUnits"] != "userSpaceOnUse";
        (Spot From, Spot To)? box = isBoxed || mask["maskContentUnits"] == "objectBoundingBox" ? UserBox(element, frame) : (default, default);
        if (box is not { } known)
        {
            return (null, true);
        }

        var window = Window(mask, frame, isBoxed ? known : null);
        var map = frame.Map;
        if (mask["maskContentUnits"] == "objectBoundingBox")
        {
            map *= new Matrix(known.To.X - known.From.X, 0, 0, known.To.Y - known.From.Y, known.From.X, known.From.Y);
        }

        var children = new List<Node>();
        var inner = (frame with { Map = map, Style = style, Clip = window }).Deeper();
        if (!map.KeepsAreas || !Open(mask, element, () => DrawChildren(mask, inner, children)))
        {
            return (null, true);
        }

        return children.Count == 0 ? (null, true) : (new(children, window, style.Get("mask-type") == "alpha"), true);
    }

    /// <summary>The window of a mask or a filter: a tenth more on each side than the box, where nothing else is said (SVG 1.1, 14.4 and 15.5).</summary>
    private Region<ItemSpace> Window(SvgElement server, Frame frame, (Spot From, Spot To)? box)
    {
        if (box is { } known)
        {
            var size = known.To - known.From;
            double Number(string name, string usual) => Lengths.Read(server[name] ?? usual, 16, 1) ?? 0;
            return Outlines.Rectangle(
                known.From.X + (size.X * Number("x", "-10%")), known.From.Y + (size.Y * Number("y", "-10%")), size.X * Number("width", "120%"), size.Y * Number("height", "120%"), frame.Map);
        }

        return Outlines.Rectangle(
            Size(server, frame, "x", frame.Viewport.Width) ?? (-0.1 * frame.Viewport.Width),
            Size(server, frame, "y", frame.Viewport.Height) ?? (-0.1 * frame.Viewport.Height),
            Size(server, frame, "width", frame.Viewport.Width) ?? (1.2 * frame.Viewport.Width),
            Size(server, frame, "height", frame.Viewport.Height) ?? (1.2 * frame.Viewport.Height),
            frame.Map);
    }

    /// <summary>The box around what an element draws, without strokes, in its own coordinates; null where it draws nothing.</summary>
    private (Spot From, Spot To)? UserBox(SvgElement element, Frame frame)
    {
        var boxes = new List<Trail>();
        Gather(element, Matrix.Identity, frame, isOutermost: true);
        var (from, to) = BoxOf(boxes);
        return to.X - from.X > 0 && to.Y - from.Y > 0 ? (from, to) : null;

        void Gather(SvgElement part, Matrix map, Frame around, bool isOutermost)
        {
            if (part.Name == "#text" || !IsDrawn(part.Name))
            {
                return;
            }

            budget.SpendElement();
            var style = isOutermost ? around.Style : new Style(around.Style, sheet.Declared(part));
            var own = around.Deeper() with { Style = style };
            map = isOutermost ? map : map * TransformOf(part, style);
            if (style.Get("display") == "none")
            {
                return;
            }

            if (ShapeTrails.IsShape(part.Name))
            {
                boxes.AddRange(ShapeTrails.Of(part, style, own.Viewport, budget).Trails
                    .ConvertAll(trail => new Trail(map.Apply(trail.Start), trail.Pieces.ConvertAll(piece => piece.Map(map)), trail.IsClosed)));
            }
            else if (part.Name == "text")
            {
                // Set with the identity, the text's letters are in its own coordinates, with y up.
                boxes.AddRange(CornersOf(TextRegion(part, own with { Map = Matrix.Scale(1, -1) }), map * Matrix.Scale(1, -1)));
            }
            else if (part.Name == "image")
            {
                var (x, y) = (Size(part, own, "x", own.Viewport.Width) ?? 0, Size(part, own, "y", own.Viewport.Height) ?? 0);
                var corner = new Spot(x + (Size(part, own, "width", own.Viewport.Width) ?? 0), y + (Size(part, own, "height", own.Viewport.Height) ?? 0));
                boxes.Add(new(map.Apply(new(x, y)), [PathPiece.Line(map.Apply(new(x, y)), map.Apply(corner))], false));
            }
            else if (part.Name == "use")
            {
                if (part["href"] is { } href && Find(href, part, "a part") is { } target)
                {
                    var shifted = map * Matrix.Shift(Size(part, own, "x", own.Viewport.Width) ?? 0, Size(part, own, "y", own.Viewport.Height) ?? 0);
                    Open(target, part, () => Gather(target, shifted, own, isOutermost: false));
                }
            }
            else
            {
                foreach (var child in part.Children)
                {
                    Gather(child, map, own, isOutermost: false);
                }
            }
        }
    }

    private static IEnumerable<Trail> CornersOf(Region<ItemSpace> region, Matrix map)
    {
        var box = region.Bounds;
        return region.IsEmpty
            ? []
            : [new(map.Apply(new(box.LeftMm, box.BottomMm)), [PathPiece.Line(map.Apply(new(box.LeftMm, box.BottomMm)), map.Apply(new(box.RightMm, box.TopMm)))], false)];
    }
}
