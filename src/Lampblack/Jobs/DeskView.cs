using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Artwork;
using Lampblack.Checks;
using Lampblack.Edits;
using Lampblack.Findings;
using Lampblack.Imaging;
using Lampblack.Layout;
using Lampblack.Optics;
using Lampblack.Printers;
using Lampblack.Separations;
using Lampblack.SourceText;

namespace Lampblack.Jobs;

/// <summary>
/// A desk as the workshop shows it: every item in its place, the findings of reading and layout, and pictures of each panel's face when they are asked for.
/// A desk with faults is shown as far as it could be read. Never changes; safe to use from several threads.
/// </summary>
public sealed class DeskView
{
    private readonly LoadedDesk _loaded;

    private readonly TableNode _root;
    private readonly Lazy<ImmutableArray<ItemFact>> _deskFacts;

    // Rules and items take as long as the pictures do, and don't need each other: whoever shows all of it can ask for them side by side.
    private readonly Lazy<ImmutableArray<Finding>> _findings;
    private readonly Lazy<ImmutableArray<PanelView>> _panels;
    private readonly ImmutableArray<PanelArtwork> _artworks;
    private readonly PrintSetup _setup;
    private readonly SheetOptics _sheet;
    private readonly HatchKey _hatches;
    private readonly PrinterFile? _printer;
    private readonly ImmutableDictionary<string, double> _spreads;

    private DeskView(DeskSource source, LoadedDesk loaded, BuildRequest request, List<Finding> findings, ImmutableDictionary<string, double> spreads)
    {
        Source = source;
        _root = loaded.Read.Text.Value;
        _deskFacts = new(() => ItemFacts.OfDesk(_root));
        _loaded = loaded;
        _spreads = spreads;
        _printer = request.Printer;
        _findings = new(() =>
        {
            var ruled = PanelChecks.Check(Laid, isRead: !findings.Exists(finding => finding.Severity == Severity.Stop)).Where(finding => finding.Accepted is null);
            return [.. findings.Concat(ruled).Distinct()];
        });
        _artworks = [.. Laid.Panels.Select(PanelArtwork.Draw)];
        _setup = PrintSetup.Of(request, []);
        _sheet = KnownOptics.Of(_setup.Black, request.Printer);
        _hatches = HatchKey.Of(_artworks);
        PanelIds = [.. Laid.Panels.Select(panel => panel.Panel.Id)];
        _panels = new(() => [.. _artworks.Select(ItemViews.Of)]);
    }

    /// <summary>The desk file.</summary>
    public DeskSource Source { get; }

    /// <summary>What the maker calls the desk.</summary>
    public string Title => Laid.Desk.Title;

    /// <summary>Its panels, in the order of the file.</summary>
    public ImmutableArray<PanelView> Panels => _panels.Value;

    /// <summary>Their ids, which take no time.</summary>
    public ImmutableArray<string> PanelIds { get; }

    /// <summary>What reading and laying out found; what separating and lighting find comes with <see cref="Build"/>.</summary>
    public ImmutableArray<Finding> Findings => _findings.Value;

    /// <summary>The colour of the desk's lamps, <c>#rrggbb</c>.</summary>
    public string LampColour => LightAccount.Lamps(Laid.Desk.Light) is var light
        ? new Quantities.ScreenColour(Srgb.Code(light.Red), Srgb.Code(light.Green), Srgb.Code(light.Blue)).ToString() : string.Empty;

    /// <summary>How day and lit picture are mixed.</summary>
    public RoomMixing Mixing => new(_sheet.Paper.Reflectance, _sheet.Paper.Transmittance, RoomLight.Night.RoomShare, Imaging.PanelPictures.OpenLegend);

    /// <summary>The desk in its places, for other jobs.</summary>
    internal LaidDesk Laid => _loaded.Laid;

