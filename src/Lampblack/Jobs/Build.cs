using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Artwork;
using Lampblack.Books;
using Lampblack.Checks;
using Lampblack.Fabrication;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Printers;
using Lampblack.Separations;
using Lampblack.Sheets;
using Lampblack.SourceText;

namespace Lampblack.Jobs;

/// <summary>The main job: from a desk file to print-ready sheets and pictures.</summary>
public static class Build
{
    /// <summary>Reads the desk, lays it out, separates it, imposes it and writes every output in memory.</summary>
    /// <param name="source">The desk file.</param>
    /// <param name="request">What the maker asked for.</param>
    /// <param name="progress">Told in a few words what is being made.</param>
    /// <param name="cancellation">Stops the work between two steps.</param>
    /// <exception cref="OperationCanceledException">The work was stopped.</exception>
    public static BuildResult Run(DeskSource source, BuildRequest request, IProgress<string> progress, CancellationToken cancellation) => Run(source, request, progress, CancellationToken.None, cancellation);

    /// <summary>The same, with a way to end the search for emitters' places: the best so far are taken.</summary>
    internal static BuildResult Run(DeskSource source, BuildRequest request, IProgress<string> progress, CancellationToken stop, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(progress);
        progress = SharedProgress.Of(progress);
        using var making = new FilesInMaking(cancellation);
        var findings = new List<Finding>();
        var setup = PrintSetup.Of(request, findings);
        progress.Report("reading the desk");
        var laid = DeskLoading.Load(source, findings);
        var last = ComparisonReport.Read(request.LastReport.AsMemory());
        findings.AddRange(DrilledChecks.Check(laid, last));
        findings.AddRange(source.IsMade ? [] : PanelChecks.Check(laid, isRead: !findings.Exists(finding => finding.Severity == Severity.Stop)));
        cancellation.ThrowIfCancellationRequested();

        var stages = new BuildStages(request.Parts);
        var isLit = stages.Light && DeskLight.IsAskedFor(laid.Desk);
        var coupon = Task.Run(() => stages.Coupon ? Coupon.Of(setup.Printer, setup.Black, setup.AskedSpreadMm ?? setup.Printer.SpreadMm, laid.Desk.Order) : null, cancellation);
        ImmutableArray<PanelArtwork> artworks = [];
        if (stages.Sides || isLit)
        {
            progress.Report("drawing the artwork");
            artworks = laid.Panels.AsParallel().AsOrdered().WithCancellation(cancellation).Select(PanelArtwork.Draw).ToImmutableArray();
        }

        // Nothing until the wires needs it.
        var lightFindings = new List<Finding>();
        var planned = isLit
            ? Task.Run(() => DeskLight.Of(laid, artworks, setup.Black, request.Printer, LightOptions.InBuild with { Stop = stop }, lightFindings, progress, cancellation), cancellation)
            : Task.FromResult(DeskLight.Nothing);
        var imposed = SheetComposer.Impose([.. laid.Panels.Select(panel => Blank(panel, Region<PanelSpace>.Empty))], setup.Paper, setup.Printer);
        var separated = SeparatedDesk.Nothing;
        if (stages.Sides)
        {
            progress.Report("separating front and mask");
            setup = setup with { Spreads = SpreadPlan.Of(request, setup, imposed.Value.Panels, artworks, findings) };
            separated = SeparatedDesk.Of(artworks, setup, request.SecondPass, findings, cancellation);
        }

        var panels = separated.Panels;
        var light = LightAccount.Of(laid.Desk.Light, separated.Sides, setup, request);
        findings.AddRange(light.Findings);
        var sheets = new Checked<ImmutableArray<Sheet>>([], []);
        if (stages.Sheets)
        {
            progress.Report("imposing the sheets");
            sheets = SheetComposer.Compose(
                laid.Desk.Title, imposed.Value, [.. panels.Select(panel => panel.Print)], setup.Printer, setup.Black, new(request.FillSheet, coupon.GetAwaiter().GetResult()));
        }

        findings.AddRange(imposed.Findings.Concat(sheets.Findings).Select(finding => Located(ForBench(finding, request), laid)));
        var bracket = stages.Sheets && request.BracketStepMm is { } stepMm
            ? Bracket.Plan(sheets.Value, setup.Printer, stepMm)
            : new Checked<ImmutableArray<BracketSheet>>([], []);
        findings.AddRange(bracket.Findings);
        var pages = SheetPages.Of(sheets.Value, setup.Printer);
        var toner = new List<PageToner>();

        // From here on files are made beside the search for light, wires and words, where nothing stands against them so far.
        if (!IsStopped(findings) && request.Parts.HasFlag(BuildParts.Print))
        {
            making.Begin(ending => PrintFiles.Of(laid.Desk.Title, pages, bracket.Value, setup, request, toner, ending));
            making.Begin(_ => TrialSheetFiles.Of(laid, separated.Sides, sheets.Value, setup, request));
        }
        else if (!IsStopped(findings) && HasBook(source, request))
        {
            making.Begin(ending => BookFiles.Prepare(panels, pages, ending));
        }

        // Sheets or pictures alone need neither, but for what the maker asked about drills and plates.
        var bench = new Checked<ImmutableArray<HoleChart>>([], []);
        if (stages.Bench || laid.Desk.Bench.Drills.IsStated || laid.Desk.Bench.PointDegrees is not null)
        {
            progress.Report("charting the holes");
            bench = BenchFiles.Charts(laid);
        }

        findings.AddRange(bench.Findings);
        var cut = stages.Bench || laid.Desk.Cutting.Span is not null ? DeskCut.InBuild(laid.Desk, findings, progress, cancellation) : CutSheetPlan.Nothing;
        var templates = stages.PhotoPages ? HoleTemplates.Plan(laid, setup.Paper) : new([], []);
        findings.AddRange(templates.Findings.Select(finding => Located(finding, laid)));
        var patch = Patch(laid, request, findings);
        var lighting = planned.GetAwaiter().GetResult();
        findings.AddRange(lightFindings);
        var wish = light.Wish(request) with { Light = lighting };
        if (!IsStopped(findings) && request.Parts.HasFlag(BuildParts.Pictures))
        {
            making.Begin(ending => PictureFiles.Of(laid.Desk.Light, panels, wish, ending));
        }

        if (laid.Desk.Controller is not null)
        {
            progress.Report("planning pins and wires");
        }

        var wiring = DeskWiring.Of(laid, lighting, request.LastWiring, stages.Wires, findings, cancellation);
        var firmware = wiring is not { IsDriven: true } ? [] : FirmwareFiles.Of(wiring.Pins, findings);
        lighting = lighting with { Circuit = DeskWiring.Named(lighting.Circuit, wiring) };
        cancellation.ThrowIfCancellationRequested();

        MadeBook? book = null;
        if (HasBook(source, request) && !IsStopped(findings))
        {
            progress.Report("writing the build book");
            book = BookFiles.Of(new(laid, panels, pages, bench.Value, cut, lighting, wiring, wish, setup, request), patch, findings, cancellation);
        }

        var ordered = Ordered(source.IsMade ? findings.Select(finding => (finding.Span?.File == source.Name ? finding with { Span = null, Item = null } : finding) with { Hint = ArtHints.AsOptions(finding.Hint) }) : findings);
        if (request.Parts == BuildParts.None || ordered.Any(finding => finding.Severity == Severity.Stop))
        {
            return new([], ordered, laid.Desk.Title, []) { SpreadsMm = SpreadsOf(separated), CutWhenAsked = new(() => CutView.Of(cut)) };
        }

        if (request.Parts.HasFlag(BuildParts.Print))
        {
            making.Begin(_ => HoleTemplates.Of(laid.Desk.Title, templates.Value, setup) is { } page ? [page] : []);
        }

        if (request.Parts.HasFlag(BuildParts.Bench))
        {
            var named = lighting;
            making.Begin(ending => ForBench(WiringFiles.Of(laid.Desk, wiring, setup, ending)));
            making.Begin(ending => ForBench(LightFiles.Of(laid.Desk, named, setup, ending)));
            making.Begin(ending => ForBench(BenchFiles.Of(laid.Desk, bench.Value, setup.Paper, setup.Black.Edge, setup.Printer, ending)));
            making.Begin(_ => ForBench(CutFiles.Of(laid.Desk.Title, cut, setup.Paper)));
        }

        if (Drawn(request.Parts) is { Length: > 0 } drawn)
        {
            progress.Report($"drawing {drawn}");
        }

        List<OutputFile> files = [.. book?.Files ?? [], .. making.Finish()];
        var cost = toner.Count == 0 ? null : new SheetCost([.. toner], sheets.Value.Length, request.Printer?.Cost ?? PrintCost.Unknown);
        if (wiring is not null)
        {
            files.Add(WiringPlanFile.Write(wiring.Pins) with { IsForBench = true });
            files.AddRange(FirmwareFiles.Files(firmware));
        }
        else if (WiringPlanFile.Kept(request.LastWiring) is { } kept)
        {
            files.Add(kept);
        }

        files.AddRange(FontLicences.Of(laid.Desk));
        var report = Report.Write(ordered, laid, separated.Sides, sheets.Value, light, cost, setup, request, cut, wiring);
        files.Add(report);
        files.Sort((first, second) => string.CompareOrdinal(first.Path, second.Path));
        files.Add(Manifest.Write(files));
        var changes = last is null ? [] : Comparison.Of(last, ComparisonReport.Read(report.Bytes.AsMemory()));
        return new([.. files], ordered, laid.Desk.Title, stages.Sides ? Summary(sheets.Value, setup, cost) : [])
        {
            Changes = changes,
            SpreadsMm = SpreadsOf(separated),
            MadeBook = book,
            BookWhenAsked = book is null ? null : new(() => book.View(laid, ordered)),
            DotPlaces = [.. sheets.Value.Select(DotPlace.Of).OfType<string>().Distinct()],
            CutWhenAsked = new(() => CutView.Of(cut)),
            GuideWhenAsked = request.Parts.HasFlag(BuildParts.Print) ? new(() => PrintGuide.Of(laid, sheets.Value, setup, request)) : null,
        };
    }

