using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.VectorArt;

/// <content>What areas are filled with.</content>
internal sealed partial class Drawer
{
    private const int LongestChain = 50;

    /// <summary>The paint of a property's text; null where nothing is painted.</summary>
    private Paint? PaintOf(Painted shape, string text, double opacity)
    {
        var style = shape.Frame.Style;
        if (text == "none" || opacity == 0)
        {
            return null;
        }

        if (UrlText.Read(text) is { } url)
        {
            var server = Find(url.Target, shape.Element, "a paint");
            return server?.Name switch
            {
                "linearGradient" or "radialGradient" => GradientOf(server, shape, opacity),
                "pattern" => PatternOf(server, shape, opacity),
                _ when url.Fallback.Length > 0 => PaintOf(shape, url.Fallback, opacity),
                _ => null,
            };
        }

        if (text is "context-fill" or "context-stroke")
        {
            var name = text["context-".Length..];
            return _marked is { } marked ? PaintOf(marked, marked.Frame.Style.Get(name) is { } own && !own.StartsWith("context-", StringComparison.Ordinal) ? own : "none", opacity) : null;
        }

        // An old-fashioned ICC colour follows the sRGB one it is like.
        var plain = text.Split(" icc-color(")[0];
        if (style.Colour(plain) is { } colour)
        {
            return colour.OpacityShare * opacity > 0 ? new SolidPaint(colour with { OpacityShare = colour.OpacityShare * opacity }) : null;
        }

        log.Add(
            Finding.Warn("svg-colour", $"{shape.Element.Shown} has the colour {Shown.Quoted(text)}, which is not known; it is painted black.", "Allowed: names of CSS, #rgb, #rrggbb, rgb(), hsl(), currentColor, none, url(#id).", shape.Element.Place),
            text);
        return new SolidPaint(DrawnColour.Black with { OpacityShare = opacity });
    }

    /// <summary>An element and those it is made after, nearest first.</summary>
    private List<SvgElement> Chain(SvgElement element)
    {
        var chain = new List<SvgElement> { element };
        while (chain.Count < LongestChain && chain[^1]["href"] is { Length: > 0 } href && Find(href, chain[^1], "a paint") is { } next && !chain.Contains(next))
        {
            chain.Add(next);
        }

        return chain;
    }

    private static string? First(List<SvgElement> chain, string name) => chain.Select(element => element[name]).FirstOrDefault(value => value is not null);

    private Paint? GradientOf(SvgElement server, Painted shape, double opacity)
    {
        var chain = Chain(server);
        var stops = StopsOf(chain.Find(element => element.Children.Exists(child => child.Name == "stop")));
        if (stops.Count == 0)
        {
            return null;
        }

        if (stops.TrueForAll(stop => stop.Colour == stops[0].Colour))
        {
            return SolidOf(stops[0].Colour, opacity);
        }

        var isBoxed = First(chain, "gradientUnits") != "userSpaceOnUse";
        if (UnitsMap(isBoxed, shape) is not { } units)
        {
            return null;
        }

        if (TransformText.Read(First(chain, "gradientTransform")) is not { } transform)
        {
            TellValue(server, "a gradientTransform");
            return null;
        }

        var map = shape.Frame.Map * units * transform;
        var view = isBoxed ? new Viewport(1, 1) : shape.Frame.Viewport;
        var spread = First(chain, "spreadMethod") ?? "pad";
        if (server.Name == "linearGradient")
        {
            var (from, to) = (new Spot(Number("x1", "0%", view.Width), Number("y1", "0%", view.Height)), new Spot(Number("x2", "100%", view.Width), Number("y2", "0%", view.Height)));
            return from == to || !map.KeepsAreas ? SolidOf(stops[^1].Colour, opacity) : new GradientPaint(stops, false, from, 0, to, 0, spread, map, opacity);
        }

        var centre = new Spot(Number("cx", "50%", view.Width), Number("cy", "50%", view.Height));
        var radius = Number("r", "50%", view.Diagonal);
        var focus = new Spot(
            First(chain, "fx") is null ? centre.X : Number("fx", "50%", view.Width), First(chain, "fy") is null ? centre.Y : Number("fy", "50%", view.Height));
        return !(radius > 0) || !map.KeepsAreas
            ? SolidOf(stops[^1].Colour, opacity)
            : new GradientPaint(stops, true, focus, Number("fr", "0%", view.Diagonal), centre, radius, spread, map, opacity);

        double Number(string name, string usual, double whole) =>
            Lengths.Read(First(chain, name) ?? usual, shape.Frame.Style.FontSize, whole) ?? Lengths.Read(usual, 16, whole)!.Value;
    }

