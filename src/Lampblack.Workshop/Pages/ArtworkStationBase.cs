using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Threading.Tasks;
using Lampblack.Edits;
using Lampblack.Jobs;
using Lampblack.Quantities;
using Lampblack.Workshop.Bench;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;

namespace Lampblack.Workshop.Pages;

/// <summary>The station where a panel is shaped by hand.</summary>
public partial class ArtworkStationBase : ComponentBase, IAsyncDisposable
{
    private IJSObjectReference? _module;
    private PageScript? _stage;
    private DotNetObjectReference<ArtworkStationBase>? _self;
    private (string Panel, bool IsLamp)? _onStage;
    private int _stagesAsked;

    [Inject]
    private IJSRuntime Script { get; set; } = null!;

    /// <summary>The desk.</summary>
    [Parameter, EditorRequired]
    public DeskBench Bench { get; set; } = null!;

    /// <summary>The panel that is shown.</summary>
    [Parameter, EditorRequired]
    public string Panel { get; set; } = string.Empty;

    /// <summary>Told when another panel is to be shown.</summary>
    [Parameter]
    public EventCallback<string> PanelChanged { get; set; }

    /// <summary>In which unit the maker reads lengths.</summary>
    [CascadingParameter]
    public LengthUnit Unit { get; set; }

    /// <summary>Told in which unit lengths are to be read.</summary>
    [Parameter]
    public EventCallback<LengthUnit> UnitChanged { get; set; }

    /// <summary>What is held.</summary>
    [Parameter, EditorRequired]
    public Hands Hands { get; set; } = null!;

    /// <summary>Where the panel is drawn.</summary>
    protected ElementReference StageElement { get; set; }

    /// <summary>Whether front and mask are held to a lamp.</summary>
    protected bool IsLamp { get; private set; }

    /// <summary>Why the last edit was refused; null where it was not.</summary>
    protected string? Refused { get; set; }

    /// <summary>An edit that costs more than a new print and waits for a yes.</summary>
    protected PricedEdit? Price { get; private set; }

    /// <summary>The panel that is shown; null where there is none.</summary>
    protected PanelView? Shown => Bench.View.Panels.FirstOrDefault(panel => panel.Id == Panel) ?? Bench.View.Panels.FirstOrDefault();

    /// <summary>Front and mask as filters of light; null while they are not looked at.</summary>
    protected HeldToLamp? Held => IsLamp && Shown is { } shown ? Bench.Lamp(shown.Id) : null;

    /// <summary>How far the back sheet can be moved by hand.</summary>
    protected string Reach => Number(Math.Max(0.3, Held?.ShiftMm ?? 1));

    /// <summary>How far it can be turned.</summary>
    protected string Turn => Number(Math.Max(0.1, Held?.TurnDegrees ?? 0.5));

    /// <summary>Puts the keyboard on what is held.</summary>
    public async Task Focus()
    {
        if (_stage is not null && Hands.Held.Length > 0)
        {
            await _stage.Tell("focusItem", Hands.Held[^1]);
        }
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        Bench.Changed -= OnChanged;
        _stagesAsked++;
        await PutAwayStage();
        await _module.PutAway();
        _self?.Dispose();
    }

    /// <inheritdoc />
    protected override void OnInitialized() => Bench.Changed += OnChanged;

    /// <inheritdoc />
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (firstRender)
        {
            _self = DotNetObjectReference.Create(this);
            _module = await Script.InvokeAsync<IJSObjectReference>("import", "./_content/Lampblack.Workshop/stage.js");
        }

        if (_module is null || Shown is not { } shown)
        {
            return;
        }

