using System.Collections.Immutable;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.Quantities;

namespace Lampblack.Desks;

/// <summary>How a mark behaves when the lamps are on.</summary>
public enum LightRole
{
    /// <summary>Seen by day and glowing at night: open in the mask.</summary>
    Lit,

    /// <summary>Seen by day only: the mask is black behind it.</summary>
    Unlit,

    /// <summary>Seen only when lit: a thin cover on the front, open in the mask.</summary>
    Hidden,
}

/// <summary>How a mark is printed.</summary>
/// <param name="Role">Its light role.</param>
/// <param name="Ink">Its ink; null means the field's own black, so that it cuts into what lies below.</param>
/// <param name="Backed">Whether its colour is printed in the mask's opening too, mirrored, so that it doesn't wash out when lit.</param>
/// <param name="CoverShare">For a hidden mark: how much of one full K layer covers it, from 0 to 1.</param>
public sealed record MarkStyle(LightRole Role, Ink? Ink, bool Backed, double CoverShare = 1);

/// <summary>Lettering as chosen for one text.</summary>
/// <param name="Font">Name of a bundled font or of one the desk brings along.</param>
/// <param name="HeightMm">Height of capitals.</param>
/// <param name="SpacingMm">Extra space between letters.</param>
/// <param name="LeadingFactor">Distance of baselines as a multiple of the height of capitals.</param>
public sealed record TextStyle(string Font, double HeightMm, double SpacingMm, double LeadingFactor);

/// <summary>Copies of one item, in rows from left to right and columns from top to bottom.</summary>
/// <param name="Columns">How many side by side.</param>
/// <param name="Rows">How many one below the other.</param>
/// <param name="StepXMm">From one copy to the next in its row, to the right.</param>
/// <param name="StepYMm">From one row to the next, downwards; for a single row, how far each copy rises.</param>
public sealed record Repetition(int Columns, int Rows, double StepXMm, double StepYMm)
{
    /// <summary>One copy only.</summary>
    public static Repetition Once { get; } = new(1, 1, 0, 0);

    /// <summary>How many copies there are.</summary>
    public int Count => Columns * Rows;

    /// <summary>How far the copy of this number (from 0, row by row) stands from the first, in mm to the right and upwards.</summary>
    public (double DxMm, double DyMm) ShiftOf(int copy) => Rows == 1
        ? (copy * StepXMm, copy * StepYMm)
        : (copy % Columns * StepXMm, -(copy / Columns) * StepYMm);
}

/// <summary>Something on a panel.</summary>
/// <param name="Id">Its id, given or made from its kind and number.</param>
/// <param name="Span">Where its table starts.</param>
/// <param name="Style">How its marks are printed.</param>
/// <param name="Copies">Its copies.</param>
public abstract record PanelItem(string Id, SourceSpan Span, MarkStyle Style, Repetition Copies)
{
    /// <summary>Findings that its maker lets stand.</summary>
    public ImmutableArray<Acceptance> Accepts { get; init; } = [];

    /// <summary>Which light is behind it.</summary>
    public LampOf Lamp { get; init; } = LampOf.Unsaid;
}

/// <summary>Which light is behind an item's marks.</summary>
/// <param name="Source">Whose it is.</param>
/// <param name="Output">The output that switches it; 0 where none is named.</param>
/// <param name="Span">Where that is written; null where it is not.</param>
public sealed record LampOf(LampSource Source, int Output, SourceSpan? Span)
{
    /// <summary>Nothing said: hidden marks have a light of their own, all others the common one.</summary>
    public static LampOf Unsaid { get; } = new(LampSource.Usual, 0, null);
}

/// <summary>Whose light it is.</summary>
public enum LampSource
{
    /// <summary>Not said.</summary>
    Usual,

    /// <summary>That of all others.</summary>
    General,

    /// <summary>One of its own, in a light-tight cell.</summary>
    Own,
}

/// <summary>On which side of its control a legend stands.</summary>
public enum LegendSide
{
    /// <summary>Over it, where hands do not hide it.</summary>
    Above,

    /// <summary>Under it.</summary>
    Below,

    /// <summary>To its left.</summary>
    Left,

    /// <summary>To its right.</summary>
    Right,
}

