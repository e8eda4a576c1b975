using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.VectorArt;

/// <content>Filters.</content>
internal sealed partial class Drawer
{
    /// <summary>The filter of an element; null where it has none, or one that can't be done (with a finding).</summary>
    private Filter? FilterOf(SvgElement element, Frame frame)
    {
        if (frame.Style.Get("filter") is not { } text || text == "none")
        {
            return null;
        }

        var server = UrlText.Read(text) is { Fallback.Length: 0 } url ? Find(url.Target, element, "a filter") : null;
        if (server is null && UrlText.Read(text) is not null)
        {
            return null;
        }

        var parts = server?.Children.Where(child => child.Name.StartsWith("fe", System.StringComparison.Ordinal)).ToList() ?? [];
        var strange = parts.Find(part => !IsKnown(part)) is { } unknown ? $"<{unknown.Name}>" : server?["primitiveUnits"] == "objectBoundingBox" ? "primitiveUnits" : null;
        if (server is not { Name: "filter" } || strange is not null)
        {
            log.Add(
                Finding.Warn("svg-left-out", $"{element.Shown} has a filter that can't be done ({strange ?? Shown.Short(text)}); it is drawn without.", "Blur, shadow, offset, flood, merge, blend, composite, colour matrix and morphology can be done. Else turn that element into a picture in the drawing program.", element.Place),
                "filter " + strange);
            return null;
        }

        var box = server["filterUnits"] == "userSpaceOnUse" ? null : UserBox(element, frame);
        if (parts.Count == 0 || (box is null && server["filterUnits"] != "userSpaceOnUse"))
        {
            return null;
        }

        return new(parts.ConvertAll(part => StepOf(part, frame.Map)), Window(server, frame, box));
    }

    private static bool IsKnown(SvgElement part) => part.Name switch
    {
        "feGaussianBlur" or "feOffset" or "feFlood" or "feMerge" or "feBlend" or "feDropShadow" or "feMorphology" => true,
        "feColorMatrix" => (part["type"] ?? "matrix") is "saturate" or "luminanceToAlpha" or "hueRotate" || NumberReader.List(part["values"] ?? string.Empty)?.Count == 20,
        "feComposite" => true,
        _ => false,
    };

    private FilterStep StepOf(SvgElement part, Matrix map)
    {
        var style = StyleWhereItStands(part);
        var colour = style.Colour(style.Get("flood-color") ?? "black") ?? DrawnColour.Black;
        var inputs = part.Name == "feMerge"
            ? part.Children.Where(child => child.Name == "feMergeNode").Select(child => child["in"] ?? string.Empty).ToList()
            : [part["in"] ?? string.Empty, part["in2"] ?? string.Empty];
        var numbers = part.Name == "feComposite"
            ? ((IEnumerable<string>)["k1", "k2", "k3", "k4"]).Select(name => NumberReader.Single(part[name]) ?? 0).ToList()
            : NumberReader.List(part["values"] ?? string.Empty) ?? [];
        var offset = map.ApplyToWay(new(NumberReader.Single(part["dx"]) ?? Usual(2), NumberReader.Single(part["dy"]) ?? Usual(2)));
        var deviation = Both(part["stdDeviation"], map, Usual(2));
        return new(
            part.Name,
            inputs,
            part["result"] ?? string.Empty,
            part.Name switch { "feGaussianBlur" => deviation, "feMorphology" => Both(part["radius"], map, 0), _ => offset },
            colour with { OpacityShare = colour.OpacityShare * style.Share("flood-opacity") },
            part["mode"] ?? part["operator"] ?? part["type"] ?? string.Empty,
            numbers)
        {
            Blur = deviation,
        };

        // Only the shadow has lengths of its own where none are said.
        double Usual(double shadow) => part.Name == "feDropShadow" ? shadow : 0;
    }

    /// <summary>One or two lengths, measured along the axes and turned into mm.</summary>
    private static Spot Both(string? text, Matrix map, double usual)
    {
        var numbers = NumberReader.List(text ?? string.Empty) ?? [];
        var x = numbers.Count > 0 ? numbers[0] : usual;
        var y = numbers.Count > 1 ? numbers[1] : x;
        return new(System.Math.Max(0, x) * map.ApplyToWay(new(1, 0)).Length, System.Math.Max(0, y) * map.ApplyToWay(new(0, 1)).Length);
    }
}
