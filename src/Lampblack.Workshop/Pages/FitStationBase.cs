using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Threading.Tasks;
using Lampblack.Jobs;
using Lampblack.Workshop.Bench;
using Microsoft.AspNetCore.Components;

namespace Lampblack.Workshop.Pages;

/// <summary>The station where a panel is cut and drilled: what hands, bodies and tools have to say, and the drawings for the bench.</summary>
public class FitStationBase : ComponentBase, IDisposable
{
    private (int Version, int Findings) _seen = (-1, 0);

    /// <summary>The desk.</summary>
    [Parameter, EditorRequired]
    public DeskBench Bench { get; set; } = null!;

    /// <summary>Told an item that the maker wants to see.</summary>
    [Parameter]
    public EventCallback<string> OnItem { get; set; }

    /// <summary>The panels as they are cut and drilled.</summary>
    protected FitView View { get; private set; } = null!;

    /// <summary>How the desk is used, and what the maker works with.</summary>
    protected ImmutableArray<ItemFact> Facts { get; private set; } = [];

    /// <summary>Why the last edit was refused; null where it was not.</summary>
    protected string? Refused { get; set; }

    /// <summary>What was made last.</summary>
    protected MadeFiles? Made => Bench.Shop.Newest is { Number: > 0 } made ? made : null;

    /// <summary>What of it belongs to the bench.</summary>
    protected IEnumerable<OutputFile> BenchFiles => Made?.Files.Where(file => file.IsForBench) ?? [];

    /// <inheritdoc />
    public void Dispose()
    {
        GC.SuppressFinalize(this);
        Bench.Changed -= OnChanged;
    }

    /// <inheritdoc />
    protected override void OnInitialized()
    {
        Bench.Changed += OnChanged;
        Look();
    }

    /// <summary>Makes all files of the desk, as the station Print does.</summary>
    protected Task Make() => Bench.MakeSheets();

    /// <summary>Writes a fact.</summary>
    protected void Write(ItemFact fact, string? typed) => Refused = Bench.Do(FactEdits.Of(string.Empty, fact, typed ?? string.Empty)).Refusal;

    /// <summary>A fact's key as the name of a field of the page.</summary>
    protected static string IdOf(ItemFact fact) => fact.Key.Replace('.', '-');

    /// <summary>A choice in words.</summary>
    protected static string Worded(ItemFact fact, string choice) => (fact.Key, choice) switch
    {
        ("order", "A") => "A: glue, snap, drill through",
        ("order", "B") => "B: drill, glue, open from behind",
        ("order", "C") => "C: print behind the plate",
        _ => choice,
    };

    /// <summary>So many findings, in words.</summary>
    protected static string Counted(int count) => count == 1 ? "1 to look at" : FormattableString.Invariant($"{count} to look at");

    private void OnChanged(BenchNews news) => _ = InvokeAsync(() =>
    {
        Look();
        StateHasChanged();
    });

    /// <summary>Draws anew where the desk or its findings are others than those that are shown.</summary>
    private void Look()
    {
        (int Version, int Findings) now = (Bench.Version, Bench.Findings.Length);
        if (now != _seen)
        {
            _seen = now;
            View = Bench.View.Fit(Bench.Findings);
            Facts = Bench.View.BenchFacts;
        }
    }
}