    /// <summary>Reads a desk and lays it out.</summary>
    /// <param name="source">The desk file.</param>
    /// <param name="request">Printer, black and spread; which outputs are wanted is not looked at.</param>
    /// <param name="spreadsMm">The spread of each panel by its id, as the last build planned it; the request's or the printer's usual one where it says nothing.</param>
    /// <param name="before">An earlier state of the same desk, to be quick: what is written as it was there is not laid out again. Null for none.</param>
    public static DeskView Of(DeskSource source, BuildRequest request, ImmutableDictionary<string, double>? spreadsMm = null, DeskView? before = null)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(request);
        var findings = new List<Finding>();
        var loaded = DeskLoading.Load(source, findings, before?._loaded);
        return new(source, loaded, request, findings, spreadsMm ?? ImmutableDictionary<string, double>.Empty);
    }

    /// <summary>A panel's whole face, by day and lit; null where there is no such panel.</summary>
    public FacePictures? Draw(string panel) => IndexOf(panel) is { } index ? Drawing(index).Draw(null) : null;

    /// <summary>What changed of a panel's face since an earlier state: windows that make the old pictures the new ones. Null where all of it is to be drawn anew.</summary>
    /// <param name="panel">The panel's id.</param>
    /// <param name="before">The earlier state.</param>
    public ImmutableArray<FacePictures>? DrawChanges(string panel, DeskView before)
    {
        ArgumentNullException.ThrowIfNull(before);
        if (IndexOf(panel) is not { } index || before.IndexOf(panel) is not { } earlier || Laid.Desk.Light != before.Laid.Desk.Light
            || _setup.Black != before._setup.Black || SpreadMm(panel) != before.SpreadMm(panel) || !_sheet.Equals(before._sheet) || _setup.Black.Ink.Space == Quantities.InkSpace.Gray)
        {
            return null;
        }

        var windows = ChangedPlaces.Between(before._artworks[earlier], _artworks[index], SpreadMm(panel) + ArtworkWindow.BeyondSpreadMm);
        return windows is { } places ? [.. places.Select(window => Drawing(index).Draw(window)).OfType<FacePictures>()] : null;
    }

    /// <summary>Front and mask of a panel as held to a lamp, to be laid over each other by hand; null where there is no such panel.</summary>
    public HeldToLamp? DrawHeldToLamp(string panel) => IndexOf(panel) is { } index ? HeldToLamp(index) : null;

    /// <summary>The facts of an item as they stand in the file; empty where there is none of that address, or it cannot be read.</summary>
    /// <param name="tableAddress">Panel id, '/', item id.</param>
    public ImmutableArray<ItemFact> FactsOf(string tableAddress) => ItemFacts.Of(_root, Laid, tableAddress);

    /// <summary>The facts of a panel itself as they stand in the file; empty where there is no such panel.</summary>
    /// <param name="panel">The panel's id.</param>
    public ImmutableArray<ItemFact> FactsOfPanel(string panel) => ItemFacts.OfPanel(_root, Laid, panel);

    /// <summary>The facts of the whole desk that change how it looks.</summary>
    public ImmutableArray<ItemFact> DeskFacts => _deskFacts.Value;

    /// <summary>The desk as it is cut and drilled.</summary>
    /// <param name="findings">All that was found of it, those of the slower checks too.</param>
    public FitView Fit(IEnumerable<Finding> findings) => FitView.Of(Laid, findings);

    /// <summary>The facts of how it is used and of what the maker works with.</summary>
    public ImmutableArray<ItemFact> BenchFacts => ItemFacts.OfBench(_root);

    /// <summary>The facts of how panels are cut from plates.</summary>
    public ImmutableArray<ItemFact> CuttingFacts => CutFacts.OfCutting(_root, Laid.Desk);

    /// <summary>The plates that the maker has or can buy, as they stand in the file; empty where none are listed.</summary>
    public ImmutableArray<PlateFacts> Plates => CutFacts.OfPlates(_root, Laid.Desk);

    /// <summary>The facts of how the panels are to be lit.</summary>
    public ImmutableArray<ItemFact> LightingFacts => LightFacts.OfLighting(_root);

    /// <summary>Plans the desk's light, or judges the emitters that it has.</summary>
    /// <param name="progress">Told what is being done.</param>
    /// <param name="stop">Ends the search for places; the best so far are taken.</param>
    /// <param name="cancellation">Ends everything.</param>
    /// <exception cref="OperationCanceledException">The work was ended.</exception>
    public LightView Light(IProgress<string> progress, CancellationToken stop, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(progress);
        if (Findings.Any(finding => finding.Severity == Severity.Stop))
        {
            return LightView.Nothing;
        }

        var findings = new List<Finding>();
        var light = DeskLight.Of(Laid, _artworks, _setup.Black, _printer, LightOptions.Usual with { Stop = stop }, findings, progress, cancellation);
        return LightView.Of(Laid, light, _artworks, _root, [.. findings.Distinct()], cancellation);
    }

    /// <summary>The facts of what the panels are wired to.</summary>
    public ImmutableArray<ItemFact> WiringFacts => Jobs.WiringFacts.Of(_root, Laid.Desk);

    /// <summary>Plans the desk's pins and wires; nothing without a controller. Emitters are planned first, as wires keep clear of them.</summary>
    /// <param name="lastPlan">The pin plan of the last build, which is kept where it can be; empty for none.</param>
    /// <param name="progress">Told what is being done.</param>
    /// <param name="stop">Ends the search for emitters' places; the best so far are taken.</param>
    /// <param name="cancellation">Ends everything.</param>
    /// <exception cref="OperationCanceledException">The work was ended.</exception>
    public WiringView Wiring(ImmutableArray<byte> lastPlan, IProgress<string> progress, CancellationToken stop, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(progress);
        if (Laid.Desk.Controller is null || Findings.Any(finding => finding.Severity == Severity.Stop))
        {
            return WiringView.Nothing;
        }

        var isLit = Laid.Desk.Lighting.Emitter is not null || Laid.Desk.Panels.Any(panel => !panel.Emitters.IsEmpty);
        var light = isLit ? DeskLight.Of(Laid, _artworks, _setup.Black, _printer, LightOptions.InBuild with { Stop = stop }, [], progress, cancellation) : DeskLight.Nothing;
        progress.Report("planning pins and wires");
        var findings = new List<Finding>();
        return DeskWiring.Of(Laid, light, lastPlan, withWires: true, findings, cancellation) is { } wiring ? WiringView.Of(wiring, [.. findings.Distinct()]) : WiringView.Nothing;
    }

    /// <summary>The facts of what changes the build book.</summary>
    public ImmutableArray<ItemFact> BookFacts => BookKeys.Of(_root, Laid.Desk);

    /// <summary>Writes the build book.</summary>
    /// <param name="request">Printer, paper and black, and the legend that is changed alone.</param>
    /// <param name="progress">Told what is being done.</param>
    /// <param name="stop">Ends the search for emitters' places; the best so far are taken.</param>
    /// <param name="cancellation">Ends everything.</param>
    /// <exception cref="OperationCanceledException">The work was ended.</exception>
    public BookView Book(BuildRequest request, IProgress<string> progress, CancellationToken stop, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        return Build.Run(Source, request with { Parts = BuildParts.Book }, progress, stop, cancellation) switch
        {
            { Book: { } book } => book,
            var stopped => BookView.Nothing with { Findings = stopped.Findings },
        };
    }

    /// <summary>The edit that adds plates, of the size of the last ones; of the common size that is assumed where there are none.</summary>
    public DeskEdit AnotherPlate => CutFacts.Another(Laid.Desk);

    private HeldToLamp HeldToLamp(int index)
    {
        // What was learned is undone, and its scatter is left; of a printer that nobody measured all is possible that sheets usually do.
        var (isLearned, shiftMm, turnDegrees) = _printer is { Register.IsEmpty: false } printer && RegisterEstimate.Of(printer).Scatter is var scatter
            ? (true, scatter.ShiftMm, scatter.TurnDegrees)
            : (false, RegisterEstimate.PriorShiftSdMm, RegisterEstimate.PriorTurnSdDegrees);
        return LampDrawing.Draw(_artworks[index], _setup, SpreadMm(_artworks[index].Laid.Panel.Id), _hatches, shiftMm, turnDegrees, isLearned);
    }

    private FaceDrawing Drawing(int index) =>
        new(_artworks[index], _setup, SpreadMm(_artworks[index].Laid.Panel.Id), _hatches, _sheet, LightAccount.Lamps(Laid.Desk.Light));

    private double SpreadMm(string panel) => _spreads.TryGetValue(panel, out var mm) ? mm : _setup.AskedSpreadMm ?? _setup.Printer.SpreadMm;

    private int? IndexOf(string panel) => _artworks.Index().Where(one => one.Item.Laid.Panel.Id == panel).Select(one => (int?)one.Index).FirstOrDefault();
}
