using System.Collections.Immutable;
using Lampblack.Findings;

namespace Lampblack.Desks;

/// <summary>A printed line.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Span">Where its table starts.</param>
/// <param name="Style">How it is printed.</param>
/// <param name="Copies">Its copies.</param>
/// <param name="WidthMm">Width of the line.</param>
/// <param name="Form">Its course.</param>
/// <param name="Title">Words that stand in a gap of a box's or bracket's line; empty for none.</param>
/// <param name="TitleText">Lettering of the title.</param>
public sealed record Rule(
    string Id,
    SourceSpan Span,
    MarkStyle Style,
    Repetition Copies,
    double WidthMm,
    RuleForm Form,
    string Title,
    TextStyle TitleText) : PanelItem(Id, Span, Style, Copies);

/// <summary>The course of a rule.</summary>
public abstract record RuleForm;

/// <summary>A line through two or more points.</summary>
/// <param name="PointsMm">The points.</param>
/// <param name="CornerMm">Radius of its bends.</param>
/// <param name="RoundEnds">Whether its ends are round.</param>
public sealed record LineForm(ImmutableArray<(double XMm, double YMm)> PointsMm, double CornerMm, bool RoundEnds) : RuleForm;

/// <summary>A part of a circle.</summary>
/// <param name="XMm">Centre.</param>
/// <param name="YMm">Centre.</param>
/// <param name="RadiusMm">Radius of the line's middle.</param>
/// <param name="FromDegrees">Start, clockwise from straight up.</param>
/// <param name="ToDegrees">End, clockwise from straight up.</param>
public sealed record ArcForm(double XMm, double YMm, double RadiusMm, double FromDegrees, double ToDegrees) : RuleForm;

/// <summary>A rectangle drawn as a line.</summary>
/// <param name="LeftMm">Left edge, middle of the line.</param>
/// <param name="BottomMm">Lower edge.</param>
/// <param name="WidthMm">Width.</param>
/// <param name="HeightMm">Height.</param>
/// <param name="CornerMm">Radius of its corners.</param>
public sealed record FrameForm(double LeftMm, double BottomMm, double WidthMm, double HeightMm, double CornerMm) : RuleForm;

/// <summary>A line with both ends bent towards what it groups.</summary>
/// <param name="FromXMm">One end.</param>
/// <param name="FromYMm">One end.</param>
/// <param name="ToXMm">Other end.</param>
/// <param name="ToYMm">Other end.</param>
/// <param name="DepthMm">Length of the bent ends, to the right of the way from one end to the other; negative for the left.</param>
public sealed record BracketForm(double FromXMm, double FromYMm, double ToXMm, double ToYMm, double DepthMm) : RuleForm;

/// <summary>A line with a head.</summary>
/// <param name="PointsMm">Its points; the head stands at the last.</param>
/// <param name="HeadMm">Length of the head.</param>
/// <param name="BothEnds">Whether the first point has a head too.</param>
public sealed record ArrowForm(ImmutableArray<(double XMm, double YMm)> PointsMm, double HeadMm, bool BothEnds) : RuleForm;
