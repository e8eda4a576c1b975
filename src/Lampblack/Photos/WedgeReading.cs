using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Numerics;
using Lampblack.Printers;

namespace Lampblack.Photos;

/// <summary>The densities of one sheet's patches, from all of its photos.</summary>
/// <param name="Patches">Each patch that a photo shows: measured, inferred from its layers, or a lower bound.</param>
/// <param name="Exposures">How many photos it rests on that are not alike in exposure.</param>
public sealed record WedgeReading(ImmutableArray<PatchDensity> Patches, int Exposures)
{
    /// <summary>99 % of a normal distribution lie below so many standard deviations.</summary>
    private const double Below99 = 2.326;

    // A camera's curve is taken for that of sRGB: it may be steeper or flatter by so much, and what is read from one exposure alone goes through all of the curve.
    private const double CurveSdOfBracket = 0.015;
    private const double CurveSdOfOne = 0.04;

    // Photos are alike in exposure within a third of a stop.
    private const double AlikeFactor = 1.26;

    // Where two photos show the sheet at the same place of the lens, in half diagonals.
    private const double SamePlace = 0.12;

    private const int FewestInCommon = 3;

    /// <summary>Puts the photos of one copy together; null where none shows both patches and paper.</summary>
    /// <param name="photos">What was read of each, of those too that are too dark or too bright to tell where side 2 lies.</param>
    public static WedgeReading? Of(IEnumerable<SheetPhoto> photos)
    {
        var all = photos.Select(photo => photo.Wedge).OfType<PhotoWedge>().Where(photo => !photo.Patches.IsEmpty).ToList();
        var own = all.Where(photo => !photo.IsPaperBlown).ToList();
        if (own.Count == 0)
        {
            return null;
        }

        // What is compared with its own paper first, then longer exposures tied to it by the patches they have in common.
        var readings = all.SelectMany(photo => photo.Patches).Select(patch => patch.Id).Distinct().ToDictionary(id => id, _ => new List<PatchShare>());
        var levels = new List<double>();
        foreach (var photo in own)
        {
            levels.Add(Robust.Median(photo.Patches.Select(patch => patch.Paper)));
            Add(readings, photo.Patches.Select(patch => (patch, PatchShare.Of(patch, patch.Paper, patch.PaperSdShare, photo.MeanLight))));
        }

        foreach (var (longer, reference) in all.Where(photo => photo.IsPaperBlown).Select(photo => (photo, Same(photo, own))).Where(pair => pair.Item2 is not null).OrderBy(pair => pair.photo.MeanLight))
        {
            var papers = reference!.Patches.ToDictionary(patch => patch.Id);
            var common = longer.Patches.Where(patch => patch.IsSound && papers.ContainsKey(patch.Id) && readings[patch.Id].Exists(one => one.IsSound))
                .Select(patch => patch.Light / (papers[patch.Id].Paper * PatchShare.Mean(readings[patch.Id]).Share)).ToList();
            if (common.Count < FewestInCommon)
            {
                continue;
            }

            var ratio = Robust.Median(common);
            var sd = Math.Max(0.003, 1.25 * Robust.Sd(common.Select(one => (one / ratio) - 1)) / Math.Sqrt(common.Count));
            levels.Add(ratio * levels[own.IndexOf(reference)]);
            Add(readings, longer.Patches.Where(patch => papers.ContainsKey(patch.Id)).Select(patch => (patch, PatchShare.Of(
                patch, ratio * papers[patch.Id].Paper, Math.Sqrt((sd * sd) + (papers[patch.Id].PaperSdShare * papers[patch.Id].PaperSdShare)), reference.MeanLight * ratio, ratio * papers[patch.Id].Around))));
        }

        levels.Sort();
        var exposures = 1 + levels.Zip(levels.Skip(1)).Count(pair => pair.Second > pair.First * AlikeFactor);
        var shares = readings.Where(reading => reading.Value.Count > 0).ToDictionary(reading => reading.Key, reading => PatchShare.Mean(reading.Value));
        var stray = StrayLight.Of(shares);
        var measured = shares.Select(share => Density(share.Key, share.Value, stray, exposures > 1 ? CurveSdOfBracket : CurveSdOfOne)).ToList();
        return new([.. measured.Select(patch => LayeredBlack.Infer(patch, measured))], exposures);
    }

    private static PatchDensity Density(string id, PatchShare patch, StrayLight stray, double curveSd)
    {
        var (light, lightSd) = stray.At(patch);
        var through = patch.Share - light;
        var sd = Math.Sqrt((patch.SdShare * patch.SdShare) + (lightSd * lightSd));
        var most = through + (Below99 * sd);

        // No lens lets a patch seem darker than it is. What is told apart from stray light with 99 % certainty and to a third of itself is a reading; the rest is a bound.
        if (through <= Below99 * sd || sd > through / 3 || !patch.IsSound || stray.IsMeasuredBy(id))
        {
            var bound = -Math.Log10(Math.Clamp(Math.Max(most, patch.Share * 0.02), 1e-6, 1));
            return new(id, Rounded(bound * (1 - (Below99 * curveSd))), 0, IsLowerBound: true);
        }

        var density = -Math.Log10(through / (1 - light));
        var own = sd / through / Math.Log(10);
        return new(id, Rounded(density), Math.Max(0.001, Rounded(Math.Sqrt((own * own) + Math.Pow(curveSd * density, 2) + Math.Pow(patch.PaperSdShare / Math.Log(10), 2)))), IsLowerBound: false);
    }

    private static PhotoWedge? Same(PhotoWedge photo, List<PhotoWedge> own)
    {
        var places = photo.Patches.ToDictionary(patch => patch.Id);
        return own.Where(other => other.Patches.All(patch => places.TryGetValue(patch.Id, out var here)
            && Math.Sqrt(Math.Pow(here.U - patch.U, 2) + Math.Pow(here.V - patch.V, 2)) < SamePlace)).MaxBy(other => other.MeanLight);
    }

    private static void Add(Dictionary<string, List<PatchShare>> readings, IEnumerable<(PatchLight Patch, PatchShare Share)> more)
    {
        foreach (var (patch, share) in more.ToList())
        {
            // What is blown says nothing; what is dim says no more than that it is at most so bright.
            if (!patch.IsBlown && readings.TryGetValue(patch.Id, out var known))
            {
                known.Add(share);
            }
        }
    }

    private static double Rounded(double value) => Math.Round(value, 3, MidpointRounding.AwayFromZero);
}
