using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Photos;
using Lampblack.Quantities;

namespace Lampblack.Jobs;

/// <summary>A control's hole as photos tell it.</summary>
/// <param name="Item">Panel and control, and the copy's number where there are several.</param>
/// <param name="DxMm">How far it lies to the right of its place.</param>
/// <param name="DyMm">How far above.</param>
/// <param name="SdMm">How well each is known, as a standard deviation.</param>
/// <param name="MeantDiameterMm">The diameter that the desk means its main hole to have.</param>
/// <param name="DiameterMm">The diameter of its main hole.</param>
/// <param name="DiameterSdMm">How well that is known.</param>
public sealed record DrilledHole(string Item, double DxMm, double DyMm, double SdMm, double MeantDiameterMm, double DiameterMm, double DiameterSdMm);

/// <summary>What photos of a drilled plate told, and what became of the desk file.</summary>
/// <param name="Marks">The desk file with it, as after marking by hand.</param>
/// <param name="Panel">The panel's id; null where no photo tells it.</param>
/// <param name="Holes">Its holes.</param>
/// <param name="Moves">What moves on the next print, in sentences.</param>
public sealed record DrilledPhotosResult(DrilledResult Marks, string? Panel, ImmutableArray<DrilledHole> Holes, ImmutableArray<string> Moves);

/// <summary>Marks controls as drilled by photos of the plate on its hole template.</summary>
public static class DrilledPhotos
{
    /// <summary>Reads photos and writes the holes that they show into the desk's text.</summary>
    /// <param name="source">The desk file.</param>
    /// <param name="photos">Names and contents.</param>
    /// <param name="panelId">The panel that they are to show; null for whichever they do.</param>
    /// <param name="progress">Told which photo is being read.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static Checked<DrilledPhotosResult> Run(
        DeskSource source, IEnumerable<(string Name, ReadOnlyMemory<byte> Bytes)> photos, string? panelId, IProgress<string> progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(photos);
        ArgumentNullException.ThrowIfNull(progress);
        var findings = new List<Finding>();
        var loading = new List<Finding>();
        var laid = DeskLoading.Load(source, loading);
        findings.AddRange(loading.Where(finding => finding.Severity == Severity.Stop));
        if (panelId is not null && laid.Desk.Panels.All(panel => panel.Id != panelId))
        {
            findings.Add(Finding.Stop("drilled-unknown", $"there is no panel {Shown.Code(panelId)}", $"the desk has {Shown.List(laid.Desk.Panels.Select(panel => Shown.Code(panel.Id)))}"));
        }

        if (findings.Count > 0)
        {
            return Nothing();
        }

        ImmutableArray<TemplatePlan> plans = [.. PaperSize.All.SelectMany(paper => HoleTemplates.Plan(laid, paper).Value)];
        var read = new List<TemplatePhoto>();
        foreach (var (name, bytes) in photos)
        {
            progress.Report($"reading {name}");
            var photo = TemplateReading.Read(name, bytes, plans, laid.Desk.Stack.PlateMm, cancellation);
            findings.AddRange(photo.Findings);
            if (photo.Value is { } seen)
            {
                read.Add(seen);
            }
        }

        var panel = panelId ?? (read.Count > 0 ? read[0].Plan.Panel.Id : null);
        findings.AddRange(read.Where(photo => photo.Plan.Panel.Id != panel).Select(photo => Finding.Stop(
            "drilled-page-panel",
            $"{Shown.Quoted(photo.FileName)} shows the page of the panel {Shown.Code(photo.Plan.Panel.Id)}, not of {Shown.Code(panel!)}",
            panelId is null ? "give the photos of one panel at a time" : "give the photo of that panel's page, or name the other panel with `--panel`")));
        if (findings.Any(finding => finding.Severity == Severity.Stop))
        {
            return Nothing();
        }

        var plate = DrilledPlate.Of(read, laid.Desk.Panels.First(one => one.Id == panel), findings);
        var marked = DrilledMarks.Mark(source, [.. plate.Typed], []);
        findings.AddRange(marked.Findings);
        var moves = marked.HasStop ? [] : DrilledMoves.Of(laid, marked.Value, source, panel!);
        return new(new(marked.Value, panel, plate.Holes, moves), [.. findings]);

        Checked<DrilledPhotosResult> Nothing() => new(new(DrilledMarks.Mark(source, [], []).Value, null, [], []), [.. findings]);
    }
}