/// <summary>A part in its hole, with what is written around it.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Span">Where its table starts.</param>
/// <param name="Style">How its legends are printed.</param>
/// <param name="Copies">Its copies.</param>
/// <param name="Part">The part.</param>
/// <param name="XMm">Centre of its main hole.</param>
/// <param name="YMm">Centre of its main hole.</param>
/// <param name="TurnDegrees">How far the part is turned, clockwise.</param>
/// <param name="Legends">Its legend, one entry for each copy, each of one or more lines; empty for none.</param>
/// <param name="Side">Where the legend stands.</param>
/// <param name="GapMm">Free space between legend and what it stands beside.</param>
/// <param name="States">A word for each position.</param>
/// <param name="LegendText">Lettering of the legend.</param>
/// <param name="StateText">Lettering of the states.</param>
/// <param name="StateLeadersMm">Length of the short line from each position towards its word; 0 for none.</param>
/// <param name="StateGapMm">Free space between the part (or its leaders) and its states.</param>
/// <param name="Dial">The scale around it, if it has one.</param>
/// <param name="Drilled">How far off its place the hole was drilled, as measured; null where it was not drilled yet, or not measured.</param>
public sealed record Control(
    string Id,
    SourceSpan Span,
    MarkStyle Style,
    Repetition Copies,
    Part Part,
    double XMm,
    double YMm,
    double TurnDegrees,
    ImmutableArray<ImmutableArray<string>> Legends,
    LegendSide Side,
    double GapMm,
    ImmutableArray<string> States,
    TextStyle LegendText,
    TextStyle StateText,
    double StateLeadersMm,
    double StateGapMm,
    Dial? Dial,
    DrilledOffset? Drilled = null) : PanelItem(Id, Span, Style, Copies)
{
    /// <summary>How it is wired.</summary>
    public ControlWiring Wiring { get; init; } = ControlWiring.Usual;

    /// <summary>The legend of a copy on one line; empty where it has none.</summary>
    /// <param name="copy">Which copy, from 0; the last legend serves all further ones.</param>
    public string LegendOf(int copy) => Legends.IsEmpty ? string.Empty : string.Join(' ', Legends[copy < Legends.Length ? copy : ^1]).Trim();
}

/// <summary>From where a hole was meant to be to where it was drilled, front view.</summary>
/// <param name="DxMm">To the right.</param>
/// <param name="DyMm">Upwards.</param>
public sealed record DrilledOffset(double DxMm, double DyMm);

/// <summary>Where a block of text is held.</summary>
public enum HorizontalAlign
{
    /// <summary>At the left ends of its lines.</summary>
    Left,

    /// <summary>In the middle.</summary>
    Centre,

    /// <summary>At the right ends of its lines.</summary>
    Right,
}

/// <summary>Which height of a block of text stands at its place.</summary>
public enum VerticalAnchor
{
    /// <summary>Halfway between the top of the first line's capitals and the last baseline.</summary>
    Middle,

    /// <summary>The top of the first line's capitals.</summary>
    Top,

    /// <summary>The first baseline.</summary>
    Baseline,

    /// <summary>The last baseline.</summary>
    Bottom,
}

/// <summary>Free lettering.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Span">Where its table starts.</param>
/// <param name="Style">How it is printed.</param>
/// <param name="Copies">Its copies.</param>
/// <param name="XMm">Where it is held.</param>
/// <param name="YMm">Where it is held.</param>
/// <param name="TurnDegrees">How far it is turned about that place, clockwise.</param>
/// <param name="Texts">The words, one entry for each copy (or one for all), each of one or more lines.</param>
/// <param name="Align">Which end is held.</param>
/// <param name="Anchor">Which height is held.</param>
/// <param name="Text">The lettering.</param>
public sealed record Legend(
    string Id,
    SourceSpan Span,
    MarkStyle Style,
    Repetition Copies,
    double XMm,
    double YMm,
    double TurnDegrees,
    ImmutableArray<ImmutableArray<string>> Texts,
    HorizontalAlign Align,
    VerticalAnchor Anchor,
    TextStyle Text) : PanelItem(Id, Span, Style, Copies);

/// <summary>A scale that stands on its own, such as that of a meter.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Span">Where its table starts.</param>
/// <param name="Style">How its marks are printed.</param>
/// <param name="Copies">Its copies.</param>
/// <param name="XMm">Its centre.</param>
/// <param name="YMm">Its centre.</param>
/// <param name="Dial">The scale.</param>
public sealed record FreeDial(
    string Id, SourceSpan Span, MarkStyle Style, Repetition Copies, double XMm, double YMm, Dial Dial) : PanelItem(Id, Span, Style, Copies);

/// <summary>A filled area.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Span">Where its table starts.</param>
/// <param name="Style">How it is printed.</param>
/// <param name="Copies">Its copies.</param>
/// <param name="Form">Its outline.</param>
public sealed record FilledArea(string Id, SourceSpan Span, MarkStyle Style, Repetition Copies, AreaForm Form) : PanelItem(Id, Span, Style, Copies);

/// <summary>Outline of a filled area.</summary>
public abstract record AreaForm;

/// <summary>An upright rectangle.</summary>
/// <param name="LeftMm">Left edge.</param>
/// <param name="BottomMm">Lower edge.</param>
/// <param name="WidthMm">Width.</param>
/// <param name="HeightMm">Height.</param>
/// <param name="CornerMm">Radius of its corners.</param>
public sealed record BoxForm(double LeftMm, double BottomMm, double WidthMm, double HeightMm, double CornerMm) : AreaForm;

/// <summary>A disc.</summary>
/// <param name="XMm">Centre.</param>
/// <param name="YMm">Centre.</param>
/// <param name="RadiusMm">Radius.</param>
public sealed record DiscForm(double XMm, double YMm, double RadiusMm) : AreaForm;

/// <summary>Any corners.</summary>
/// <param name="CornersMm">The corners in order.</param>
public sealed record PolygonForm(ImmutableArray<(double XMm, double YMm)> CornersMm) : AreaForm;
