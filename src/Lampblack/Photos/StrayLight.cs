using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Photos;

/// <summary>
/// Light that lens and camera throw onto dark places, as shares of bare paper's: measured at the darkest patches, less what passes them by their
/// two layers, each of which is a patch by itself. Elsewhere it is somewhere
/// between the same (a veil over the whole picture) and as much more or less as there is light around (a lens's own glow).
/// </summary>
internal sealed class StrayLight
{
    // Nobody knows which of the two: about a third of their difference, and a tenth of the whole in any case.
    private const double BetweenShare = 0.35;
    private const double LeastShare = 0.1;

    // How well two layers foretell what passes both: 0.065 in density. Where the layers aren't known, density 2.7 at the least for two layers of all inks.
    private const double LayersSdShare = 0.15;
    private const double UnknownSdShare = 0.002;
    private const double LeastSdShare = 0.0002;

    // Each round brings the light through single layers nearer by a factor of that light.
    private const int Rounds = 12;

    // As they are for printers with colours, and for those with black only.
    private static readonly (string Id, string Front, string Back)[] Opaque =
    [
        ("opaque-1", "front-400-vector", "back-400-vector"), ("opaque-2", "front-400-vector", "back-240-vector"),
        ("opaque-1", "front-gray-vector", "back-gray-vector"), ("opaque-2", "front-gray-vector", "back-K-vector"),
    ];

    private readonly PatchShare? _darkest;
    private readonly double _opaqueSd;

    private StrayLight(PatchShare? darkest, double opaqueSd) => (_darkest, _opaqueSd) = (darkest, opaqueSd);

    public static StrayLight Of(IReadOnlyDictionary<string, PatchShare> shares)
    {
        // A sheet with colours has gray patches as well, but they are no layers of its darkest.
        var isBlackOnly = !shares.Keys.Any(id => id.Contains("-400-", StringComparison.Ordinal));
        var places = (isBlackOnly ? Opaque[2..] : Opaque[..2]).Where(place => shares.ContainsKey(place.Id)).ToList();
        if (places.Count == 0)
        {
            return new(null, 0);
        }

        var place = places.MinBy(place => shares[place.Id].Share);
        var dark = shares[place.Id];
        if (!shares.TryGetValue(place.Front, out var front) || !shares.TryGetValue(place.Back, out var back))
        {
            return new(dark, UnknownSdShare);
        }

        var (stray, through) = (dark.Share, 0.0);
        for (var round = 0; round < Rounds; round++)
        {
            through = Math.Min(dark.Share, Math.Max(0, front.Share - stray) * Math.Max(0, back.Share - stray));
            stray = dark.Share - through;
        }

        return new(dark with { Share = stray }, LeastSdShare + (LayersSdShare * through));
    }

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
        var sd = Math.Sqrt(Math.Pow(BetweenShare * (even - local), 2) + Math.Pow(LeastShare * share, 2) + Math.Pow(dark.SdShare, 2) + Math.Pow(_opaqueSd, 2));
        return (share, sd);
    }
}
