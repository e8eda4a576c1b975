using System;
using System.Collections.Immutable;
using Lampblack.Jobs;
using Lampblack.Workshop.Bench;
using Microsoft.AspNetCore.Components;

namespace Lampblack.Workshop.Pages;

/// <summary>The station where the light behind the panels is planned: emitters, how evenly they light, cells, the circuit.</summary>
public class LightStationBase : ComponentBase, IDisposable
{
    /// <summary>The desk.</summary>
    [Parameter, EditorRequired]
    public DeskBench Bench { get; set; } = null!;

    /// <summary>Told an item that the maker wants to see.</summary>
    [Parameter]
    public EventCallback<string> OnItem { get; set; }

    /// <summary>Columns of the legends' table.</summary>
    protected static ImmutableArray<string> LegendHeads { get; } = ["legend", "cd/m2", "by the mean", "light behind it"];

    /// <summary>Columns of the cells' table.</summary>
    protected static ImmutableArray<string> CellHeads { get; } = ["light of its own", "cd/m2", "its cell", "light behind it"];

    /// <summary>Why the last edit was refused; null where it was not.</summary>
    protected string? Refused { get; set; }

    /// <inheritdoc />
    public void Dispose()
    {
        GC.SuppressFinalize(this);
        Bench.Changed -= OnChanged;
        Bench.Light.Changed -= OnPlanning;
    }

    /// <inheritdoc />
    protected override void OnInitialized()
    {
        Bench.Changed += OnChanged;
        Bench.Light.Changed += OnPlanning;
        Bench.Light.Want(Bench.View, Bench.Settings);
    }

    /// <summary>Writes a fact.</summary>
    protected void Write(string address, ItemFact fact, string? typed)
    {
        ArgumentNullException.ThrowIfNull(fact);
        Refused = Bench.Do(FactEdits.Of(address, fact, typed ?? string.Empty)).Refusal;
    }

    /// <summary>Gives an item another light.</summary>
    protected void WriteLight((LitRow Row, string Light) chosen)
    {
        if (chosen.Row.Light is { } fact)
        {
            // What is usual for it need not be written.
            Write(chosen.Row.TableAddress, fact, chosen.Light == fact.Usual ? string.Empty : chosen.Light);
        }
    }

    /// <summary>Writes the places into the desk, or takes them out.</summary>
    protected void Keep(LitPanel panel)
    {
        ArgumentNullException.ThrowIfNull(panel);
        Refused = panel.Keep is { } edit ? Bench.Do(edit).Refusal : null;
    }

    /// <summary>A fact's key as the name of a field of the page.</summary>
    protected static string IdOf(string key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return key.Replace('.', '-');
    }

    /// <summary>What is told where no emitters are chosen.</summary>
    protected static string? NoneOf(ItemFact fact)
    {
        ArgumentNullException.ThrowIfNull(fact);
        return fact.Key == "lighting.emitter" ? "none chosen yet" : null;
    }

    /// <summary>A choice in words.</summary>
    protected static string Worded(string choice) => LightView.Named(choice).Replace('-', ' ');

    private void OnChanged(BenchNews news) => _ = InvokeAsync(() =>
    {
        Bench.Light.Want(Bench.View, Bench.Settings);
        StateHasChanged();
    });

    private void OnPlanning() => _ = InvokeAsync(StateHasChanged);
}
