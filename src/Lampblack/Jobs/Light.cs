using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Printers;

namespace Lampblack.Jobs;

/// <summary>What the maker asked of a plan of light.</summary>
/// <param name="Paper">Name of the paper size, for pages and for what the paper lets through.</param>
/// <param name="PaperFrom">Where that name comes from.</param>
public sealed record LightRequest(string Paper, string PaperFrom)
{
    /// <summary>The finest step of the grid in answers.</summary>
    public const double FinestGridMm = 0.5;

    /// <summary>What was learned of the printer; null for nothing.</summary>
    public PrinterFile? Printer { get; init; }

    /// <summary>From one place of the answer's grid to the next.</summary>
    public double GridMm { get; init; } = 5;

    /// <summary>A file of emitters to judge in place of a plan; empty for none.</summary>
    public ImmutableArray<byte> Emitters { get; init; } = [];

    /// <summary>That file's name for findings.</summary>
    public string EmittersName { get; init; } = "emitters.toml";

    /// <summary>Another seed looks elsewhere.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>The panel that the answer is about; null for all.</summary>
    public string? Panel { get; init; }

    /// <summary>A photo of the lit panel, PNG or JPEG, to be held against the plan; empty for none.</summary>
    public ImmutableArray<byte> Photo { get; init; } = [];

    /// <summary>That file's name for findings.</summary>
    public string PhotoName { get; init; } = "photo.jpg";

    /// <summary>Where the panel's corners are in the photo, as <c>x,y x,y x,y x,y</c> from the upper left one clockwise; null to look for them.</summary>
    public string? Corners { get; init; }
}

/// <summary>Plans the light behind a desk's panels, or judges emitters that were chosen.</summary>
public static class Light
{
    /// <summary>Reads the desk and plans.</summary>
    /// <param name="source">The desk file.</param>
    /// <param name="request">What was asked for.</param>
    /// <param name="progress">Told what is being done.</param>
    /// <param name="stop">Ends the search for places; the best so far are taken.</param>
    public static LightResult Run(DeskSource source, LightRequest request, IProgress<string> progress, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(progress);
        var findings = new List<Finding>();
        progress.Report("reading the desk");
        var laid = DeskLoading.Load(source, findings);
        var setup = PrintSetup.Of(new(request.Paper, request.PaperFrom, Printer: request.Printer), findings);
        EmitterFile? given = null;
        if (!request.Emitters.IsDefaultOrEmpty)
        {
            var read = EmitterFile.Read(request.EmittersName, request.Emitters.AsSpan());
            findings.AddRange(read.Findings);
            given = read.Value;
        }

        if (request.Panel is { } wanted)
        {
            laid = laid with { Panels = [.. laid.Panels.Where(panel => panel.Panel.Id == wanted)] };
            if (laid.Panels.IsEmpty)
            {
                findings.Add(Finding.Stop("panel-unknown", $"the desk has no panel {Shown.Code(wanted)}", $"its panels are {Shown.List(laid.Desk.Panels.Select(panel => Shown.Code(panel.Id)))}"));
            }
        }

        if (!(request.GridMm is >= LightRequest.FinestGridMm and <= 1000))
        {
            findings.Add(Finding.Stop("grid-range", FormattableString.Invariant($"the grid's step must be from {LightRequest.FinestGridMm} to 1000 mm, found {request.GridMm}"), "5 mm is usual"));
        }

        if (findings.Any(finding => finding.Severity == Severity.Stop))
        {
            return new(laid.Desk.Title, Ordered(findings), () => [], DeskLight.Nothing, request);
        }

        if (laid.Desk.Lighting.Emitter is null && given is null)
        {
            findings.Add(Finding.Note(
                "emitter-assumed",
                $"the desk names no emitters; {Shown.Code(Parts.EmitterTypes.Usual.Id)} ({Parts.EmitterTypes.Usual.Name}) are taken",
                "write `emitter` under `[lighting]`; docs/light.md lists what there is",
                laid.Desk.Lighting.Span));
        }

        // A search that is stopped ends with its best; nothing of the rest is left out.
        var artworks = laid.Panels.AsParallel().AsOrdered().Select(PanelArtwork.Draw).ToImmutableArray();
        var light = DeskLight.Of(laid, artworks, setup.Black, request.Printer, new(given, request.Seed, stop), findings, progress, CancellationToken.None);
        var photo = request.Photo.IsDefaultOrEmpty ? null : LightPhoto.Of(light, artworks, request, findings, progress, stop);
        return new(laid.Desk.Title, Ordered(findings), () => LightFiles.Of(laid.Desk, light, setup) is { IsEmpty: false } files ? [.. files, Manifest.Write(files)] : [], light, request) { Photo = photo };
    }

    private static ImmutableArray<Finding> Ordered(List<Finding> findings) =>
        [.. findings.OrderByDescending(finding => finding.Severity).ThenBy(finding => finding.Span?.Line ?? 0)];
}
