using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Printers;

/// <summary>How dark a printer's blacks are, from all calibration sheets that were photographed.</summary>
/// <param name="Patches">Each patch: measured, a lower bound, or inferred from its layers.</param>
/// <param name="Sheets">On how many sheets it rests.</param>
public sealed record WedgeEstimate(ImmutableArray<PatchDensity> Patches, int Sheets)
{
    /// <summary>The estimate from all that a printer file holds: of each patch the mean, weighted by its uncertainty, or the highest bound where nobody measured it.</summary>
    public static WedgeEstimate Of(PrinterFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        var wedges = OncePerSheet.Wedges(file);
        var merged = wedges.SelectMany(entry => entry.Patches).GroupBy(patch => patch.Id, StringComparer.Ordinal).Select(Merge).ToList();
        return new([.. merged.Select(patch => LayeredBlack.Infer(patch, merged))], wedges.Length);
    }

    /// <summary>How dark one layer of a build is on the front, sent as drawings are; null where no patch tells it.</summary>
    /// <param name="build">The build.</param>
    public PatchDensity? OfBuild(BlackBuild build)
    {
        ArgumentNullException.ThrowIfNull(build);
        return build.Name == PrinterProperties.Learned ? OfCoverage(build.Ink.TotalCoverage) : Patch($"front-{Step(build)}-vector");
    }

    /// <summary>The same on the back. Where no patch tells it, and for coverages that only the front has steps of, it is inferred from the front.</summary>
    /// <param name="build">The build.</param>
    public PatchDensity? OfBuildOnBack(BlackBuild build)
    {
        ArgumentNullException.ThrowIfNull(build);
        return Patch($"back-{Step(build)}-vector") ?? (OfBuild(build) is { } front ? front with { IsInferred = true } : null);
    }

    private static string Step(BlackBuild build) => build.Name switch { "safe" => "240", "full" => "400", var name => name };

    private static PatchDensity Merge(IEnumerable<PatchDensity> several)
    {
        var all = several.ToList();
        var read = all.Where(patch => !patch.IsLowerBound).ToList();
        if (read.Count == 0)
        {
            return all.MaxBy(patch => patch.Density)!;
        }

        // Sheets differ by more than each is measured to, where they do: the larger of the two spreads counts.
        var weights = read.Select(patch => 1 / (patch.UncertaintyDensity * patch.UncertaintyDensity)).ToList();
        var mean = read.Zip(weights, (patch, weight) => patch.Density * weight).Sum() / weights.Sum();
        var apart = read.Zip(weights, (patch, weight) => weight * Math.Pow(patch.Density - mean, 2)).Sum() / Math.Max(1, read.Count - 1);
        return read[0] with { Density = mean, UncertaintyDensity = Math.Sqrt(Math.Max(1, apart) / weights.Sum()) };
    }

    /// <summary>A patch by its name; null where no sheet told of it.</summary>
    /// <param name="id">The name.</param>
    public PatchDensity? Patch(string id) => Patches.FirstOrDefault(patch => patch.Id == id);

    /// <summary>Between two steps of the coverage row, by how far it is from each.</summary>
    private PatchDensity? OfCoverage(double coverage)
    {
        var percent = coverage * 100;
        var steps = Patches.Where(patch => patch.Id.StartsWith("front-C", StringComparison.Ordinal))
            .Select(patch => (Patch: patch, IsStep: double.TryParse(patch.Id[7..], System.Globalization.CultureInfo.InvariantCulture, out var step), Step: step))
            .Where(one => one.IsStep && double.IsFinite(one.Step)).OrderBy(one => one.Step).ToList();
        var below = steps.LastOrDefault(one => one.Step <= percent + 1e-6);
        var above = steps.FirstOrDefault(one => one.Step >= percent - 1e-6);
        if (below.Patch is null || above.Patch is null)
        {
            return null;
        }

        var share = above.Step > below.Step ? (percent - below.Step) / (above.Step - below.Step) : 0;
        return new(
            FormattableString.Invariant($"front-C{percent:0}"),
            below.Patch.Density + (share * (above.Patch.Density - below.Patch.Density)),
            Math.Max(below.Patch.UncertaintyDensity, above.Patch.UncertaintyDensity),
            below.Patch.IsLowerBound || above.Patch.IsLowerBound,
            IsInferred: share > 0);
    }
}
