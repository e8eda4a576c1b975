using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Artwork;
using Lampblack.Findings;
using Lampblack.Layout;
using Lampblack.Lighting;
using Lampblack.Photos;

namespace Lampblack.Jobs;

/// <summary>A legend as planned, as seen in a photo, and as planned once more with what the photo says; each beside the mean of all that were measured.</summary>
/// <param name="Origin">The item.</param>
/// <param name="Words">What it says.</param>
/// <param name="Predicted">As planned.</param>
/// <param name="Seen">As seen; null where the photo does not show it.</param>
/// <param name="Corrected">With other walls, floor and emitters.</param>
/// <param name="IsCut">Whether the photo is cut off there, so that it is brighter than seen.</param>
internal sealed record PhotoLegend(Origin Origin, string Words, double Predicted, double? Seen, double Corrected, bool IsCut);

/// <summary>A photo of a lit panel beside the plan of its light.</summary>
/// <param name="Lighting">The plan.</param>
/// <param name="Photo">What was measured.</param>
/// <param name="Correction">What must be otherwise than planned.</param>
/// <param name="Legends">The legends.</param>
internal sealed record LightPhoto(PanelLighting Lighting, LitPhoto Photo, PhotoCorrection Correction, ImmutableArray<PhotoLegend> Legends)
{
    /// <summary>A legend is cut off where more than this share of it is.</summary>
    private const double CutShare = 0.02;

    /// <summary>What is seen darker than this beside the mean counts as this: noise has no logarithm.</summary>
    private const double LeastSeen = 0.005;

    /// <summary>Legends off by more than this after the correction are named. Ours, no source.</summary>
    private const double UnlikeFactor = 1.5;

    private const int MostNamed = 4;

    /// <summary>Reads the photo of the only panel of a plan.</summary>
    /// <param name="light">The plan.</param>
    /// <param name="artworks">Its panels, drawn.</param>
    /// <param name="request">The photo.</param>
    /// <param name="findings">Takes what is found.</param>
    /// <param name="progress">Told what is being done.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static LightPhoto? Of(DeskLight light, ImmutableArray<PanelArtwork> artworks, LightRequest request, List<Finding> findings, IProgress<string> progress, CancellationToken cancellation)
    {
        var corners = PhotoCorners.Read(request.Corners);
        findings.AddRange(corners.Findings);
        if (light.Panels.Length != 1)
        {
            findings.Add(Finding.Stop("photo-panel", "the desk has several panels, and the photo shows one", $"name it with `--panel`: {Shown.List(light.Panels.Select(panel => Shown.Code(panel.Laid.Panel.Id)))}"));
        }
        else if (!light.Panels[0].HasGeneral || light.Panels[0].Units.IsEmpty)
        {
            findings.Add(Finding.Stop("photo-panel", $"nothing on panel {Shown.Code(light.Panels[0].Laid.Panel.Id)} shines by a common light, so that a photo of it says nothing of the plan", "take the photo of a panel with lit legends"));
        }

        if (corners.HasStop || light.Panels is not [{ HasGeneral: true, Units.IsEmpty: false } lighting])
        {
            return null;
        }

        progress.Report($"reading {request.PhotoName}");
        var artwork = artworks.First(one => one.Laid.Panel.Id == lighting.Laid.Panel.Id);
        var areas = PhotoAreas.Of(lighting).Zip(lighting.Legends, (shape, legend) => new LitArea(shape, legend.CandelaPerM2)).ToImmutableArray();
        var read = LitPhoto.Read(request.PhotoName, request.Photo.AsMemory(), new(artwork.Laid.Outline.Bounds, areas, PhotoAreas.Unsure(artwork, lighting), corners.Value), cancellation);
        findings.AddRange(read.Findings);
        if (read.Value is not { } photo)
        {
            return null;
        }

        if (TooBright(request.PhotoName, photo, lighting) is { } bright)
        {
            findings.Add(bright);
            if (bright.Severity == Severity.Stop)
            {
                return null;
            }
        }

        progress.Report("correcting emitters and walls");
        var mean = photo.Areas.Where(area => double.IsFinite(area.LightShare)).Select(area => area.LightShare).DefaultIfEmpty(0).Average();
        var correction = PhotoCorrection.Of(lighting, [.. photo.Areas.Select(area => area.CutShare > CutShare ? double.NaN : Math.Max(area.LightShare, LeastSeen * mean))], cancellation);
        var result = new LightPhoto(lighting, photo, correction, Compare(lighting, photo, correction));
        findings.AddRange(result.Unlike());
        return result;
    }

