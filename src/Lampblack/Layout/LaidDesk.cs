using System;
using System.Collections.Immutable;
using Lampblack.Art;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Parts;

namespace Lampblack.Layout;

/// <summary>A desk with every item in its place.</summary>
/// <param name="Desk">The desk as written.</param>
/// <param name="Panels">Its panels.</param>
public sealed record LaidDesk(Desk Desk, ImmutableArray<LaidPanel> Panels);

/// <summary>A panel with every item in its place; copies are single items here.</summary>
/// <param name="Panel">The panel as written.</param>
/// <param name="Order">The desk's order of work.</param>
/// <param name="Outline">The finished plate.</param>
/// <param name="Areas">Filled areas, lowest first.</param>
/// <param name="Rules">Rules, over the areas.</param>
/// <param name="Dials">Dials, over the rules.</param>
/// <param name="Texts">All lettering, numerals included, on top.</param>
/// <param name="Leaders">Short lines from a control's positions to their words.</param>
/// <param name="Parts">All parts in their holes, fixings included.</param>
public sealed record LaidPanel(
    Panel Panel,
    WorkOrder Order,
    Region<PanelSpace> Outline,
    ImmutableArray<PlacedArea> Areas,
    ImmutableArray<PlacedRule> Rules,
    ImmutableArray<PlacedDial> Dials,
    ImmutableArray<PlacedText> Texts,
    ImmutableArray<PlacedLeader> Leaders,
    ImmutableArray<PlacedPart> Parts)
{
    /// <summary>Artwork drawn elsewhere, below everything else.</summary>
    public ImmutableArray<PlacedArt> Arts { get; init; } = [];

    /// <summary>The same item by item, each with its copies, in the order of the desk; for a layout that comes later.</summary>
    internal ImmutableArray<(PanelItem Item, LaidItem[] Copies)> Items { get; init; } = [];

    /// <summary>Whether the maker's punches are fractions of an inch.</summary>
    public bool PunchesInInches { get; init; }

    /// <summary>How far a cut along its edge may lie off its place, in mm, as the desk's bench says.</summary>
    public double CutErrorMm { get; init; } = Bench.Usual.PaperErrorMm;
}

/// <summary>Where an item comes from: its id on the panel and its place in the desk file.</summary>
/// <param name="Item">Panel id, '/', item id (with '.n' for the n-th copy).</param>
/// <param name="Span">Where it is written.</param>
public sealed record Origin(string Item, SourceSpan Span)
{
    /// <summary>The item without its panel, for places where the panel is plain.</summary>
    public string Name => Item[(Item.IndexOf('/', StringComparison.Ordinal) + 1)..];
}

/// <summary>Lettering in its place.</summary>
/// <param name="Origin">Where it comes from.</param>
/// <param name="Style">How it is printed.</param>
/// <param name="Shape">The outlines.</param>
/// <param name="Box">The space it takes: from the first line's capitals to the last baseline; for turned text the box around it.</param>
/// <param name="Words">The words, for people.</param>
public sealed record PlacedText(Origin Origin, MarkStyle Style, Region<PanelSpace> Shape, Box<PanelSpace> Box, string Words)
{
    /// <summary>Its measures; null where it was not set from a font.</summary>
    public LetterMeasures? Letters { get; init; }
}

/// <summary>What the eye has to tell apart in a text.</summary>
/// <param name="CapitalsMm">Height of its capitals.</param>
/// <param name="StrokeMm">Width of its upright strokes, measured on a capital I; 0 where the font has none.</param>
/// <param name="LetterGapMm">Free space between two capital I.</param>
/// <param name="LineGapMm">Free space between the capitals of two lines; null for a single line.</param>
public sealed record LetterMeasures(double CapitalsMm, double StrokeMm, double LetterGapMm, double? LineGapMm);

/// <summary>Artwork in its place.</summary>
/// <param name="Origin">Where it comes from.</param>
/// <param name="Style">How what is not field is printed.</param>
/// <param name="OneInk">Whether all of that is printed in the style's ink, whatever its own colours.</param>
/// <param name="Content">What it holds.</param>
/// <param name="Placement">Where it lies.</param>
public sealed record PlacedArt(Origin Origin, MarkStyle Style, bool OneInk, ArtContent Content, Affine<ItemSpace, PanelSpace> Placement);

