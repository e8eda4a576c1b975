using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Threading.Tasks;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Workshop.Bench;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;

namespace Lampblack.Workshop.Pages;

/// <summary>The station where a printer is learned.</summary>
public class PrinterStationBase : ComponentBase, IAsyncDisposable
{
    private IJSObjectReference? _module;
    private PageScript? _dropping;
    private bool _isGone;
    private DotNetObjectReference<PrinterStationBase>? _self;
    private PhotosOfSheets? _drawn;

    [Inject]
    private IJSRuntime Script { get; set; } = null!;

    /// <summary>The desk.</summary>
    [Parameter, EditorRequired]
    public DeskBench Bench { get; set; } = null!;

    /// <summary>Where the station stands on the page.</summary>
    protected ElementReference Element { get; set; }

    /// <summary>The printer that is looked at; empty for one that is to be started.</summary>
    protected string Name { get; private set; } = string.Empty;

    /// <summary>The maker's printers.</summary>
    protected ImmutableArray<string> Names { get; private set; } = [];

    /// <summary>What is known of the printer; null where none is chosen.</summary>
    protected PrinterAccount? Account { get; private set; }

    /// <summary>What was learned, one thing after the other.</summary>
    protected ImmutableArray<string> Lessons { get; private set; } = [];

    /// <summary>All papers.</summary>
    protected static ImmutableArray<string> Papers { get; } = [.. PaperSize.All.Select(paper => paper.Name)];

    /// <summary>A printer that is being described.</summary>
    protected DescribedPrinter New { get; } = new() { Paper = UsualPaper.Here() };

    /// <summary>How many calibration sheets are wanted.</summary>
    protected int Copies { get; set; } = 3;

    /// <summary>What was read off verniers.</summary>
    protected string Verniers { get; set; } = string.Empty;

    /// <summary>The sheets that were made.</summary>
    protected MadeFiles? Made { get; private set; }

    /// <summary>Pictures of what the photos show.</summary>
    protected MadeFiles? ArrowFiles { get; private set; }

    /// <summary>What to do with the sheets.</summary>
    protected ImmutableArray<string> NextSteps { get; private set; } = [];

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        Bench.Changed -= OnChanged;
        _isGone = true;
        if (_dropping is not null)
        {
            await _dropping.PutAway();
        }

        await _module.PutAway();
        _self?.Dispose();
    }

    /// <inheritdoc />
    protected override void OnInitialized()
    {
        Bench.Changed += OnChanged;
        Names = Bench.Printers.Names();
        Choose(Bench.Settings.PrinterName.Length > 0 ? Bench.Settings.PrinterName : Names.IsEmpty ? string.Empty : Names[0]);
    }

    /// <inheritdoc />
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (firstRender)
        {
            _self = DotNetObjectReference.Create(this);
            _module = await Script.InvokeAsync<IJSObjectReference>("import", "./_content/Lampblack.Workshop/photos.js");
            _dropping = new(await _module.InvokeAsync<IJSObjectReference>("start", Element, _self));
            if (_isGone)
            {
                await _dropping.PutAway();
            }
        }
    }

    /// <summary>Looks at another printer.</summary>
    protected void Choose(string? name)
    {
        Name = name ?? string.Empty;
        (Made, NextSteps) = (null, []);
        PrinterFile? file = Name.Length == 0 ? null : Bench.Printers.Read(Name);
        Account = file is null ? null : PrinterFiles.Tell(file);
        Lessons = file is null ? [] : PrinterFiles.Lessons(file);
        if (file is not null && Bench.Settings.PrinterName == Name)
        {
            Bench.Choose(Bench.Settings with { Printer = file });
        }
    }

    /// <summary>Starts a printer.</summary>
    protected void Start()
    {
        if (Bench.Printers.Start(New.Said))
        {
            Names = Bench.Printers.Names();
            Choose(New.Name.Trim());
        }
    }

    /// <summary>Makes a sheet to learn from.</summary>
    protected void MakeSheet(bool whichWay)
    {
        ImmutableArray<OutputFile> files = whichWay ? Bench.Printers.WhichWay(Name) : Bench.Printers.Sheet(Name, Math.Clamp(Copies, 1, 9));
        if (!files.IsEmpty && Bench.Printers.Read(Name) is { } printer)
        {
            Made = Bench.Shop.Keep(files, string.Empty, null);
            NextSteps = whichWay ? [] : CalibrationSheetJob.NextSteps(printer, Name, Copies);
        }
    }

    /// <summary>Photos were dropped and taken.</summary>
    [JSInvokable]
    public async Task Dropped(string problem)
    {
        if (problem.Length > 0)
        {
            Bench.Printers.Complain(problem);
        }

        await Bench.Printers.Look(Name, OutputFolder.LastReport(Bench.OutputPath), Bench.Tell);
    }

    /// <summary>Stores what the photos show.</summary>
    protected void Accept()
    {
        if (Bench.Printers.Shown is { } shown)
        {
            Store(LearnAnswers.Nothing with { Photos = shown });
        }
    }

    /// <summary>Stores what was read off verniers.</summary>
    protected void StoreVerniers() => Store(LearnAnswers.Nothing with { Verniers = [Verniers] });

    /// <summary>Where side 2 lands, in words.</summary>
    protected static string Landing(LandingOfSide2 fit)
    {
        ArgumentNullException.ThrowIfNull(fit);

        // At the middle of the smallest paper; the account tells the rest.
        double x = fit.Affine[0][2] + ((fit.Affine[0][0] - 1) * 105) + (fit.Affine[0][1] * 148);
        double y = fit.Affine[1][2] + (fit.Affine[1][0] * 105) + ((fit.Affine[1][1] - 1) * 148);
        double turn = (fit.Affine[1][0] - fit.Affine[0][1]) / 2 * 180 / Math.PI;
        return string.Create(CultureInfo.InvariantCulture, $"Near the sheet's middle side 2 lies {Math.Abs(x):0.00} mm to the {(x < 0 ? "left" : "right")} and {Math.Abs(y):0.00} mm {(y < 0 ? "down" : "up")}, turned by {Math.Abs(turn):0.000}° {(turn < 0 ? "clockwise" : "counter-clockwise")}.");
    }

    /// <summary>A number for an attribute.</summary>
    protected static string Number(double number) => number.ToString("0.######", CultureInfo.InvariantCulture);

    private void Store(LearnAnswers answers)
    {
        if (Bench.Printers.Store(Name, answers))
        {
            Choose(Name);
        }
    }

    private void OnChanged(BenchNews news) => _ = InvokeAsync(() =>
    {
        if (!ReferenceEquals(_drawn, Bench.Printers.Shown))
        {
            _drawn = Bench.Printers.Shown;
            ArrowFiles = Bench.Printers.Arrows.IsEmpty ? null : Bench.Shop.Keep(Bench.Printers.Arrows, string.Empty, null);
        }

        StateHasChanged();
    });
}
