using System.Collections.Generic;
using System.Collections.Immutable;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Parts;
using Lampblack.Quantities;

namespace Lampblack.Fabrication;

/// <summary>How an opening is made.</summary>
public enum HoleWay
{
    /// <summary>Drilled, with smaller drills before where it is large.</summary>
    Drill,

    /// <summary>Larger than the largest drill: a hole for its middle, then a step drill or a hole saw, then a file.</summary>
    Saw,

    /// <summary>No circle: drilled within, sawn and filed to the template.</summary>
    File,
}

/// <summary>One opening of a plate.</summary>
/// <param name="Label">Its number on the template; holes beside a part's main one carry a letter: 7, 7a.</param>
/// <param name="Origin">The item that it belongs to.</param>
/// <param name="Purpose">What goes in, in plain words.</param>
/// <param name="Way">How it is made.</param>
/// <param name="Centre">Its middle, from the marked corner (lower left, seen from the front).</param>
/// <param name="Line">Its edge as it is to be.</param>
/// <param name="PaperLine">The edge of the paper's opening over it, which reaches a little farther where something covers that.</param>
/// <param name="Shape">The same as the layout has it, for drawings.</param>
/// <param name="Starts">Where drills go in: its middle, or its corners or ends where it is no circle.</param>
/// <param name="SizeText">Its size as one tells it: "6.5 mm", "45 x 26 mm".</param>
/// <param name="DiameterMm">Diameter of its round part; nothing where it has none.</param>
/// <param name="TolerancePlusMm">How much larger it may be; nothing where no figure is known.</param>
/// <param name="Choice">The last drill; nothing where none fits.</param>
/// <param name="Before">The drills before the last one, smallest first.</param>
/// <param name="PunchMm">Diameter to open the paper with; nothing where a knife does it.</param>
/// <param name="Then">What is left to do after drilling; empty for nothing.</param>
/// <param name="IsDrilled">Whether it was drilled already: it stays where it is.</param>
/// <param name="ShowsEdge">Whether nothing covers its edge in front, so that it is blackened with care.</param>
public sealed record ChartHole(
    string Label,
    Origin Origin,
    string Purpose,
    HoleWay Way,
    Point<PanelSpace> Centre,
    ArcPath<PanelSpace> Line,
    ArcPath<PanelSpace> PaperLine,
    Region<PanelSpace> Shape,
    ImmutableArray<Point<PanelSpace>> Starts,
    string SizeText,
    double? DiameterMm,
    double? TolerancePlusMm,
    DrillChoice? Choice,
    ImmutableArray<Drill> Before,
    double? PunchMm,
    string Then,
    bool IsDrilled,
    bool ShowsEdge)
{
    /// <summary>All drills, one after the other.</summary>
    public IEnumerable<Drill> Drills => Choice is { } last ? Before.Add(last.Drill) : Before;

    /// <summary>The punch that one can buy for <see cref="PunchMm"/>; nothing where none is: a knife does it.</summary>
    /// <param name="unit">What punches are sold in.</param>
    public double? HandPunchMm(LengthUnit unit) => HandPunch.ForMm(PunchMm, DiameterMm, unit == LengthUnit.Inch);
}
