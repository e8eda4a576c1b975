using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Photos;

/// <summary>The light of a patch as a share of bare paper's there, stray light included.</summary>
/// <param name="Share">The share.</param>
/// <param name="SdShare">How well it is known without what paper itself adds.</param>
/// <param name="PaperSdShare">How well paper is known, as a share of it.</param>
/// <param name="MeanShare">Mean light of the whole photo, in the same terms.</param>
/// <param name="AroundShare">Mean light of the wider surroundings, in the same terms.</param>
/// <param name="IsSound">Whether it stands above the noise.</param>
internal sealed record PatchShare(double Share, double SdShare, double PaperSdShare, double MeanShare, double AroundShare, bool IsSound)
{
    public static PatchShare Of(PatchLight patch, double paper, double paperSdShare, double mean, double? around = null) =>
        new(patch.Light / paper, patch.SdLight / paper, paperSdShare, mean / paper, (around ?? patch.Around) / paper, patch.IsSound);

    /// <summary>Several of one patch: those that stand above the noise, or the one in which it is seen best.</summary>
    public static PatchShare Mean(IReadOnlyList<PatchShare> several)
    {
        var sound = several.Where(one => one.IsSound).ToList();
        if (sound.Count == 0)
        {
            return several.MinBy(one => one.SdShare)!;
        }

        // No reading is believed better than to half a percent of itself, so that one of many dots does not outweigh the others.
        var weights = sound.Select(one => 1 / ((one.SdShare * one.SdShare) + Math.Pow(0.005 * one.Share, 2))).ToList();
        var sum = weights.Sum();
        double Weighted(Func<PatchShare, double> value) => sound.Zip(weights, (one, weight) => value(one) * weight).Sum() / sum;
        return new(Weighted(one => one.Share), Math.Sqrt(1 / sum), Weighted(one => one.PaperSdShare), Weighted(one => one.MeanShare), Weighted(one => one.AroundShare), true);
    }
}
