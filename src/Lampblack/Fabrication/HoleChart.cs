using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Parts;

namespace Lampblack.Fabrication;

/// <summary>All openings of one plate, numbered from top to bottom and from left to right, with the drill for each.</summary>
/// <param name="Laid">The panel.</param>
/// <param name="Plate">The plate's edge.</param>
/// <param name="Drills">The drills they are matched to.</param>
/// <param name="Holes">The openings in the order of their numbers.</param>
public sealed record HoleChart(LaidPanel Laid, ArcPath<PanelSpace> Plate, DrillSet Drills, ImmutableArray<ChartHole> Holes)
{
    // Rows are told apart by eye: parts whose middles lie closer than this stand in one. Ours.
    private const double RowMm = 4;

    // A drill off by more than this is worth a word: the usual allowance of a clearance hole (ISO 273: M3 fine 3.2, medium 3.4).
    private const double WorthAWordMm = 0.2;

    // Beyond the usual point angles of drills for acrylic, 60 to 90 degrees (a sheet maker's fabrication brief on drilling; docs/sources.md).
    private const double BluntestDegrees = 90;
    private const double SharpestDegrees = 60;

    /// <summary>The chart of a panel, and what is worth a word about its drills.</summary>
    /// <param name="laid">The panel, laid out.</param>
    /// <param name="bench">What the maker works with.</param>
    public static Checked<HoleChart> Of(LaidPanel laid, Bench bench)
    {
        ArgumentNullException.ThrowIfNull(laid);
        ArgumentNullException.ThrowIfNull(bench);
        var drilled = laid.Panel.Items.OfType<Control>().Where(control => control.Drilled is not null).Select(control => control.Span).ToHashSet();
        var holes = ImmutableArray.CreateBuilder<ChartHole>();
        foreach (var (index, part) in Reading(laid.Parts).Index())
        {
            holes.AddRange(PartHoles.Of(part, index + 1, bench.Drills, drilled.Contains(part.Origin.Span)));
        }

        var plate = ArcPath<PanelSpace>.RoundedRectangle(new(0, 0, laid.Panel.WidthMm, laid.Panel.HeightMm), laid.Panel.CornerMm);
        var chart = new HoleChart(laid, plate, bench.Drills, holes.ToImmutable());
        return new(chart, [.. chart.Apart()]);
    }

    /// <summary>What a drill's point angle means for acrylic; nothing where it is right or not known. Said once for a desk.</summary>
    /// <param name="bench">What the maker works with.</param>
    public static IEnumerable<Finding> PointFindings(Bench bench)
    {
        ArgumentNullException.ThrowIfNull(bench);
        if (bench.PointDegrees is { } degrees && degrees is < SharpestDegrees or > BluntestDegrees)
        {
            yield return Finding.Warn(
                "drill-point",
                string.Create(CultureInfo.InvariantCulture, $"drills with a point of {degrees:0.#} degrees grab acrylic as they break through; {SharpestDegrees} to {BluntestDegrees} degrees are right (makers of acrylic sheet)"),
                "grind the points, buy drills for plastics, or drill small, clamp the plate between boards and finish with a step drill and a file; try on scrap first");
        }
    }

    /// <summary>Parts as one reads them: rows from the top, each from the left.</summary>
    private static IEnumerable<PlacedPart> Reading(ImmutableArray<PlacedPart> parts)
    {
        var left = parts.OrderByDescending(part => part.Centre.YMm).ThenBy(part => part.Centre.XMm).ToList();
        for (var start = 0; start < left.Count;)
        {
            var end = start + 1;
            while (end < left.Count && left[start].Centre.YMm - left[end].Centre.YMm < RowMm)
            {
                end++;
            }

            foreach (var part in left[start..end].OrderBy(part => part.Centre.XMm).ThenByDescending(part => part.Centre.YMm))
            {
                yield return part;
            }

            start = end;
        }
    }

    /// <summary>Holes whose drill misses their size, once for each size; only where the maker said which drills there are.</summary>
    private IEnumerable<Finding> Apart()
    {
        if (!Drills.IsStated)
        {
            yield break;
        }

        var off = Holes.Where(hole => hole is { Way: HoleWay.Drill, IsDrilled: false, Choice: { } choice }
            && (choice.ErrorMm < -DrillSet.LeastBelowMm - 1e-9 || choice.ErrorMm > Math.Max(WorthAWordMm, hole.TolerancePlusMm ?? 0) + 1e-9));
        foreach (var group in off.GroupBy(hole => (hole.DiameterMm, hole.Choice!.Drill)))
        {
            var (hole, error) = (group.First(), group.First().Choice!.ErrorMm);
            var which = Shown.List(group.Select(one => one.Origin.Item).Distinct().Select(Shown.Code));
            var hint = error < 0
                ? string.Create(CultureInfo.InvariantCulture, $"drill it and file it out by {-error:0.00} mm, or add the right drill to `drills`")
                : string.Create(CultureInfo.InvariantCulture, $"its nut covers {error / 2:0.00} mm less all round; a smaller drill and a file keep the cover");
            yield return Finding.Warn(
                "drill-apart",
                string.Create(CultureInfo.InvariantCulture, $"the hole of {which} is {hole.SizeText}, and the nearest drill, {hole.Choice!.Drill.Name}, makes it {Math.Abs(error):0.00} mm {(error < 0 ? "smaller" : "larger")}"),
                hint,
                hole.Origin.Span,
                hole.Origin.Item);
        }
    }
}
