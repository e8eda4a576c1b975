using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Formats;
using Lampblack.Geometry;

namespace Lampblack.Jobs;

/// <summary>Makes out of a panel's shapes the items that one takes hold of.</summary>
internal static class ItemViews
{
    /// <summary>A legend's letters are taken hold of by the space around them, too.</summary>
    private const double SlackMm = 0.6;

    public static PanelView Of(PanelArtwork artwork)
    {
        var panel = artwork.Laid.Panel;
        var marks = artwork.Marks.Select(mark => (mark.Origin.Item, Shape: Grip(mark.Kind, mark.Extent)))
            .Concat(artwork.Laid.Parts.SelectMany(part => part.Holes.Append(part.Covered).Select(shape => (part.Origin.Item, Shape: shape))))
            .Concat(artwork.Dots.Select(dot => (dot.Origin.Item, Shape: Region<PanelSpace>.Rectangle(dot.Shown.WidthDots == 0 ? default : Bounds(dot)))))
            .Where(mark => !mark.Shape.IsEmpty)
            .ToLookup(mark => mark.Item, mark => mark.Shape, StringComparer.Ordinal);
        var items = new List<ItemView>();
        foreach (var item in panel.Items)
        {
            for (var copy = 0; copy < item.Copies.Count; copy++)
            {
                var address = item.Copies.Count == 1 ? $"{panel.Id}/{item.Id}" : string.Create(CultureInfo.InvariantCulture, $"{panel.Id}/{item.Id}.{copy + 1}");
                var shapes = marks[address].ToList();
                items.Add(View(item, copy, address, shapes, panel.HeightMm));
            }
        }

        foreach (var part in artwork.Laid.Parts.Where(part => part.Origin.Item.StartsWith($"{panel.Id}/fixing-", StringComparison.Ordinal) && panel.Fixings is not null))
        {
            if (items.All(item => item.Address != part.Origin.Item))
            {
                var box = ArtworkWindow.Bounds(part);
                items.Add(new(part.Origin.Item, ItemKind.Fixing, "fixing hole", box, part.Centre, Path([Region<PanelSpace>.Union(marks[part.Origin.Item])], panel.HeightMm), false, false, 1, part.Origin.Span.Line));
            }
        }

        return new(
            panel.Id,
            panel.Title,
            panel.WidthMm,
            panel.HeightMm,
            panel.CornerMm,
            FaceDrawing.FrameOf(panel.WidthMm, panel.HeightMm),
            [.. items.OrderByDescending(item => item.Box.WidthMm * item.Box.HeightMm)]);
    }

    private static ItemView View(PanelItem item, int copy, string address, List<Region<PanelSpace>> shapes, double heightMm)
    {
        var (dx, dy) = item.Copies.ShiftOf(copy);
        var (kind, anchor, words, canTurn) = item switch
        {
            Control control => (ItemKind.Control, new Point<PanelSpace>(control.XMm, control.YMm), Words(control.Legends, copy) is { Length: > 0 } legend ? legend : control.Part.Name, true),
            Legend legend => (ItemKind.Legend, new(legend.XMm, legend.YMm), Words(legend.Texts, copy), true),
            FreeDial dial => (ItemKind.Dial, new(dial.XMm, dial.YMm), "dial", false),
            Rule rule => (ItemKind.Rule, Middle(shapes), rule.Title.Length > 0 ? rule.Title : RuleWord(rule.Form), false),
            ArtItem art => (ItemKind.Art, new(art.XMm, art.YMm), art.File, true),
            _ => (ItemKind.Area, Middle(shapes), "area", false),
        };

        // A rule's place is its middle, which is where it is drawn: the copy's shift is in it already.
        var place = kind is ItemKind.Rule or ItemKind.Area ? anchor : new(anchor.XMm + dx, anchor.YMm + dy);
        var box = shapes.Count == 0 ? new Box<PanelSpace>(place.XMm, place.YMm, 0, 0).Grow(1) : shapes.Select(shape => shape.Bounds).Aggregate(ArtworkWindow.Joined);
        var grip = shapes.Count == 0 || item is Control ? SvgPath.Of(Region<PanelSpace>.Rectangle(box), heightMm) : Path(shapes, heightMm);
        return new(address, kind, words.Length > 0 ? words : item.Id, box, place, grip, canTurn, item is Control { Drilled: not null }, item.Copies.Count, item.Span.Line);
    }

    /// <summary>Lines and scales are taken hold of where they are drawn, words, pictures and controls by the box around them.</summary>
    private static Region<PanelSpace> Grip(MarkKind kind, Region<PanelSpace> shape) => shape.IsEmpty ? shape
        : kind is MarkKind.Text or MarkKind.Art or MarkKind.Dial or MarkKind.Leader ? Region<PanelSpace>.Rectangle(shape.Bounds.Grow(SlackMm))
        : kind is MarkKind.Rule ? shape.Grow(SlackMm, 0.05)
        : shape;

    private static string Path(IEnumerable<Region<PanelSpace>> shapes, double heightMm) => string.Concat(shapes.Select(shape => SvgPath.Of(shape, heightMm)));

    private static Point<PanelSpace> Middle(List<Region<PanelSpace>> shapes) =>
        shapes.Count == 0 ? default : shapes.Select(shape => shape.Bounds).Aggregate(ArtworkWindow.Joined).Centre;

    private static Box<PanelSpace> Bounds(DotMark dot)
    {
        var (width, height) = (dot.Shown.WidthDots, dot.Shown.HeightDots);
        return ArtworkWindow.Joined(
            Box<PanelSpace>.Between(dot.Placement.Apply(new Point<DotSpace>(0, 0)), dot.Placement.Apply(new Point<DotSpace>(width, height))),
            Box<PanelSpace>.Between(dot.Placement.Apply(new Point<DotSpace>(width, 0)), dot.Placement.Apply(new Point<DotSpace>(0, height))));
    }

    private static string Words(ImmutableArray<ImmutableArray<string>> texts, int copy) =>
        texts.IsEmpty ? string.Empty : string.Join(' ', texts[Math.Min(copy, texts.Length - 1)]).Trim();

    private static string RuleWord(RuleForm form) => form switch
    {
        FrameForm => "box",
        BracketForm => "bracket",
        ArrowForm => "arrow",
        ArcForm => "arc",
        _ => "line",
    };
}
