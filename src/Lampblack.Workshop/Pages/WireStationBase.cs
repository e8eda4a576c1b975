using System;
using System.Linq;
using Lampblack.Jobs;
using Lampblack.Workshop.Bench;
using Microsoft.AspNetCore.Components;

namespace Lampblack.Workshop.Pages;

/// <summary>The station where pins and wires are planned: the back of each panel, what goes where, tests with a meter.</summary>
public class WireStationBase : ComponentBase, IDisposable
{
    /// <summary>The desk.</summary>
    [Parameter, EditorRequired]
    public DeskBench Bench { get; set; } = null!;

    /// <summary>Told an item that the maker wants to see.</summary>
    [Parameter]
    public EventCallback<string> OnItem { get; set; }

    /// <summary>Why the last edit was refused; null where it was not.</summary>
    protected string? Refused { get; set; }

    /// <summary>Whether the desk names a controller.</summary>
    protected bool HasController => Bench.View.WiringFacts.Any(fact => fact.Key == "controller.chip" && fact.Value.Length > 0);

    /// <inheritdoc />
    public void Dispose()
    {
        GC.SuppressFinalize(this);
        Bench.Changed -= OnChanged;
        Bench.Wires.Changed -= OnPlanning;
    }

    /// <inheritdoc />
    protected override void OnInitialized()
    {
        Bench.Changed += OnChanged;
        Bench.Wires.Changed += OnPlanning;
        Bench.Wires.Want(Bench.View, Bench.Settings);
    }

    /// <summary>Writes a fact.</summary>
    protected void Write(ItemFact fact, string? typed) => Refused = Bench.Do(FactEdits.Of(string.Empty, fact, typed ?? string.Empty)).Refusal;

    /// <summary>A fact's key as the name of a field of the page.</summary>
    protected static string IdOf(string key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return key.Replace('.', '-');
    }

    /// <summary>What is told where no controller is chosen.</summary>
    protected static string? NoneOf(ItemFact fact)
    {
        ArgumentNullException.ThrowIfNull(fact);
        return fact.Key == "controller.chip" ? "none chosen yet" : null;
    }

    private void OnChanged(BenchNews news) => _ = InvokeAsync(() =>
    {
        Bench.Wires.Want(Bench.View, Bench.Settings);
        StateHasChanged();
    });

    private void OnPlanning() => _ = InvokeAsync(StateHasChanged);
}
