using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.VectorArt;

/// <content>Markers: arrow heads and the like at the corners of a line (SVG 1.1, 11.6).</content>
internal sealed partial class Drawer
{
    /// <summary>The line whose markers are being drawn: context-fill means its fill.</summary>
    private Painted? _marked;

    private void DrawMarkers(Painted shape, List<Node> into)
    {
        if (shape.Element.Name is not ("path" or "line" or "polyline" or "polygon"))
        {
            return;
        }

        var corners = shape.Trails.SelectMany(CornersOf).ToList();
        for (var index = 0; index < corners.Count; index++)
        {
            // Mid markers stand on all corners but the very first and the very last.
            if (index == 0)
            {
                DrawMarker("marker-start", corners[index], shape, into);
            }

            if (index > 0 && index < corners.Count - 1)
            {
                DrawMarker("marker-mid", corners[index], shape, into);
            }

            if (index == corners.Count - 1)
            {
                DrawMarker("marker-end", corners[index], shape, into);
            }
        }
    }

    private void DrawMarker(string property, (Spot At, Spot In, Spot Out) corner, Painted shape, List<Node> into)
    {
        if (UrlText.Read(shape.Frame.Style.Get(property)) is not { } url || Find(url.Target, shape.Element, "a marker") is not { Name: "marker" } marker)
        {
            return;
        }

        budget.SpendElement(5);
        var frame = shape.Frame.Deeper();
        var style = StyleWhereItStands(marker);
        var strokeWidth = shape.Frame.Style.Length("stroke-width", 1, frame.Viewport.Diagonal);
        var scale = marker["markerUnits"] == "userSpaceOnUse" ? 1 : strokeWidth;
        var (width, height) = (Number("markerWidth", 3), Number("markerHeight", 3));
        var map = frame.Map * Matrix.Shift(corner.At.X, corner.At.Y) * Matrix.Turn(Degrees(marker["orient"], property, corner)) * Matrix.Scale(scale, scale);
        if (!(width > 0 && height > 0) || !map.KeepsAreas)
        {
            return;
        }

        var reference = new Spot(Number("refX", 0), Number("refY", 0));
        Matrix content;
        Geometry.Region<Geometry.ItemSpace> window;
        if (ViewBox.Read(marker["viewBox"]) is { } box)
        {
            var fit = box.Fit(new(width, height), marker["preserveAspectRatio"]);
            var at = fit.Apply(reference);
            content = map * Matrix.Shift(-at.X, -at.Y) * fit;
            window = Outlines.Rectangle(-at.X, -at.Y, width, height, map);
        }
        else
        {
            content = map * Matrix.Shift(-reference.X, -reference.Y);
            window = Outlines.Rectangle(0, 0, width, height, content);
        }

        var own = frame with { Map = content, Style = style };
        own = style.Own("overflow") is "visible" or "auto" ? own : own.Within(window);
        var before = _marked;
        _marked = shape;
        Open(marker, shape.Element, () => DrawChildren(marker, own, into));
        _marked = before;

        double Number(string name, double usual) => Lengths.Read(marker[name], shape.Frame.Style.FontSize, frame.Viewport.Diagonal) ?? usual;
    }

    private static double Degrees(string? orient, string property, (Spot At, Spot In, Spot Out) corner)
    {
        if (orient is not ("auto" or "auto-start-reverse"))
        {
            return orient is null ? 0 : TransformText.Degrees(orient) ?? 0;
        }

        // Between two ways the middle of them; where they are opposite, the way in (SVG 1.1, 11.6.2).
        var way = corner.In + corner.Out;
        way = way.Length > 1e-9 ? way : corner.In;
        return (Math.Atan2(way.Y, way.X) * 180 / Math.PI) + (orient == "auto-start-reverse" && property == "marker-start" ? 180 : 0);
    }

    private static IEnumerable<(Spot At, Spot In, Spot Out)> CornersOf(Trail trail)
    {
        var pieces = trail.Pieces;
        if (pieces.Count == 0)
        {
            yield break;
        }

        var (first, last) = (pieces[0].StartWay, pieces[^1].EndWay);
        yield return (trail.Start, trail.IsClosed ? last : default, first);
        for (var index = 0; index < pieces.Count; index++)
        {
            if (pieces[index].EndsCommand)
            {
                var next = index + 1 < pieces.Count ? pieces[index + 1].StartWay : trail.IsClosed ? first : default;
                yield return (pieces[index].To, pieces[index].EndWay, next);
            }
        }
    }
}
