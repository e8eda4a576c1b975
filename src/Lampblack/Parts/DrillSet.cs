using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Parts;

/// <summary>The drills a maker owns.</summary>
/// <param name="Drills">The drills by diameter, smallest first; never empty.</param>
/// <param name="IsStated">Whether the maker said so; else it is the usual box.</param>
public sealed record DrillSet(ImmutableArray<Drill> Drills, bool IsStated)
{
    /// <summary>A hole may come out this much below its size before a part sticks: what a drill takes beyond its own size anyway. Common practice, no source.</summary>
    public const double LeastBelowMm = 0.05;

    // What is too small costs work with a file, what is too large costs cover; the first is the worse on acrylic.
    private const double BelowFactor = 3;

    /// <summary>What is assumed where nobody says: <see cref="DrillTables.Metric"/>.</summary>
    public static DrillSet Usual { get; } = new(DrillTables.Metric, IsStated: false);

    /// <summary>The largest.</summary>
    public Drill Largest => Drills[^1];

    /// <summary>A set of drills; of several of one size (to 0.001 mm) the first keeps its name.</summary>
    /// <exception cref="ArgumentException">There is none.</exception>
    public static DrillSet Of(IEnumerable<Drill> drills)
    {
        ImmutableArray<Drill> all = [.. drills.DistinctBy(drill => Math.Round(drill.DiameterMm, 3, MidpointRounding.AwayFromZero)).OrderBy(drill => drill.DiameterMm)];
        return all.IsEmpty ? throw new ArgumentException("a set has a drill", nameof(drills)) : new(all, IsStated: true);
    }

    /// <summary>The drill for a hole: the nearest in size, one that is too small counting three times as far; null where the hole is larger than the largest drill.</summary>
    /// <param name="diameterMm">The hole.</param>
    public DrillChoice? For(double diameterMm)
    {
        if (diameterMm > Largest.DiameterMm + LeastBelowMm)
        {
            return null;
        }

        var drill = Drills.MinBy(drill => Math.Abs(drill.DiameterMm - diameterMm) * (drill.DiameterMm < diameterMm - LeastBelowMm ? BelowFactor : 1))!;
        return new(drill, drill.DiameterMm - diameterMm);
    }

    /// <summary>The largest drill that is not larger than a size; null where all are.</summary>
    /// <param name="diameterMm">The size.</param>
    public Drill? UpTo(double diameterMm) => Drills.LastOrDefault(drill => drill.DiameterMm <= diameterMm + 1e-9);
}

/// <summary>A drill for a hole.</summary>
/// <param name="Drill">The drill.</param>
/// <param name="ErrorMm">How much larger than the hole it is; negative where it is smaller and the hole is filed out.</param>
public sealed record DrillChoice(Drill Drill, double ErrorMm);
