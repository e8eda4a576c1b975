using System;
using System.Collections.Generic;
using Lampblack.Findings;

namespace Lampblack.VectorArt;

/// <content>Elements that refer to others.</content>
internal sealed partial class Drawer
{
    /// <summary>What a reference means; nothing, and a finding, where it lies outside the file or is not there.</summary>
    private SvgElement? Find(string target, SvgElement from, string what)
    {
        if (!target.StartsWith('#'))
        {
            log.External(what, target, from.Place);
            return null;
        }

        if (_ids.TryGetValue(Uri.UnescapeDataString(target[1..]), out var found))
        {
            return found;
        }

        log.Add(
            Finding.Warn("svg-reference", $"{from.Shown} refers to {Shown.Quoted(target)}, which is not in the file; that part is left out.", "It may have been deleted in the drawing program: look there, and export again.", from.Place),
            target);
        return null;
    }

    /// <summary>Does something with an element that is referred to, unless it is being drawn already.</summary>
    private bool Open(SvgElement element, SvgElement from, Action draw)
    {
        if (!_open.Add(element))
        {
            log.Add(
                Finding.Stop("svg-circle", $"{from.Shown} refers to {element.Shown}, which holds it itself: that would go on for ever, so it is left out.", "Delete one of the two references in the file.", from.Place),
                "circle");
            return false;
        }

        try
        {
            draw();
        }
        finally
        {
            _open.Remove(element);
        }

        return true;
    }

    private void DrawUse(SvgElement use, Frame frame, List<Node> into)
    {
        if (use["href"] is not { Length: > 0 } href || Find(href.Trim(), use, "a part") is not { } target)
        {
            return;
        }

        budget.SpendElement(2);
        var (x, y) = (Size(use, frame, "x", frame.Viewport.Width) ?? 0, Size(use, frame, "y", frame.Viewport.Height) ?? 0);
        var inner = frame with { Map = frame.Map * Matrix.Shift(x, y) };
        Open(target, use, () =>
        {
            if (target.Name is not ("symbol" or "svg"))
            {
                Draw(target, inner, into);
                return;
            }

            // Both become a viewport of the size that the use asks for (SVG 1.1, 5.6).
            budget.SpendElement();
            var style = new Style(frame.Style, sheet.Declared(target));
            if (style.Get("display") == "none" && target.Name == "svg")
            {
                return;
            }

            var (width, height) = (Size(use, frame, "width", frame.Viewport.Width), Size(use, frame, "height", frame.Viewport.Height));
            var own = inner.Deeper() with { Style = style, Map = inner.Map * TransformOf(target, style) };
            DrawViewport(
                target,
                own,
                Size(target, own, "x", own.Viewport.Width) ?? 0,
                Size(target, own, "y", own.Viewport.Height) ?? 0,
                width ?? Size(target, own, "width", own.Viewport.Width) ?? own.Viewport.Width,
                height ?? Size(target, own, "height", own.Viewport.Height) ?? own.Viewport.Height,
                into);
        });
    }

    private void DrawNested(SvgElement element, Frame frame, List<Node> into) => DrawViewport(
        element,
        frame,
        Size(element, frame, "x", frame.Viewport.Width) ?? 0,
        Size(element, frame, "y", frame.Viewport.Height) ?? 0,
        Size(element, frame, "width", frame.Viewport.Width) ?? frame.Viewport.Width,
        Size(element, frame, "height", frame.Viewport.Height) ?? frame.Viewport.Height,
        into);

    /// <summary>Draws what is in an element into a window of its own.</summary>
    private void DrawViewport(SvgElement element, Frame frame, double x, double y, double width, double height, List<Node> into)
    {
        if (!(width > 0 && height > 0))
        {
            return;
        }

        var inner = frame with { Map = frame.Map * Matrix.Shift(x, y), Viewport = new(width, height) };
        if (frame.Style.Own("overflow") is not ("visible" or "auto"))
        {
            inner = inner.Within(Outlines.Rectangle(0, 0, width, height, inner.Map));
        }

        if (ViewBox.Read(element["viewBox"]) is { } box)
        {
            inner = inner with { Map = inner.Map * box.Fit(inner.Viewport, element["preserveAspectRatio"]), Viewport = new(box.Width, box.Height) };
        }

        DrawChildren(element, inner, into);
    }

    /// <summary>A length of an element in px; null where it is not given, can't be read (with a finding) or is "auto".</summary>
    private double? Size(SvgElement element, Frame frame, string name, double whole)
    {
        var text = frame.Style.Own(name) is { } styled && element.Name != "use" ? styled : element[name];
        if (text is null || text.Trim() == "auto")
        {
            return null;
        }

        var size = Lengths.Read(text, frame.Style.FontSize, whole);
        if (size is null)
        {
            TellValue(element, $"{name}={Shown.Quoted(text)}");
        }

        return size;
    }

    private void TellValue(SvgElement element, string what) => log.Add(Finding.Warn(
        "svg-value",
        $"{element.Shown} has {what}, which can't be read or is not allowed there; it is drawn without, as far as it goes.",
        "Numbers are plain, or have one of the units px, mm, cm, in, pt, pc, em, %. Look at the element in the drawing program, and export again.",
        element.Place));
}
