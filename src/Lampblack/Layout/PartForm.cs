using System.Collections.Immutable;
using System.Linq;
using System.Runtime.CompilerServices;
using Lampblack.Geometry;
using Lampblack.Parts;

namespace Lampblack.Layout;

/// <summary>A part's shapes about its anchor, made once for all its copies and for every layout that places it.</summary>
/// <param name="Holes">Its openings, the main one first.</param>
/// <param name="Covered">What its bezel covers.</param>
/// <param name="AreCovered">Of each opening whether the bezel covers it whole.</param>
/// <param name="Front">What hand and eye meet.</param>
/// <param name="PaperMarginMm">How far beyond a hole's edge the paper is opened.</param>
/// <param name="PaperPunchMm">Diameter to punch the paper with; nothing where it is cut with a knife.</param>
internal sealed record PartForm(
    ImmutableArray<Region<ItemSpace>> Holes, Region<ItemSpace> Covered, ImmutableArray<bool> AreCovered, Region<ItemSpace> Front, double PaperMarginMm, double? PaperPunchMm)
{
    private static readonly ConditionalWeakTable<Part, PartForm> Forms = [];

    /// <summary>The shapes of a part; forgotten when the part is.</summary>
    public static PartForm Of(Part part) => Forms.GetValue(part, one => Made(one.Holes(), one.Covered(), one));

    private static PartForm Made(ImmutableArray<Region<ItemSpace>> holes, Region<ItemSpace> covered, Part part) =>
        new(holes, covered, [.. holes.Select(covered.Contains)], part.Front(), part.PaperMarginMm, part.PaperPunchMm);
}