    private static bool IsStopped(List<Finding> findings) => findings.Exists(finding => finding.Severity == Severity.Stop);

    /// <summary>Artwork by itself has no desk file that a book could go back to.</summary>
    private static bool HasBook(DeskSource source, BuildRequest request) => request.Parts.HasFlag(BuildParts.Book) && !source.IsMade;

    private static IEnumerable<OutputFile> ForBench(IEnumerable<OutputFile> files) => files.Select(file => file with { IsForBench = true });

    /// <summary>The legend that is changed, where one was asked for.</summary>
    private static LegendPatch? Patch(LaidDesk laid, BuildRequest request, List<Finding> findings)
    {
        if (request.Legend is not { } item)
        {
            return null;
        }

        if (LegendPatch.Of(laid, item) is { } patch)
        {
            return patch;
        }

        var known = laid.Panels.SelectMany(panel => panel.Texts.Select(text => text.Origin.Item)).Distinct().ToList();
        findings.Add(Finding.Stop("legend-unknown", $"no legend is called {Shown.Code(item)}", $"take panel and item as in the desk file, such as {Shown.Code(Nearest.To(item, known) ?? known.FirstOrDefault() ?? "dome/shutter")}"));
        return null;
    }

    private static ImmutableDictionary<string, double> SpreadsOf(SeparatedDesk separated) =>
        separated.Sides.ToImmutableDictionary(separation => separation.Artwork.Laid.Panel.Id, separation => separation.SpreadMm, StringComparer.Ordinal);

