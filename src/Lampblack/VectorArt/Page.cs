using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.VectorArt;

/// <summary>The outermost element: how large the drawing is, and what of it is seen.</summary>
internal sealed class Page(SvgElement root, FindingLog log, SvgOptions options)
{
    private readonly StyleSheet _sheet = new(root, log);

    /// <summary>The drawing; null, with a finding, where it has no size or shows nothing.</summary>
    public Drawing? Draw() => Measure() is { } size ? Finish(size) : null;

    /// <summary>How large it is, without drawing it unless only what it shows can tell; null, with a finding, where it has no size.</summary>
    public PageSize? Measure()
    {
        var style = new Style(null, _sheet.Declared(root));
        var (width, height) = (Length("width"), Length("height"));
        var box = ViewBox.Read(root["viewBox"]);
        if (root["viewBox"] is { } text && box is null)
        {
            return Refuse($"viewBox={Shown.Quoted(text)}");
        }

        foreach (var name in (ReadOnlySpan<string>)["width", "height"])
        {
            if (Said(name) is { } said && said != "auto" && Lengths.Read(said, style.FontSize, 1) is not > 0)
            {
                return Refuse($"{name}={Shown.Quoted(said)}");
            }
        }

        var isStated = width is not null || height is not null || options.WidthMm is not null;
        if (box is null && (width is null || height is null))
        {
            // Without a size the drawing is as large as what it shows.
            if (Extent(style) is not { } extent)
            {
                TellEmpty();
                return null;
            }

            box = extent;
        }

        var aspect = box is { } known ? known.Height / known.Width : 1;
        var view = new Viewport(width ?? (height / aspect) ?? box!.Value.Width, height ?? (width * aspect) ?? box!.Value.Height);
        var mmPerPx = (options.WidthMm / view.Width) ?? Lengths.MmPerPx;
        var (widthMm, heightMm) = (view.Width * mmPerPx, view.Height * mmPerPx);
        if (!(widthMm is >= Limits.ShortestMm and <= Limits.LongestMm && heightMm is >= Limits.ShortestMm and <= Limits.LongestMm))
        {
            return Refuse(string.Create(CultureInfo.InvariantCulture, $"a size of {widthMm:0.###} x {heightMm:0.###} mm"));
        }

        if (!isStated)
        {
            log.Add(Finding.Note(
                "svg-size-unstated",
                $"The drawing does not say how large it is in the world; one px is taken for 1/96 inch, which makes {Shown.Number(widthMm)} x {Shown.Number(heightMm)} mm.",
                "Say how wide it is to be, or set the document's size in mm in the drawing program.",
                root.Place));
        }

        var statedWidthMm = Lengths.IsReal(style.Own("width") ?? root["width"]) ? view.Width * Lengths.MmPerPx : (double?)null;
        return new(style, view, box, mmPerPx, widthMm, heightMm, statedWidthMm);

        string? Said(string name) => (style.Own(name) ?? root[name])?.Trim();

        // 100 % of the world's size is none.
        double? Length(string name) => Lengths.IsStated(Said(name)) ? Lengths.Read(Said(name), style.FontSize, null) : null;
    }

    private Drawing? Finish(PageSize size)
    {
        var (style, view, box, mmPerPx, widthMm, heightMm, statedWidthMm) = size;
        var outermost = new Matrix(mmPerPx, 0, 0, -mmPerPx, 0, heightMm);
        var map = box is { } known ? outermost * known.Fit(view, root["preserveAspectRatio"]) : outermost;
        var seen = Region<ItemSpace>.Rectangle(new(0, 0, widthMm, heightMm));
        var budget = new Budget();
        var inner = box is { } inside ? new Viewport(inside.Width, inside.Height) : view;
        var nodes = new List<Node>();
        new Drawer(root, _sheet, budget, log, options, outermost).DrawRoot(new(map, style, inner, seen, 0), nodes);
        var raster = new Raster(budget, log, Math.Clamp(options.PictureDpi, 72, 2400));
        raster.Share(nodes.Where(node => node is not FillNode { Paint: SolidPaint }));
        var items = ImmutableArray.CreateBuilder<DrawnItem>();
        foreach (var node in nodes)
        {
            DrawnItem? item = node is FillNode { Paint: SolidPaint solid } fill
                ? new DrawnShape(node.Source.Id, node.Source["class"], node.Source.Place, fill.Shape, solid.Colour) { Uncut = fill.Uncut }
                : raster.Make(node);
            if (item is not null)
            {
                items.Add(item);
            }
        }

        var drawing = new Drawing(widthMm, heightMm, options.WidthMm is not null || IsStated(style), items.ToImmutable())
        {
            StatedWidthMm = statedWidthMm,
        };
        if (items.Count == 0)
        {
            TellEmpty();
        }

        return drawing;
    }

    private bool IsStated(Style style) => Lengths.IsStated(style.Own("width") ?? root["width"]) || Lengths.IsStated(style.Own("height") ?? root["height"]);

    /// <summary>The box around all that is drawn, in px; null where nothing is.</summary>
    private ViewBox? Extent(Style style)
    {
        var nodes = new List<Node>();
        var outermost = Matrix.Scale(1, -1);
        new Drawer(root, _sheet, new(), new(), options, outermost).DrawRoot(new(outermost, style, new(100, 100), null, 0), nodes);
        var boxes = nodes.OfType<FillNode>().Select(node => node.Shape.Bounds).Concat(nodes.OfType<ImageNode>().Select(node => node.Shape.Bounds)).ToList();
        if (boxes.Count == 0)
        {
            return null;
        }

        var (left, right) = (boxes.Min(box => box.LeftMm), boxes.Max(box => box.RightMm));
        var (bottom, top) = (boxes.Min(box => box.BottomMm), boxes.Max(box => box.TopMm));
        return right > left && top > bottom ? new(left, -top, right - left, top - bottom) : null;
    }

    private PageSize? Refuse(string found)
    {
        log.Add(Finding.Stop(
            "svg-size",
            string.Create(CultureInfo.InvariantCulture, $"The drawing has {found}; allowed are {Limits.ShortestMm} to {Limits.LongestMm:0} mm each way, as numbers above 0 with a unit or without."),
            "Set the document's size in mm in the drawing program, and export again.",
            root.Place));
        return null;
    }

    private void TellEmpty()
    {
        // Where a finding says already why nothing is seen, a second one would only repeat it.
        if (log.All().All(finding => finding.Severity == Severity.Note))
        {
            log.Add(Finding.Warn("svg-empty", "The drawing shows nothing: all of it is invisible, without fill and stroke, or outside its page.", "Look whether layers are switched off, and whether the page is where the drawing is.", root.Place));
        }
    }
}

/// <summary>A page's size: in the drawing's px and in mm.</summary>
/// <param name="Style">The outermost element's.</param>
/// <param name="View">In px.</param>
/// <param name="Box">The view box, where there is one.</param>
/// <param name="MmPerPx">A px, in mm.</param>
/// <param name="WidthMm">As it is to be.</param>
/// <param name="HeightMm">As it is to be.</param>
/// <param name="StatedWidthMm">As the file says it; null where it says none that can be meant.</param>
internal sealed record PageSize(Style Style, Viewport View, ViewBox? Box, double MmPerPx, double WidthMm, double HeightMm, double? StatedWidthMm);
