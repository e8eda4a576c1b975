using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Geometry;

namespace Lampblack.Photos;

/// <summary>Where a panel was found in a photo.</summary>
/// <param name="Pose">The map.</param>
/// <param name="Correlation">How alike panel and photo are under it.</param>
/// <param name="OtherCorrelation">How alike they are the best other way round; 0 where none was tried.</param>
internal sealed record FoundPanel(PanelPose Pose, double Correlation, double OtherCorrelation);

/// <summary>Finds a lit panel in a photo taken in the dark.</summary>
internal static class LitPanelFinder
{
    /// <summary>The coarsest softening is this share of the panel's diagonal, each next one half of it.</summary>
    private const double CoarseShare = 0.03;

    private const double FinestMm = 0.5;

    /// <summary>Softer than this many pixels noise does no harm.</summary>
    private const double FinestPx = 1.5;

    /// <summary>Corners told by hand are a few mm off.</summary>
    private const double ToldMm = 2.5;

    /// <summary>A map that is so much less alike than the best is not followed further.</summary>
    private const double HopelessLag = 0.2;

    private const int MostStarts = 8;
    private const int MostKept = 3;

    /// <summary>Maps whose corners lie this share of the photo's diagonal apart are not the same.</summary>
    private const double OtherShare = 0.05;

    /// <summary>The place that fits best; null where nothing bright is there to lay the panel on.</summary>
    /// <param name="photo">The photo, coarse.</param>
    /// <param name="light">The photo in all its dots.</param>
    /// <param name="levels">Its light where nothing shines, and where it is brightest.</param>
    /// <param name="picture">How the panel ought to look.</param>
    /// <param name="shapes">What shines, in one or more choices.</param>
    /// <param name="told">Where the panel's corners are; none to look for them.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static FoundPanel? Find(
        SoftPicture photo, LightPlane light, (double Dark, double Bright) levels, LitPicture picture, IEnumerable<ImmutableArray<Region<PanelSpace>>> shapes, ImmutableArray<(double X, double Y)> told, CancellationToken cancellation)
    {
        var view = picture.View;
        var softMm = CoarseShare * Math.Sqrt((view.WidthMm * view.WidthMm) + (view.HeightMm * view.HeightMm));
        var whole = SoftPicture.Of(light, 1, cancellation);
        if (told.Length == 4)
        {
            return PanelPose.Through(view, light.Width, light.Height, told) is { } pose ? Best([pose], Math.Min(softMm, ToldMm)) : null;
        }

        var starts = BrightStarts.Of(photo, light.Width, light.Height, levels.Dark, levels.Bright, view, shapes).ToList();
        if (starts.Count == 0)
        {
            return null;
        }

        // The softening is meant for the panel's mm: starts of one scale are looked at together.
        var coarse = starts.GroupBy(pose => Math.Round(3 * Math.Log2(Math.Max(0.01, pose.PxPerMm)), MidpointRounding.AwayFromZero)).OrderBy(group => group.Key).SelectMany(group =>
        {
            cancellation.ThrowIfCancellationRequested();
            var level = new PanelLevel(picture, whole, levels.Dark, softMm, group.First().PxPerMm);
            return group.Select(pose => (Pose: pose, Correlation: level.Correlation(pose)));
        });
        return Best(Apart(coarse.OrderByDescending(one => one.Correlation), MostStarts).Select(one => one.Pose), softMm);

        FoundPanel? Best(IEnumerable<PanelPose> from, double softMm)
        {
            var kept = from.Select(pose => (Pose: pose, Correlation: 0.0)).ToList();
            var finestMm = FinestMm;
            for (var soft = softMm; kept.Count > 0; soft = Math.Max(soft / 2, finestMm))
            {
                finestMm = Math.Max(FinestMm, FinestPx / kept[0].Pose.PxPerMm);
                var refined = kept.Select(one =>
                {
                    cancellation.ThrowIfCancellationRequested();
                    return new PanelLevel(picture, whole, levels.Dark, soft, one.Pose.PxPerMm).Refine(one.Pose);
                }).OrderByDescending(one => one.Correlation).ToList();
                kept = Apart(refined.Where(one => one.Correlation > refined[0].Correlation - HopelessLag), MostKept);
                if (soft <= finestMm)
                {
                    break;
                }
            }

            return kept.Count == 0 ? null : new(kept[0].Pose, kept[0].Correlation, kept.Count > 1 ? kept[1].Correlation : 0);
        }

        List<(PanelPose Pose, double Correlation)> Apart(IEnumerable<(PanelPose Pose, double Correlation)> best, int most)
        {
            var kept = new List<(PanelPose Pose, double Correlation)>();
            var apart = OtherShare * Math.Sqrt(((double)light.Width * light.Width) + ((double)light.Height * light.Height));
            foreach (var one in best)
            {
                if (kept.Count < most && kept.TrueForAll(other => other.Pose.DistancePx(one.Pose) > apart))
                {
                    kept.Add(one);
                }
            }

            return kept;
        }
    }
}
