using System;
using System.Collections.Immutable;
using System.Linq;
using System.Threading.Tasks;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Quantities;
using Lampblack.Workshop.Bench;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Routing;
using Microsoft.JSInterop;

namespace Lampblack.Workshop.Pages;

/// <summary>A station of the job.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Address">Its address.</param>
public sealed record Station(string Name, string Address);

/// <summary>The whole page: which station and which panel are shown, and what every station shares.</summary>
public class WorkshopPageBase : ComponentBase, IAsyncDisposable
{
    private const int ShortLength = 44;

    private IJSObjectReference? _room;

    /// <summary>The stations in the order of the work.</summary>
    protected static ImmutableArray<Station> Stations { get; } = [new("Artwork", ""), new("Print", "print"), new("Printer", "printer"), new("Fit", "fit"), new("Light", "light"), new("Wire", "wire"), new("Roll-call", "roll-call"), new("Book", "book")];

    /// <summary>The desk.</summary>
    [Inject]
    protected DeskBench Bench { get; set; } = null!;

    [Inject]
    private NavigationManager Navigation { get; set; } = null!;

    [Inject]
    private IJSRuntime Script { get; set; } = null!;

    /// <summary>The lamps, as a fact of the desk.</summary>
    protected ItemFact LampFact => Bench.View.DeskFacts.First(fact => fact.Key == "lighting.colour");

    /// <summary>The desk's name, as a fact of the desk.</summary>
    protected ItemFact NameFact => Bench.View.DeskFacts.First(fact => fact.Key == "title");

    /// <summary>The colour of the lamps.</summary>
    protected string Lamps => LampFact.Value.Length > 0 ? LampFact.Value : LampFact.Usual;

    /// <summary>Why the last edit of the desk's own facts was refused; null where it was not.</summary>
    protected string? Refused { get; set; }

    /// <summary>The station that is shown.</summary>
    protected Station Here { get; private set; } = Stations[0];

    /// <summary>In which unit the maker reads lengths. The page's own, as screens and rulers are; kept by the browser.</summary>
    protected LengthUnit Unit { get; private set; }

    /// <summary>The panel that is shown.</summary>
    protected string Panel { get; private set; } = string.Empty;

    /// <summary>What was done last, for a screen reader.</summary>
    protected string Said { get; private set; } = string.Empty;

    /// <summary>The station Artwork, while it is shown.</summary>
    protected ArtworkStation? Artwork { get; set; }

    /// <summary>What is held, kept while other stations are looked at.</summary>
    protected Hands Hands { get; } = new();

    /// <inheritdoc />
    protected override void OnInitialized()
    {
        Panel = Bench.View.Panels.FirstOrDefault()?.Id ?? string.Empty;
        Bench.Changed += OnChanged;
        Navigation.LocationChanged += OnMoved;
        Here = StationOf(Navigation.Uri);
    }

    /// <inheritdoc />
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (firstRender)
        {
            _room = await Script.InvokeAsync<IJSObjectReference>("import", "./_content/Lampblack.Workshop/room.js");
            await Light();
            if (await _room.InvokeAsync<string>("unit") == "in")
            {
                Measure(LengthUnit.Inch);
            }
        }
    }

    /// <summary>Tells lengths in another unit.</summary>
    protected void Measure(LengthUnit unit)
    {
        Unit = unit;
        StateHasChanged();
    }

    /// <summary>Takes the last edit back.</summary>
    protected void Undo() => Bench.Undo();

    /// <summary>Does again what was taken back.</summary>
    protected void Redo() => Bench.Redo();

    /// <summary>Writes one of the desk's own facts.</summary>
    protected void Write(ItemFact fact, string? typed) => Refused = Bench.Do(FactEdits.Of(string.Empty, fact, typed ?? string.Empty)).Refusal;

    /// <summary>Shows another panel.</summary>
    protected void ShowPanel(string panel)
    {
        Panel = panel;
        Hands.PutDown();
    }

    /// <summary>Leads to what a finding is about.</summary>
    protected Task Find(Finding finding) => FindItem(finding.Item);

    /// <summary>Leads to an item.</summary>
    protected async Task FindItem(string? item)
    {
        string? panel = item?.Split('/', 2)[0];
        if (panel is null || Bench.View.Panels.All(one => one.Id != panel))
        {
            return;
        }

        if (Here != Stations[0])
        {
            Navigation.NavigateTo(string.Empty);
        }

        Panel = panel;
        Hands.Take(Bench.View.Panels.First(one => one.Id == panel).Items.Where(one => one.Address == item || one.TableAddress == item).Take(1).Select(one => one.Address));
        StateHasChanged();
        await Task.Yield();
        if (Artwork is { } artwork)
        {
            await artwork.Focus();
        }
    }

    /// <summary>The first words of a step.</summary>
    protected static string Short(string? words) => words is null ? string.Empty : words.Length <= ShortLength ? words : words[..ShortLength] + "…";

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        Bench.Changed -= OnChanged;
        Navigation.LocationChanged -= OnMoved;
        await _room.PutAway();
    }

    private static Station StationOf(string address) =>
        Stations.FirstOrDefault(station => station.Address.Length > 0 && new Uri(address).AbsolutePath.TrimStart('/') == station.Address) ?? Stations[0];

    private void OnMoved(object? sender, LocationChangedEventArgs arguments) => _ = InvokeAsync(() =>
    {
        Here = StationOf(arguments.Location);
        StateHasChanged();
    });

    private void OnChanged(BenchNews news) => _ = InvokeAsync(async () =>
    {
        if (news.Words.Length > 0)
        {
            Said = news.Words;
        }

        if (Bench.View.Panels.All(panel => panel.Id != Panel))
        {
            Panel = Bench.View.Panels.FirstOrDefault()?.Id ?? string.Empty;
        }

        StateHasChanged();
        await Light();
    });

    /// <summary>Tells the page what its room is like: the lamps' colour, and how the pictures are mixed.</summary>
    private async Task Light()
    {
        if (_room is not null)
        {
            RoomMixing mixing = Bench.View.Mixing;
            await _room.InvokeVoidAsync("light", Bench.View.LampColour, mixing.PaperReflectance, mixing.PaperTransmittance, mixing.NightRoomShare, mixing.OpenLegendShare);
        }
    }
}