    private static Finding? TooBright(string fileName, LitPhoto photo, PanelLighting lighting)
    {
        var cut = lighting.Legends.Where((_, index) => photo.Areas[index].CutShare > CutShare).ToList();
        if (cut.Count == 0)
        {
            return null;
        }

        var names = cut.Select(legend => legend.Piece.Origin.Item).Distinct(StringComparer.Ordinal).ToList();
        var found = $"{Shown.Quoted(fileName)} is cut off at {Shown.List(names.Take(MostNamed).Select(Shown.Code))}{(names.Count > MostNamed ? FormattableString.Invariant($" and {names.Count - MostNamed} more") : string.Empty)}: they are brighter than the photo can tell";
        const string Hint = "take it once more with a shorter exposure; half or a quarter will do";
        return 2 * cut.Count > lighting.Legends.Length ? Finding.Stop("photo-too-bright", found, Hint) : Finding.Warn("photo-too-bright", $"{found}, and were left out of the correction", Hint);
    }

    /// <summary>One entry for each item and what it says; stretches of long ones in the mean.</summary>
    private static ImmutableArray<PhotoLegend> Compare(PanelLighting lighting, LitPhoto photo, PhotoCorrection correction)
    {
        var groups = lighting.Legends.Select((legend, index) => (Legend: legend, Area: photo.Areas[index], Corrected: correction.CandelaPerM2[index]))
            .GroupBy(one => (one.Legend.Piece.Origin.Item, one.Legend.Piece.Words))
            .Select(group => (
                group.First().Legend.Piece,
                Predicted: group.Average(one => one.Legend.CandelaPerM2),
                Seen: group.Select(one => Math.Max(0, one.Area.LightShare)).Where(double.IsFinite).DefaultIfEmpty(double.NaN).Average(),
                Corrected: group.Average(one => one.Corrected),
                IsCut: group.Any(one => one.Area.CutShare > CutShare)))
            .ToList();
        var told = groups.Where(group => double.IsFinite(group.Seen) && !group.IsCut).ToList();
        if (told.Count == 0)
        {
            return [];
        }

        var (predicted, seen, corrected) = (told.Average(one => one.Predicted), Math.Max(1e-9, told.Average(one => one.Seen)), told.Average(one => one.Corrected));
        return [.. groups.Select(one => new PhotoLegend(one.Piece.Origin, one.Piece.Words, one.Predicted / predicted, double.IsFinite(one.Seen) ? one.Seen / seen : null, one.Corrected / corrected, one.IsCut))];
    }

    private IEnumerable<Finding> Unlike()
    {
        var told = Legends.Where(legend => legend is { Seen: not null, IsCut: false }).Select(legend => (Legend: legend, Off: Math.Log(Math.Max(LeastSeen, legend.Seen!.Value) / legend.Corrected))).ToList();
        var middle = told.Select(one => one.Off).Order().ElementAtOrDefault(told.Count / 2);
        foreach (var (legend, off) in told.Where(one => Math.Abs(one.Off - middle) > Math.Log(UnlikeFactor)))
        {
            var factor = Math.Exp(Math.Abs(off - middle));
            yield return Finding.Warn(
                "legend-unlike-photo",
                FormattableString.Invariant($"{Shown.Quoted(legend.Words)} of {Shown.Code(legend.Origin.Item)} is {factor:0.0} times {(off < middle ? "darker" : "brighter")} in the photo than walls and emitters explain; up to {UnlikeFactor} times is usual"),
                off < middle ? "look behind it: something is in the way, the print is glued badly there, or a part's body is larger than listed" : "look behind it: a part's body is smaller than listed, the mask is off, or light comes in beside the plate",
                legend.Origin.Span,
                legend.Origin.Item);
        }
    }
}
