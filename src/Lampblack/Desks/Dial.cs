using System.Collections.Immutable;
using Lampblack.Findings;

namespace Lampblack.Desks;

/// <summary>How values are spread over a dial's sweep.</summary>
public enum ScaleLaw
{
    /// <summary>Equal steps, equal angles.</summary>
    Linear,

    /// <summary>Equal factors, equal angles.</summary>
    Logarithmic,

    /// <summary>A table of values and their angles, straight in between.</summary>
    Table,
}

/// <summary>How a dial's numerals stand.</summary>
public enum NumeralStand
{
    /// <summary>All upright, easiest to read.</summary>
    Upright,

    /// <summary>Each turned with its mark.</summary>
    Radial,

    /// <summary>No numerals.</summary>
    None,
}

/// <summary>A coloured stretch of a dial.</summary>
/// <param name="From">Value where it starts.</param>
/// <param name="To">Value where it ends.</param>
/// <param name="Style">How it is printed.</param>
public sealed record DialRange(double From, double To, MarkStyle Style);

/// <summary>A scale around a control or on its own. Angles are clockwise from straight up.</summary>
/// <param name="Span">Where it is written.</param>
/// <param name="Law">How values are spread.</param>
/// <param name="From">First value.</param>
/// <param name="To">Last value; may be smaller than the first.</param>
/// <param name="StartDegrees">Angle of the first value.</param>
/// <param name="EndDegrees">Angle of the last value.</param>
/// <param name="Major">Step of the numbered marks, in values (for a logarithmic scale unused: one mark for each power of ten).</param>
/// <param name="Minor">Step of the small marks; 0 for none.</param>
/// <param name="TableDegrees">For a tabulated scale: values and their angles.</param>
/// <param name="RadiusMm">Where the marks start, from the centre; 0 to fit the part.</param>
/// <param name="MajorLengthMm">Length of the numbered marks; 0 for the usual by radius.</param>
/// <param name="Numerals">How numerals stand.</param>
/// <param name="Labels">Words instead of numerals, for given values.</param>
/// <param name="Ranges">Coloured stretches.</param>
/// <param name="Arc">Whether a line joins the marks.</param>
/// <param name="Text">Lettering of the numerals.</param>
public sealed record Dial(
    SourceSpan Span,
    ScaleLaw Law,
    double From,
    double To,
    double StartDegrees,
    double EndDegrees,
    double Major,
    double Minor,
    ImmutableArray<(double Value, double Degrees)> TableDegrees,
    double RadiusMm,
    double MajorLengthMm,
    NumeralStand Numerals,
    ImmutableArray<(double Value, string Word)> Labels,
    ImmutableArray<DialRange> Ranges,
    bool Arc,
    TextStyle Text);
