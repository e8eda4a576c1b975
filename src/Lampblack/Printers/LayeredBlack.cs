using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Printers;

/// <summary>What two layers of toner keep back together where stray light hides it.</summary>
/// <remarks>
/// Layers that absorb multiply what they let through, and so do layers with pinholes, if the holes of the two don't know of each other: means of independent factors multiply.
/// Light thrown back between toner and paper makes the sum of the densities wrong by about 0.015 (Kubelka 1954; a film of density 1.5 on office paper).
/// </remarks>
internal static class LayeredBlack
{
    private const double LayersSdDensity = 0.05;

    /// <summary>The patch itself, or what its two layers say where it is only a bound, they were measured and the bound agrees.</summary>
    public static PatchDensity Infer(PatchDensity patch, IReadOnlyCollection<PatchDensity> all)
    {
        const string Both = "both-";
        if (!patch.IsLowerBound || !patch.Id.StartsWith(Both, StringComparison.Ordinal) || Single("front-") is not { } front || Single("back-") is not { } back)
        {
            return patch;
        }

        var sum = front.Density + back.Density;
        var sd = Math.Sqrt(Math.Pow(front.UncertaintyDensity, 2) + Math.Pow(back.UncertaintyDensity, 2) + Math.Pow(LayersSdDensity, 2));

        // Where the sum is well below what was seen, the layers aren't what they are by themselves: what was seen counts.
        return sum + sd < patch.Density
            ? patch
            : patch with { Density = Math.Round(sum, 3, MidpointRounding.AwayFromZero), UncertaintyDensity = Math.Round(sd, 3, MidpointRounding.AwayFromZero), IsLowerBound = false, IsInferred = true };

        PatchDensity? Single(string side) => all.FirstOrDefault(one => one.Id == side + patch.Id[Both.Length..] && !one.IsLowerBound);
    }
}