    private static SolidPaint? SolidOf(DrawnColour colour, double opacity) =>
        colour.OpacityShare * opacity > 0 ? new(colour with { OpacityShare = colour.OpacityShare * opacity }) : null;

    private List<(double Offset, DrawnColour Colour)> StopsOf(SvgElement? gradient)
    {
        var stops = new List<(double Offset, DrawnColour Colour)>();
        foreach (var stop in gradient?.Children.Where(child => child.Name == "stop") ?? [])
        {
            budget.SpendElement();
            var style = StyleWhereItStands(stop);
            var colour = style.Colour(style.Get("stop-color") ?? "black") ?? DrawnColour.Black;
            var offset = ColourText.OpacityText(stop["offset"] ?? "0") ?? 0;

            // Offsets that go back are those of the stop before.
            stops.Add((Math.Max(offset, stops.Count > 0 ? stops[^1].Offset : 0), colour with { OpacityShare = colour.OpacityShare * style.Share("stop-opacity") }));
        }

        return stops;
    }

    /// <summary>From the unit square or the coordinates themselves to those of the shape; null where the shape's box has no size.</summary>
    private static Matrix? UnitsMap(bool isBoxed, Painted shape)
    {
        if (!isBoxed)
        {
            return Matrix.Identity;
        }

        var (from, size) = (shape.Box.From, shape.Box.To - shape.Box.From);
        return size.X > 0 && size.Y > 0 ? new Matrix(size.X, 0, 0, size.Y, from.X, from.Y) : null;
    }

    private PatternPaint? PatternOf(SvgElement server, Painted shape, double opacity)
    {
        budget.SpendElement(10);
        var chain = Chain(server);
        var content = chain.Find(element => element.Children.Exists(child => child.Name != "#text"));
        var isBoxed = First(chain, "patternUnits") != "userSpaceOnUse";
        if (content is null || UnitsMap(isBoxed, shape) is not { } units)
        {
            return null;
        }

        var view = isBoxed ? new Viewport(1, 1) : shape.Frame.Viewport;
        var corner = units.Apply(new(Number("x", view.Width), Number("y", view.Height)));
        var size = units.ApplyToWay(new(Number("width", view.Width), Number("height", view.Height)));
        if (!(size.X > 0 && size.Y > 0) || TransformText.Read(First(chain, "patternTransform")) is not { } transform)
        {
            return null;
        }

        var map = shape.Frame.Map * transform;
        var inner = map * Matrix.Shift(corner.X, corner.Y);
        if (ViewBox.Read(First(chain, "viewBox")) is { } box)
        {
            inner *= box.Fit(new(size.X, size.Y), First(chain, "preserveAspectRatio"));
        }
        else if (First(chain, "patternContentUnits") == "objectBoundingBox" && UnitsMap(true, shape) is { } boxed)
        {
            inner *= boxed with { E = 0, F = 0 };
        }

        var children = new List<Node>();
        if (!inner.KeepsAreas || !Open(content, shape.Element, () => DrawChildren(
            content, new Frame(inner, StyleWhereItStands(content), shape.Frame.Viewport, Outlines.Rectangle(corner.X, corner.Y, size.X, size.Y, map), shape.Frame.Depth), children)))
        {
            return null;
        }

        return children.Count == 0 ? null : new(children, map, corner.X, corner.Y, size.X, size.Y, opacity);

        double Number(string name, double whole) => Lengths.Read(First(chain, name), shape.Frame.Style.FontSize, whole) ?? 0;
    }
}
