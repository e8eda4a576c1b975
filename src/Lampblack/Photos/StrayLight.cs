using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Photos;

/// <summary>
/// Light that lens and camera throw onto dark places, as shares of bare paper's: measured at the darkest patches, which are all but opaque. Elsewhere it is somewhere
/// between the same (a veil over the whole picture) and as much more or less as there is light around (a lens's own glow).
/// </summary>
internal sealed class StrayLight
{
    // Nobody knows which of the two: a quarter of their difference, and a tenth of the whole in any case.
    private const double BetweenShare = 0.35;
    private const double LeastShare = 0.1;

    // The opaque patches themselves may pass so much: density 2.7 at the least, two layers of all inks.
    private const double OpaqueSdShare = 0.0007;

    private readonly PatchShare? _darkest;

    private StrayLight(PatchShare? darkest) => _darkest = darkest;

    public static StrayLight Of(IReadOnlyDictionary<string, PatchShare> shares) =>
        new(shares.Where(share => share.Key.StartsWith("opaque-", StringComparison.Ordinal)).Select(share => share.Value).MinBy(share => share.Share));

    /// <summary>Whether stray light is measured by this very patch.</summary>
    public bool IsMeasuredBy(string id) => id.StartsWith("opaque-", StringComparison.Ordinal);

    public (double Share, double SdShare) At(PatchShare patch)
    {
        if (_darkest is not { } dark)
        {
            return (0.01, 0.01);
        }

        var even = dark.Share * patch.MeanShare / dark.MeanShare;
        var local = dark.Share * patch.AroundShare / Math.Max(1e-9, dark.AroundShare);
        var share = (even + local) / 2;
        var sd = Math.Sqrt(Math.Pow(BetweenShare * (even - local), 2) + Math.Pow(LeastShare * share, 2) + Math.Pow(dark.SdShare, 2) + Math.Pow(OpaqueSdShare, 2));
        return (share, sd);
    }
}