/// <summary>A filled area in its place.</summary>
/// <param name="Origin">Where it comes from.</param>
/// <param name="Style">How it is printed.</param>
/// <param name="Form">Its outline, before the shift.</param>
/// <param name="Shift">Shift of this copy.</param>
public sealed record PlacedArea(Origin Origin, MarkStyle Style, AreaForm Form, Vector<PanelSpace> Shift);

/// <summary>A rule in its place.</summary>
/// <param name="Origin">Where it comes from.</param>
/// <param name="Rule">The rule as written.</param>
/// <param name="Shift">Shift of this copy.</param>
/// <param name="Gap">Where its title interrupts it; null for none.</param>
public sealed record PlacedRule(Origin Origin, Rule Rule, Vector<PanelSpace> Shift, Box<PanelSpace>? Gap);

/// <summary>A short radial line from a control's position to its word.</summary>
/// <param name="Origin">Where it comes from.</param>
/// <param name="Style">How it is printed.</param>
/// <param name="Start">Near the control.</param>
/// <param name="End">Near the word.</param>
/// <param name="WidthMm">Width of the line.</param>
public sealed record PlacedLeader(Origin Origin, MarkStyle Style, Point<PanelSpace> Start, Point<PanelSpace> End, double WidthMm);

/// <summary>A part in its hole.</summary>
/// <param name="Origin">Where it comes from.</param>
/// <param name="Part">The part.</param>
/// <param name="Centre">Centre of its main hole.</param>
/// <param name="TurnDegrees">How far it is turned, clockwise.</param>
/// <param name="Holes">Its holes, the main one first.</param>
/// <param name="Covered">What its nut, washer or bezel covers in front.</param>
public sealed record PlacedPart(
    Origin Origin,
    Part Part,
    Point<PanelSpace> Centre,
    double TurnDegrees,
    ImmutableArray<Region<PanelSpace>> Holes,
    Region<PanelSpace> Covered)
{
    /// <summary>From the part, its anchor the origin, to the panel: the one place where parts are turned and put down.</summary>
    public Affine<ItemSpace, PanelSpace> Map => MapOf(Centre, TurnDegrees);

    /// <summary>The room it takes behind the panel, terminals included; empty where nothing is known of it.</summary>
    public Region<PanelSpace> Body() => Part.BodyShape.Map(Map);

    /// <summary>The map of a part that would stand at a place.</summary>
    internal static Affine<ItemSpace, PanelSpace> MapOf(Point<PanelSpace> centre, double turnDegrees) =>
        Affine<ItemSpace, ItemSpace>.Turn(-turnDegrees).Then(Affine<ItemSpace, PanelSpace>.Shift(centre.XMm, centre.YMm));
}

/// <summary>A dial in its place; its numerals are among the panel's texts.</summary>
/// <param name="Origin">Where it comes from.</param>
/// <param name="Style">How its marks are printed.</param>
/// <param name="Centre">Its centre.</param>
/// <param name="Marks">Its marks.</param>
/// <param name="Ranges">Its coloured stretches.</param>
/// <param name="Arc">The line that joins the marks; null for none.</param>
public sealed record PlacedDial(
    Origin Origin,
    MarkStyle Style,
    Point<PanelSpace> Centre,
    ImmutableArray<DialMark> Marks,
    ImmutableArray<DialBand> Ranges,
    DialBand? Arc);

/// <summary>One mark of a dial.</summary>
/// <param name="ClockDegrees">Its angle, clockwise from straight up.</param>
/// <param name="InnerRadiusMm">Where it starts.</param>
/// <param name="OuterRadiusMm">Where it ends.</param>
/// <param name="WidthMm">Its width.</param>
public sealed record DialMark(double ClockDegrees, double InnerRadiusMm, double OuterRadiusMm, double WidthMm);

/// <summary>A stretch of ring.</summary>
/// <param name="FromClockDegrees">Start, clockwise from straight up.</param>
/// <param name="ToClockDegrees">End, clockwise from straight up.</param>
/// <param name="InnerRadiusMm">Inner radius.</param>
/// <param name="OuterRadiusMm">Outer radius.</param>
/// <param name="Style">How it is printed.</param>
public sealed record DialBand(double FromClockDegrees, double ToClockDegrees, double InnerRadiusMm, double OuterRadiusMm, MarkStyle Style);