    /// <summary>A panel of which nothing is separated yet: all that matters for where it goes.</summary>
    private static Printable Blank(LaidPanel laid, Region<PanelSpace> holes) =>
        new(laid.Panel.Id, laid.Panel.Title, laid.Panel.WidthMm, laid.Panel.HeightMm, PanelSeparation.BleedMm, [], [], holes);

    internal static Printable ToPrint(PanelSeparation separation, SecondPass secondPass)
    {
        var chokeMm = SecondPassAreas.ChokeMm(separation.SpreadMm, PrinterProperties.Unmeasured.SpreadMm);
        return Blank(separation.Artwork.Laid, separation.Artwork.Holes) with
        {
            Front = separation.Front,
            Mask = separation.Mask,
            SpreadMm = separation.SpreadMm,
            FrontAgain = secondPass.HasFlag(SecondPass.Front) ? SecondPassAreas.Front(separation, chokeMm) : [],
            MaskAgain = secondPass.HasFlag(SecondPass.Mask) ? SecondPassAreas.Mask(separation, chokeMm) : [],
        };
    }

    /// <summary>What no sheet has room for can still be drilled: its template goes over several pages.</summary>
    private static Finding ForBench(Finding finding, BuildRequest request) =>
        request.Parts == BuildParts.Bench && finding.Severity == Severity.Stop ? finding with { Severity = Severity.Warn } : finding;

    /// <summary>Sheets know panels by id only; the maker wants the place in the file.</summary>
    private static Finding Located(Finding finding, LaidDesk laid) => finding.Span is null
        && laid.Panels.FirstOrDefault(panel => panel.Panel.Id == finding.Item) is { } found
            ? finding with { Span = found.Panel.Span }
            : finding;

    /// <summary>What is still to be drawn, in words.</summary>
    private static string Drawn(BuildParts parts) => Shown.List(
        new[] { (BuildParts.Print, "sheets"), (BuildParts.Bench, "charts"), (BuildParts.Pictures, "pictures") }.Where(one => parts.HasFlag(one.Item1)).Select(one => one.Item2));

    private static ImmutableArray<Finding> Ordered(IEnumerable<Finding> findings) =>
    [
        .. findings.Distinct()
            .OrderByDescending(finding => finding.Severity)
            .ThenBy(finding => finding.Span?.Line ?? 0)
            .ThenBy(finding => finding.Span?.Column ?? 0)
            .ThenBy(finding => finding.Code, StringComparer.Ordinal),
    ];

    private static ImmutableArray<string> Summary(ImmutableArray<Sheet> sheets, PrintSetup setup, SheetCost? cost) =>
    [
        .. sheets.Select(sheet => string.Create(
            CultureInfo.InvariantCulture,
            $"{sheet.Id}, {sheet.Paper.Name}, pair {sheet.PairCode}: {string.Join(", ", sheet.Panels.GroupBy(panel => panel.Panel.Id).Select(group => group.Count() == 1 ? group.Key : $"{group.Key} x {group.Count()}"))}")),
        string.Create(
            CultureInfo.InvariantCulture,
            $"black build `{setup.Black.Name}` ({setup.Black.Ink.TotalCoverage * 100:0} % toner), openings {setup.Spreads.Words} mm larger all round"),
        .. cost is null ? [] : new[] { cost.Sentence() },
    ];
}
