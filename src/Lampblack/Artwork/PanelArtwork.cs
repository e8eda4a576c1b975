using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Artwork;

/// <summary>What a mark is.</summary>
public enum MarkKind
{
    /// <summary>Part of artwork drawn elsewhere.</summary>
    Art,

    /// <summary>A filled area.</summary>
    Area,

    /// <summary>A rule.</summary>
    Rule,

    /// <summary>A range of a dial.</summary>
    Range,

    /// <summary>The marks of a dial.</summary>
    Dial,

    /// <summary>A short line from a control to its word.</summary>
    Leader,

    /// <summary>Lettering; its name is the words that it says.</summary>
    Text,
}

/// <summary>Something printed: an area, in an ink, with a light role.</summary>
/// <param name="Origin">Where it comes from.</param>
/// <param name="Name">What it is, for people: the words, or the kind of mark.</param>
/// <param name="Style">How it is printed.</param>
/// <param name="Shape">The area.</param>
/// <param name="Kind">What it is.</param>
public sealed record Mark(Origin Origin, string Name, MarkStyle Style, Region<PanelSpace> Shape, MarkKind Kind)
{
    private readonly Region<PanelSpace>? _extent;

    /// <summary>Whether it is a filled shape, so that a hatch can stand for its colour where there is black only.</summary>
    public bool Filled => Kind is MarkKind.Area or MarkKind.Range;

    /// <summary>The ring that it follows; null where it follows none.</summary>
    public RingCourse? Course { get; init; }

    /// <summary>All that the mark takes up: its shape, and for a hatch what is black between its lines.</summary>
    public Region<PanelSpace> Extent
    {
        get => _extent ?? Shape;
        init => _extent = value;
    }
}

/// <summary>A panel as shapes: what is printed, and what is cut away.</summary>
/// <param name="Laid">The panel in its places.</param>
/// <param name="Marks">The marks in the order of painting: later ones lie over earlier ones. A mark without area is kept, so that it can be told of.</param>
/// <param name="Holes">Everything that is cut or drilled away.</param>
public sealed record PanelArtwork(LaidPanel Laid, ImmutableArray<Mark> Marks, Region<PanelSpace> Holes)
{
    /// <summary>Pictures, each between the marks below and above it.</summary>
    public ImmutableArray<DotMark> Dots { get; init; } = [];

    /// <summary>Draws a panel.</summary>
    /// <param name="laid">The panel in its places.</param>
    public static PanelArtwork Draw(LaidPanel laid)
    {
        ArgumentNullException.ThrowIfNull(laid);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        var dots = ImmutableArray.CreateBuilder<DotMark>();
        foreach (var art in laid.Arts)
        {
            ArtMarks.Add(art, laid.Panel, marks, dots);
        }

        marks.AddRange(laid.Areas.Select(area => new Mark(area.Origin, "area", area.Style, AreaShape.Of(area), MarkKind.Area)));
        marks.AddRange(laid.Rules.Select(rule => new Mark(rule.Origin, "rule", rule.Rule.Style, RuleShape.Of(rule), MarkKind.Rule)));
        foreach (var dial in laid.Dials)
        {
            marks.AddRange(dial.Ranges.Select(band => new Mark(dial.Origin, "range", band.Style, DialShape.Band(dial.Centre, band), MarkKind.Range)
            {
                Course = new(dial.Centre, band.FromClockDegrees, band.ToClockDegrees, band.InnerRadiusMm, band.OuterRadiusMm),
            }));
            marks.Add(new(dial.Origin, "dial", dial.Style, DialShape.Marks(dial), MarkKind.Dial));
        }

        marks.AddRange(laid.Leaders.Select(leader => new Mark(
            leader.Origin,
            "leader",
            leader.Style,
            Region<PanelSpace>.Stroke(new([leader.Start, leader.End], Closed: false), leader.WidthMm, LineEnd.Round),
            MarkKind.Leader)));
        marks.AddRange(laid.Texts.Select(text => new Mark(text.Origin, text.Words, text.Style, text.Shape, MarkKind.Text)));
        return new(
            laid,
            marks.ToImmutable(),
            Region<PanelSpace>.Union(laid.Parts.SelectMany(part => part.Holes)))
        {
            Dots = dots.ToImmutable(),
        };
    }
}