        if (_onStage != (shown.Id, IsLamp))
        {
            _onStage = (shown.Id, IsLamp);
            int mine = ++_stagesAsked;
            await PutAwayStage();
            PageScript started = new(await _module.InvokeAsync<IJSObjectReference>("start", StageElement, _self));
            if (mine != _stagesAsked)
            {
                // Meanwhile yet another panel is shown: two scripts under one picture would move everything twice.
                await started.PutAway();
                return;
            }

            _stage = started;
            await Whole(shown);
        }
        else if (_stage is not null)
        {
            await _stage.Tell("settle");
        }
    }

    /// <summary>Looks at the panel as it looks, or held to a lamp.</summary>
    protected void LookAs(bool lamp) => IsLamp = lamp;

    /// <summary>Tells why something was not done.</summary>
    protected void Tell(string why)
    {
        Refused = why;
        StateHasChanged();
    }

    /// <summary>A panel's size in words.</summary>
    protected string Size(PanelView panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        return $"{LengthWords.Number(panel.WidthMm, Unit)} × {LengthWords.Exact(panel.HeightMm, Unit)}";
    }

    /// <summary>A number for an attribute.</summary>
    protected static string Number(double number) => number.ToString("0.####", CultureInfo.InvariantCulture);

    /// <summary>Does the edit that waited.</summary>
    protected void Pay()
    {
        if (Price is { } price)
        {
            Price = null;
            Do(price.Edit, isPaid: true);
        }
    }

    /// <summary>Leaves all as it was.</summary>
    protected async Task Leave()
    {
        Price = null;
        if (_stage is not null)
        {
            await _stage.Tell("settle");
        }
    }

    /// <summary>Starts a panel.</summary>
    protected async Task AddPanel()
    {
        string[] taken = [.. Bench.View.Panels.Select(panel => panel.Id)];
        string id = taken.Length == 0 ? "main" : Enumerable.Range(taken.Length + 1, taken.Length + 1).Select(number => FormattableString.Invariant($"panel-{number}")).First(name => !taken.Contains(name));
        if (Do(new AddPanel(id, id.Replace('-', ' ').ToUpperInvariant(), 180, 110)) && taken.Length > 0)
        {
            await PanelChanged.InvokeAsync(id);
        }
    }

    /// <summary>Whether the plate's own facts are shown.</summary>
    protected bool IsPlateOpen { get; set; }

    /// <summary>Writes a fact of the plate itself. Screws come with the usual inset, as they are nowhere without one; without screws there is no inset.</summary>
    protected void Write(string panel, ItemFact fact, string? typed)
    {
        ArgumentNullException.ThrowIfNull(fact);
        bool isScrews = fact.Key == "fixings.part";
        if (isScrews && string.IsNullOrEmpty(typed))
        {
            Do(new SetKey(panel, "fixings", null));
        }
        else if (isScrews && fact.Value.Length == 0 && Bench.View.FactsOfPanel(panel).First(one => one.Key == "fixings.inset").Value.Length == 0)
        {
            Do(new SetKey(panel, "fixings", new KeyTable([("part", KeyValue.Of(typed!)), ("inset", new KeyNumber(6))])));
        }
        else
        {
            Do(FactEdits.Of(panel, fact, typed ?? string.Empty));
        }
    }

    /// <summary>Does an edit and holds what it made, if it made anything.</summary>
    protected bool Do(DeskEdit edit, bool isPaid = false, bool holdsResult = true)
    {
        EditOutcome outcome = Bench.Do(edit, isPaid);
        Refused = outcome.Refusal;
        Price = outcome.Cost is { } cost ? new(edit, cost) : null;
        if (Refused is null && Price is null && holdsResult && edit is AddItem or CopyItems or SplitCopies or Edits.Repeat)
        {
            Hold(outcome.Result.Items, edit is Edits.Repeat ? 1 : int.MaxValue);
        }

        StateHasChanged();
        return Refused is null && Price is null;
    }

    private void Hold(ImmutableArray<string> items, int most) => Hands.Take(Bench.View.Panels.SelectMany(panel => panel.Items).Where(item => items.Contains(item.Address) || items.Contains(item.TableAddress)).Take(most).Select(item => item.Address));

    private IEnumerable<ItemView> Items(IEnumerable<string> addresses) => addresses.Select(address => Shown?.Items.FirstOrDefault(item => item.Address == address)).OfType<ItemView>();

    private async Task PutAwayStage()
    {
        PageScript? last = _stage;
        _stage = null;
        if (last is not null)
        {
            await last.PutAway();
        }
    }

    /// <summary>Shows the whole panel anew.</summary>
    private async Task Whole(PanelView shown)
    {
        if (_stage is not { } stage)
        {
            return;
        }

        int version = Bench.Version;
        if (IsLamp)
        {
            HeldToLamp? held = await Task.Run(() => Bench.Lamp(shown.Id));
            await stage.Tell("lamp", FormattableString.Invariant($"lamp/{shown.Id}/{version}/"), held?.MmPerDot ?? 1);
        }
        else
        {
            await stage.Tell("whole", FormattableString.Invariant($"face/{shown.Id}/{version}/"), shown.Frame.WidthPx, shown.Frame.HeightPx);
        }
    }

    private void OnChanged(BenchNews news) => _ = InvokeAsync(async () =>
    {
        Hands.Take(Hands.Held.Where(address => Bench.View.Panels.Any(panel => panel.Items.Any(item => item.Address == address))));
        StateHasChanged();
        if (_stage is not { } stage || Shown is not { } shown || !news.Faces.TryGetValue(shown.Id, out ImmutableArray<FacePictures>? windows))
        {
            return;
        }

        if (IsLamp || windows is not { } places)
        {
            await Whole(shown);
            return;
        }

        foreach (FacePictures window in places)
        {
            await stage.Tell("patch", window.LeftPx, window.TopPx, window.WidthPx, window.HeightPx, window.DayPng.AsSpan().ToArray(), window.LitPng.AsSpan().ToArray());
        }
    });
}

/// <summary>An edit that costs more than a new print.</summary>
/// <param name="Edit">The edit.</param>
/// <param name="Words">What it costs.</param>
public sealed record PricedEdit(DeskEdit Edit, string Words);
