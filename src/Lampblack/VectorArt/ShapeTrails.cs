using System;
using System.Collections.Generic;

namespace Lampblack.VectorArt;

/// <summary>The basic shapes as trails (SVG 1.1, chapter 9), in the order of points that the specification gives.</summary>
internal static class ShapeTrails
{
    public static bool IsShape(string name) => name is "path" or "rect" or "circle" or "ellipse" or "line" or "polyline" or "polygon";

    /// <summary>The trails, and what is wrong with the numbers; null where nothing is.</summary>
    public static (List<Trail> Trails, string? Fault) Of(SvgElement element, Style style, Viewport view, Budget budget)
    {
        switch (element.Name)
        {
            case "path":
                var text = style.Own("d") is { } styled && UnwrapPath(styled) is { } path ? path : element["d"] ?? string.Empty;
                var (trails, faultAt) = PathData.Read(text, budget);
                return (trails, faultAt < 0 ? null : $"path data that can't be read on from {Findings.Shown.Quoted(text[faultAt..])}");
            case "polyline" or "polygon":
                return Corners(element, budget);
        }

        var faults = new List<string>();
        var trail = element.Name switch
        {
            "rect" => Rectangle(Number("x", view.Width), Number("y", view.Height), Number("width", view.Width), Number("height", view.Height), Radii("auto")),
            "circle" => Ellipse(Number("cx", view.Width), Number("cy", view.Height), Number("r", view.Diagonal), Number("r", view.Diagonal)),
            "ellipse" => Ellipse(Number("cx", view.Width), Number("cy", view.Height), Radii("auto").X ?? 0, Radii("auto").Y ?? 0),
            _ => Line(Number("x1", view.Width), Number("y1", view.Height), Number("x2", view.Width), Number("y2", view.Height)),
        };
        return (trail, faults.Count == 0 ? null : string.Join(", ", faults));

        double Number(string name, double whole)
        {
            var said = style.Own(name) ?? element[name];
            var number = Lengths.Read(said, style.FontSize, whole);
            if (number is null && said is not null && said != "auto")
            {
                faults.Add($"{name}={Findings.Shown.Quoted(said)}");
            }
            else if (number < 0 && name is "width" or "height" or "r" or "rx" or "ry")
            {
                faults.Add($"{name}={Findings.Shown.Quoted(said!)}, below 0");
                return 0;
            }

            return number ?? 0;
        }

        // Of two radii, one that is not given is like the other.
        (double? X, double? Y) Radii(string auto)
        {
            double? x = (style.Own("rx") ?? element["rx"]) is { } rx && rx != auto ? Number("rx", view.Width) : null;
            double? y = (style.Own("ry") ?? element["ry"]) is { } ry && ry != auto ? Number("ry", view.Height) : null;
            return (x ?? y, y ?? x);
        }
    }

    private static List<Trail> Rectangle(double x, double y, double width, double height, (double? X, double? Y) radii)
    {
        if (!(width > 0 && height > 0))
        {
            return [];
        }

        var rx = Math.Min(radii.X ?? 0, width / 2);
        var ry = Math.Min(radii.Y ?? 0, height / 2);
        var path = new PathBuilder();
        if (rx <= 0 || ry <= 0)
        {
            path.MoveTo(new(x, y));
            path.LineTo(new(x + width, y));
            path.LineTo(new(x + width, y + height));
            path.LineTo(new(x, y + height));
        }
        else
        {
            path.MoveTo(new(x + rx, y));
            Side(new(x + width - rx, y), new(x + width, y + ry));
            Side(new(x + width, y + height - ry), new(x + width - rx, y + height));
            Side(new(x + rx, y + height), new(x, y + height - ry));
            Side(new(x, y + ry), new(x + rx, y));
        }

        path.Close();
        return path.Trails();

        void Side(Spot end, Spot corner)
        {
            path.LineTo(end);
            path.ArcTo(rx, ry, 0, false, true, corner);
        }
    }

    private static List<Trail> Ellipse(double x, double y, double rx, double ry)
    {
        if (!(rx > 0 && ry > 0))
        {
            return [];
        }

        var path = new PathBuilder();
        path.MoveTo(new(x + rx, y));
        foreach (var spot in (ReadOnlySpan<Spot>)[new(x, y + ry), new(x - rx, y), new(x, y - ry), new(x + rx, y)])
        {
            path.ArcTo(rx, ry, 0, false, true, spot);
        }

        path.Close();
        return path.Trails();
    }

    private static List<Trail> Line(double x1, double y1, double x2, double y2)
    {
        var path = new PathBuilder();
        path.MoveTo(new(x1, y1));
        path.LineTo(new(x2, y2));
        return path.Trails();
    }

    private static (List<Trail> Trails, string? Fault) Corners(SvgElement element, Budget budget)
    {
        var text = element["points"] ?? string.Empty;
        var numbers = NumberReader.List(text);
        var fault = numbers is null ? $"points={Findings.Shown.Quoted(text)}" : numbers.Count % 2 == 1 ? "points with an x but no y at the end" : null;
        var path = new PathBuilder();
        for (var index = 0; index + 1 < numbers?.Count; index += 2)
        {
            budget.Spend(1);
            var spot = new Spot(numbers[index], numbers[index + 1]);
            if (index == 0)
            {
                path.MoveTo(spot);
            }
            else
            {
                path.LineTo(spot);
            }
        }

        if (element.Name == "polygon")
        {
            path.Close();
        }

        return (path.Trails(), fault);
    }

    private static string? UnwrapPath(string styled) =>
        styled.StartsWith("path(", StringComparison.Ordinal) && styled.EndsWith(')') ? styled[5..^1].Trim().Trim('"', '\'') : null;
}
