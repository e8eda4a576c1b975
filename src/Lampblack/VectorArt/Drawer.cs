using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.VectorArt;

/// <summary>Goes through the elements in painting order and makes what they paint.</summary>
internal sealed partial class Drawer(SvgElement root, StyleSheet sheet, Budget budget, FindingLog log, SvgOptions options, Matrix outermost)
{
    private readonly Dictionary<string, SvgElement> _ids = IdsOf(root);

    // Elements that are being drawn by reference just now: meeting one again is a circle.
    private readonly HashSet<SvgElement> _open = [];

    // From px of the outermost viewport to mm.
    private readonly Matrix _outermost = outermost;
    private Region<ItemSpace>? _page;

    /// <summary>Draws all that is in the outermost element.</summary>
    public void DrawRoot(Frame frame, List<Node> into)
    {
        _page = frame.Clip;
        if (frame.Style.Get("display") != "none")
        {
            DrawChildren(root, frame, into);
        }
    }

    /// <summary>Draws an element and all in it.</summary>
    public void Draw(SvgElement element, Frame frame, List<Node> into)
    {
        budget.SpendElement();
        if (!IsDrawn(element.Name))
        {
            TellUndrawn(element);
            return;
        }

        var style = new Style(frame.Style, sheet.Declared(element));
        if (style.Get("display") == "none" || !PassesConditions(element))
        {
            return;
        }

        var own = frame.Deeper() with { Map = frame.Map * TransformOf(element, style), Style = style };
        if (!own.Map.KeepsAreas)
        {
            return;
        }

        try
        {
            DrawWithEffects(element, own, into);
        }
        catch (FarAwayException)
        {
            log.Add(Finding.Warn(
                "svg-far",
                FormattableString.Invariant($"{element.Shown} reaches farther than {Limits.FarthestMm / 1000:0} m from the drawing, or its place is not a number; it is left out."),
                "Delete it, or look at its numbers and transforms.",
                element.Place));
        }
    }

    /// <summary>The look of an element where it stands in the file.</summary>
    private Style StyleWhereItStands(SvgElement element) =>
        new(element.Parent is { } parent ? StyleWhereItStands(parent) : null, sheet.Declared(element));

    private void DrawWithEffects(SvgElement element, Frame frame, List<Node> into)
    {
        var clipped = ClipOf(element, frame);
        if (clipped.Clip is { IsEmpty: true })
        {
            return;
        }

        var opacity = frame.Style.Share("opacity");
        var (mask, isMasked) = MaskOf(element, frame);
        var filter = FilterOf(element, frame);
        if (opacity == 0 || (isMasked && mask is null))
        {
            return;
        }

        if (frame.Style.Get("mix-blend-mode") is { } mode && mode != "normal")
        {
            log.Add(
                Finding.Warn("svg-left-out", $"{element.Shown} is to be blended by {Shown.Quoted(mode)}; it is painted over what lies below instead.", "Flatten the blending in the drawing program, or give the overlap a colour of its own.", element.Place),
                "blend " + element.Id);
        }

        if (opacity == 1 && mask is null && filter is null)
        {
            DrawPlain(element, clipped, into);
            return;
        }

        var children = new List<Node>();
        DrawPlain(element, filter is null ? clipped : frame with { Clip = null }, children);
        if (children.Count == 0 && filter is null)
        {
            return;
        }

        if (mask is null && filter is null && Blending.Flatten(children, opacity) is { } flat)
        {
            into.AddRange(flat);
        }
        else
        {
            into.Add(new LayerNode(element, children, opacity, mask, filter, clipped.Clip));
        }
    }

    private void DrawPlain(SvgElement element, Frame frame, List<Node> into)
    {
        switch (element.Name)
        {
            case "g" or "a":
                DrawChildren(element, frame, into);
                break;
            case "svg":
                DrawNested(element, frame, into);
                break;
            case "switch":
                if (element.Children.Find(child => child.Name != "#text" && IsDrawn(child.Name) && PassesConditions(child)) is { } chosen)
                {
                    Draw(chosen, frame, into);
                }

                break;
            case "use":
                DrawUse(element, frame, into);
                break;
            case "image":
                DrawImage(element, frame, into);
                break;
            case "text":
                DrawText(element, frame, into);
                break;
            default:
                DrawShape(element, frame, into);
                break;
        }
    }

    private void DrawChildren(SvgElement element, Frame frame, List<Node> into)
    {
        foreach (var child in element.Children.Where(child => child.Name != "#text"))
        {
            Draw(child, frame, into);
        }
    }

    private Matrix TransformOf(SvgElement element, Style style)
    {
        var text = style.Own("transform") ?? element["transform"];
        if (TransformText.Read(text) is { } map)
        {
            return map;
        }

        log.Add(Finding.Warn(
            "svg-value",
            $"{element.Shown} has the transform {Shown.Quoted(text!)}, which can't be read; it is drawn without.",
            "Allowed: matrix, translate, scale, rotate, skewX and skewY with plain numbers.",
            element.Place));
        return Matrix.Identity;
    }

    private bool PassesConditions(SvgElement element)
    {
        if (element["requiredExtensions"] is { } extensions && !string.IsNullOrWhiteSpace(extensions))
        {
            return false;
        }

        return element["systemLanguage"] is not { } languages
            || languages.Split(',').Any(language => language.Trim().Split('-')[0].Equals(options.Language, StringComparison.OrdinalIgnoreCase));
    }

    private static bool IsDrawn(string name) => ShapeTrails.IsShape(name) || name is "g" or "a" or "svg" or "switch" or "use" or "image" or "text";

    private void TellUndrawn(SvgElement element)
    {
        switch (element.Name)
        {
            // These only say how other things look, or nothing that is seen.
            case "defs" or "symbol" or "clipPath" or "mask" or "linearGradient" or "radialGradient" or "pattern" or "marker" or "filter"
                or "style" or "title" or "desc" or "metadata" or "view" or "cursor" or "font" or "font-face" or "color-profile" or "solidcolor":
                break;
            case "script" or "animate" or "animateTransform" or "animateMotion" or "animateColor" or "set" or "discard":
                log.Add(
                    Finding.Note("svg-moving", $"The drawing has {element.Shown}: nothing in it moves or runs here; it is taken as it stands at the start.", "Nothing to do where the drawing looks right.", element.Place),
                    "moving");
                break;
            default:
                log.Add(
                    Finding.Warn("svg-left-out", $"{element.Shown} can't be drawn and is left out.", "Turn it into paths in the drawing program, or delete it.", element.Place),
                    element.Name);
                break;
        }
    }

    private static Dictionary<string, SvgElement> IdsOf(SvgElement root)
    {
        var ids = new Dictionary<string, SvgElement>(StringComparer.Ordinal);
        var waiting = new Stack<SvgElement>([root]);
        while (waiting.TryPop(out var element))
        {
            // Of two with one id the first counts.
            if (element.Id is { } id)
            {
                ids.TryAdd(id, element);
            }

            for (var index = element.Children.Count - 1; index >= 0; index--)
            {
                waiting.Push(element.Children[index]);
            }
        }

        return ids;
    }
}
