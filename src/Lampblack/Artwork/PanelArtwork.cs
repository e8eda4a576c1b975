using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Geometry;
using Lampblack.Layout;

namespace Lampblack.Artwork;

/// <summary>Something printed: an area, in an ink, with a light role.</summary>
/// <param name="Origin">Where it comes from.</param>
/// <param name="Name">What it is, for people: the words, or the kind of mark.</param>
/// <param name="Style">How it is printed.</param>
/// <param name="Shape">The area.</param>
/// <param name="IsLettering">Whether its name is the words that it says.</param>
public sealed record Mark(Origin Origin, string Name, MarkStyle Style, Region<PanelSpace> Shape, bool IsLettering = false)
{
    private readonly Region<PanelSpace>? _extent;

    /// <summary>Whether it is a filled shape, so that a hatch can stand for its colour where there is black only.</summary>
    public bool Filled { get; init; }

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
    /// <summary>Draws a panel.</summary>
    /// <param name="laid">The panel in its places.</param>
    public static PanelArtwork Draw(LaidPanel laid)
    {
        ArgumentNullException.ThrowIfNull(laid);
        var marks = ImmutableArray.CreateBuilder<Mark>();
        marks.AddRange(laid.Areas.Select(area => new Mark(area.Origin, "area", area.Style, AreaShape.Of(area)) { Filled = true }));
        marks.AddRange(laid.Rules.Select(rule => new Mark(rule.Origin, "rule", rule.Rule.Style, RuleShape.Of(rule))));
        foreach (var dial in laid.Dials)
        {
            marks.AddRange(dial.Ranges.Select(band => new Mark(dial.Origin, "range", band.Style, DialShape.Band(dial.Centre, band))
            {
                Filled = true,
                Course = new(dial.Centre, band.FromClockDegrees, band.ToClockDegrees, band.InnerRadiusMm, band.OuterRadiusMm),
            }));
            marks.Add(new(dial.Origin, "dial", dial.Style, DialShape.Marks(dial)));
        }

        marks.AddRange(laid.Leaders.Select(leader => new Mark(
            leader.Origin,
            "leader",
            leader.Style,
            Region<PanelSpace>.Stroke(new([leader.Start, leader.End], Closed: false), leader.WidthMm, LineEnd.Round))));
        marks.AddRange(laid.Texts.Select(text => new Mark(text.Origin, text.Words, text.Style, text.Shape, IsLettering: true)));
        return new(
            laid,
            marks.ToImmutable(),
            Region<PanelSpace>.Union(laid.Parts.SelectMany(part => part.Holes)));
    }
}
