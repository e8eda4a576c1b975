using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Printers;

/// <summary>Chooses the black that a printer is asked for where the maker names none.</summary>
internal static class DarkestBlack
{
    // Two that differ by less than the root of their variances times this are equally dark: 95 %.
    private const double Apart = 1.96;

    /// <summary>
    /// The builds with the default first: of those that hold, the darkest by the wedge; where others are as dark within what is known, the one with the least toner.
    /// As it was where the wedge does not tell the default's own darkness.
    /// </summary>
    public static ImmutableArray<BlackBuild> First(ImmutableArray<BlackBuild> builds, PrinterFile file)
    {
        var wedge = WedgeEstimate.Of(file);
        if (wedge.OfBuild(builds[0]) is null)
        {
            return builds;
        }

        // One layer is what every fuser is made for. What a driver makes of RGB nobody knows: up to three layers.
        var limit = CoverageLimit.Of(file);
        var known = builds.Where(build => build == builds[0] || build.Ink.TotalCoverage <= 1 || limit.Holds(build.Ink.TotalCoverage)).Where(build => !limit.Forbids(build.Ink.TotalCoverage))
            .Select(build => (Build: build, Dark: wedge.OfBuild(build))).Where(pair => pair.Dark is { IsLowerBound: false }).ToList();
        if (known.Count == 0)
        {
            return builds;
        }

        var darkest = known.MaxBy(pair => pair.Dark!.Density);
        var chosen = known.Where(pair => darkest.Dark!.Density - pair.Dark!.Density <= Apart * Math.Sqrt(Math.Pow(darkest.Dark.UncertaintyDensity, 2) + Math.Pow(pair.Dark.UncertaintyDensity, 2)))
            .MinBy(pair => pair.Build.Ink.TotalCoverage).Build;
        return [chosen, .. builds.Where(build => build != chosen)];
    }
}
